import { cellAddress } from "../formula/address";
import { columnsOfSort } from "../functions/event/sorts";
import { isTitled, readHeading, titlesOf } from "../functions/headings";
import { readDateTime } from "../functions/read-text";
import type { NewChoice, NewTable } from "../workbook/create-sheet";
import type { CellValue } from "../workbook/model";
import type { LookName, SheetDraft } from "./look";

/** A value with a look of its own, where a column holds values of several kinds. */
export interface StyledValue {
  readonly value: CellValue;
  readonly look: LookName;
}

type Content = CellValue | StyledValue;
type Sort = Parameters<typeof columnsOfSort>[0];

/** A table that a person fills in, known to formulas by its name. */
export interface SampleTable {
  readonly name: string;
  /** What it is to the functions; absent where none of them reads it. */
  readonly sort?: Sort;
  /** What stands above it where it shares its sheet. */
  readonly title: string;
  /** Headings in their order, each with the look of its cells. */
  readonly columns: Readonly<Record<string, LookName>>;
  readonly rows: readonly Readonly<Record<string, Content>>[];
  /** Blank rows below, ready to be typed in. */
  readonly spare: number;
}

/** A table whose rows may only name its columns. */
export function sampleTable<const Column extends string>(
  table: Omit<SampleTable, "columns" | "rows"> & {
    readonly columns: Readonly<Record<Column, LookName>>;
    readonly rows: readonly Readonly<Partial<Record<NoInfer<Column>, Content>>>[];
  },
): SampleTable {
  return table as SampleTable;
}

/** A date and time as Excel counts days. */
export function serial(text: string): number {
  const reading = readDateTime(text);
  if (reading.kind !== "number") throw new Error(`"${text}" is no date`);
  return reading.value;
}

export const money = (value: number): StyledValue => ({ value, look: "inputMoney" });
export const share = (value: number): StyledValue => ({ value, look: "inputShare" });
export const moment = (text: string): StyledValue => ({ value: serial(text), look: "inputDateTime" });

const isTyped = (content: Content): content is StyledValue =>
  typeof content === "object" && content !== null && "look" in content;

function styled(content: Content, look: LookName): StyledValue {
  if (isTyped(content)) return content;
  return { value: content, look: look === "input" && typeof content === "number" ? "inputNumber" : look };
}

/** Where a placed table stands; rows and columns count from 1. */
export interface PlacedTable {
  readonly table: NewTable;
  readonly choices: readonly NewChoice[];
  /** Widths of its columns in characters, from its first. */
  readonly widths: readonly number[];
}

const NARROWEST = 10;
/** Room beside the longest word, since fonts differ from computer to computer. */
const ROOM = 4;
const WIDEST = 30;
const MOST_CHOICES = 255;

/** Writes a table onto a sheet with its headings in `row`, and says what the sheet must know of it. */
export function placeTable(sheet: SheetDraft, table: SampleTable, row: number, column: number): PlacedTable {
  const heads = Object.keys(table.columns);
  const first = row + 1;
  const last = row + Math.max(1, table.rows.length + table.spare);
  heads.forEach((head, across) => {
    sheet.put(row, column + across, head, "head");
    const look = table.columns[head] ?? "input";
    for (let at = first; at <= last; at += 1) {
      const { value, look: own } = styled(table.rows[at - first]?.[head] ?? null, look);
      sheet.put(at, column + across, value, own);
    }
  });
  const range = (from: number, across: number, to = across): string =>
    `${cellAddress(from - 1, column - 1 + across)}:${cellAddress(last - 1, column - 1 + to)}`;
  return {
    table: { name: table.name, range: range(row, 0, heads.length - 1) },
    choices: heads.flatMap((head, across) => {
      const from = choicesOf(table.sort, head);
      return from === undefined ? [] : [{ range: range(first, across), from }];
    }),
    widths: heads.map((head) => widthOf(table, head)),
  };
}

function choicesOf(sort: Sort | undefined, head: string): readonly string[] | undefined {
  if (sort === undefined) return undefined;
  const heading = readHeading(head);
  const column = columnsOfSort(sort).find((candidate) => isTitled(heading, titlesOf(candidate)));
  if (column?.kind === "flag") return ["yes", "no"];
  const words = column?.kind === "choice" ? (column.options ?? []) : [];
  return words.length === 0 || words.join().length > MOST_CHOICES ? undefined : words;
}

function widthOf({ rows, columns }: SampleTable, head: string): number {
  const lengths = rows.map((row) => {
    const { value, look } = styled(row[head] ?? null, columns[head] ?? "input");
    return look === "inputDateTime" ? "2027-06-19 09:00".length : String(value ?? "").length;
  });
  const longestWord = Math.max(...head.split(" ").map((word) => word.length));
  return Math.min(WIDEST, Math.max(NARROWEST, longestWord + ROOM, ...lengths.map((length) => length + ROOM)));
}
