import { cellAddress, columnLetters, MAX_COLUMNS, MAX_ROWS, sheetNameFault } from "../formula/address";
import { createWorkbook } from "./create";
import type { NewCell } from "./create-sheet";
import { findSeparator, parseDelimited, type Separator, SEPARATORS } from "./delimited";
import { type FieldStyle, fieldStyle, type FieldValue, fieldValue } from "./field-values";
import { WorkbookError } from "./model";
import { type DecodedText, decodeText } from "./text-encoding";

/** How a text file was read as a table. */
export interface TextReading extends FieldStyle {
  readonly sheet: string;
  readonly encoding: DecodedText["encoding"];
  readonly separator: Separator | undefined;
  readonly rows: number;
  readonly columns: number;
  /** Cells that stay text although they may be numbers or dates, and why. */
  readonly unclear: readonly { readonly cell: string; readonly text: string; readonly why: string }[];
}

const NAMES: Readonly<Record<Separator, string>> = {
  "\t": "tabs",
  ";": "semicolons",
  ",": "commas",
  "|": "bars",
};
const MOST_BYTES = 50 * 2 ** 20;
const MOST_FIELDS = 1_000_000;
const WIDEST = 60;
const MEASURED_ROWS = 200;

/** Whether a file is to be read as a table of text: by its name, unless it is a container of something else. */
export function isTextTable(name: string, bytes: Uint8Array): boolean {
  const isContainer = (bytes[0] === 0x50 && bytes[1] === 0x4b) || (bytes[0] === 0xd0 && bytes[1] === 0xcf);
  return /\.(?:csv|tsv|tab|txt)$/i.test(name) && !isContainer;
}

/** What was recognised, as a person reads it. */
export function readingText(reading: TextReading): string {
  const { encoding, separator, decimalMark, dateOrder, rows, columns } = reading;
  return [
    `${encoding} text`,
    ...(separator === undefined ? [] : [`columns between ${NAMES[separator]}`]),
    ...(decimalMark === undefined
      ? []
      : [
          decimalMark === "mixed"
            ? "decimal commas and points"
            : `decimal ${decimalMark === "," ? "comma" : "point"}`,
        ]),
    ...(dateOrder === undefined
      ? []
      : [dateOrder === "mixed" ? "dates in both orders" : `dates ${dateOrder}`]),
    `${rows} ${rows === 1 ? "row" : "rows"}, ${columns} ${columns === 1 ? "column" : "columns"}`,
  ].join(", ");
}

/** A name that a sheet can have, from that of a file. */
function sheetName(file: string): string {
  const name = file
    .replace(/\.[^.]*$/, "")
    .replace(/[\\/?*[\]:]/g, " ")
    .replace(/^[' ]+|[' ]+$/g, "")
    .slice(0, 31)
    .replace(/[' ]+$/, "");
  return sheetNameFault(name) === undefined ? name : "Table";
}

/** The separator that a file names in its first line, as Excel writes and reads it, and the text behind that line. */
function namedSeparator(text: string): { readonly separator: Separator | undefined; readonly rest: string } {
  const match = /^sep=([^\r\n])(?:\r\n|\r|\n)/i.exec(text);
  const separator = SEPARATORS.find((sign) => sign === match?.[1]);
  return separator === undefined
    ? { separator: findSeparator(text), rest: text }
    : { separator, rest: text.slice(match?.[0].length) };
}

function readRecords(text: string, separator: Separator | undefined): string[][] {
  // A quote that nothing closes stands for inches.
  const records = parseDelimited(text, separator) ?? parseDelimited(text, separator, false) ?? [];
  while (records.at(-1)?.every((field) => field === "") === true) records.pop();
  const fields = records.reduce((sum, record) => sum + record.length, 0);
  const columns = records.reduce((most, record) => Math.max(most, record.length), 0);
  if (fields > MOST_FIELDS || records.length > MAX_ROWS || columns > MAX_COLUMNS) {
    throw new WorkbookError(
      `the file is too large to open: ${records.length} rows and ${columns} columns, at most ${MOST_FIELDS} fields`,
    );
  }
  return records;
}

function columnWidths(
  records: readonly (readonly string[])[],
  columns: number,
): Readonly<Record<string, number>> {
  const head = records.slice(0, MEASURED_ROWS);
  return Object.fromEntries(
    Array.from({ length: columns }, (_, column) => {
      const longest = head.reduce((most, record) => Math.max(most, record[column]?.length ?? 0), 6);
      return [columnLetters(column), Math.min(WIDEST, longest + 2)];
    }),
  );
}

/**
 * A text file, such as a supplier's .csv, as a workbook with one sheet, and how it was read: encoding, separator, decimal
 * mark and the order of dates are recognised from the file. Throws WorkbookError for a file that is no text or too large.
 *
 * @param name the file's name, which names the sheet
 * @param date date and time that the workbook is to carry, such as `2026-01-01T00:00:00Z`
 */
export function textWorkbook(
  bytes: Uint8Array,
  name: string,
  date: string,
): { readonly bytes: Uint8Array; readonly reading: TextReading } {
  if (bytes.length === 0) throw new WorkbookError("the file is empty");
  if (bytes.length > MOST_BYTES)
    throw new WorkbookError("the file is too large to open: more than 50 MB of text");
  const { text, encoding } = decodeText(bytes);
  if (/[^\P{Cc}\t\n\r\f\x1a\x80-\x9f]/u.test(text))
    throw new WorkbookError("the file is not text, whatever its name says");
  const { separator, rest } = namedSeparator(text);
  const records = readRecords(rest, separator);
  if (records.length === 0) throw new WorkbookError("the file is empty");
  const style = fieldStyle(records.flat());
  const columns = records.reduce((most, record) => Math.max(most, record.length), 0);
  const cells: Record<string, NewCell> = {};
  const unclear: { cell: string; text: string; why: string }[] = [];
  for (const [row, record] of records.entries()) {
    for (const [column, field] of record.entries()) {
      const found = fieldValue(field, style);
      const address = cellAddress(row, column);
      if (found.unclear !== undefined) unclear.push({ cell: address, text: field, why: found.unclear });
      if (found.value !== null) cells[address] = newCell(found);
    }
  }
  const sheet = { name: sheetName(name), cells, columnWidths: columnWidths(records, columns) };
  const workbook = { author: "", generator: "balloon-decor-functions", date, sheets: [sheet] };
  return {
    bytes: createWorkbook(workbook),
    reading: { sheet: sheet.name, encoding, separator, ...style, rows: records.length, columns, unclear },
  };
}

function newCell({ value, numberFormat }: FieldValue): NewCell {
  return numberFormat === undefined ? { value } : { value, style: { numberFormat } };
}
