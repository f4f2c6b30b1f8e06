import { isTextTable, readingText, textWorkbook } from "../workbook/text-workbook";

/** A file as the page opens it; `note` says what was done to it on the way. */
export interface TakenFile {
  readonly bytes: Uint8Array;
  readonly name: string;
  readonly note?: string;
}

/** Cells named in one sentence; the status line holds no more. */
const MOST_NAMED = 3;

/**
 * A file that a person chose: a table of text such as a supplier's .csv becomes a workbook, with how it was read. Throws a
 * WorkbookError for text that cannot be read.
 *
 * @param now ISO 8601
 */
export function takenFile(bytes: Uint8Array, name: string, now: string): TakenFile {
  if (!isTextTable(name, bytes)) return { bytes, name };
  const text = textWorkbook(bytes, name, now);
  const { unclear } = text.reading;
  const named = unclear.slice(0, MOST_NAMED).map((cell) => `${cell.cell} ${cell.text} (${cell.why})`);
  if (unclear.length > MOST_NAMED) named.push(`and ${unclear.length - MOST_NAMED} more`);
  const cells = `${unclear.length} ${unclear.length === 1 ? "cell stays" : "cells stay"} text`;
  const doubts = unclear.length === 0 ? "" : `; ${cells} because of two readings: ${named.join(", ")}`;
  return {
    bytes: text.bytes,
    name: `${name.replace(/\.[^.]*$/, "")}.xlsx`,
    note: `${name} was read as ${readingText(text.reading)}${doubts}`,
  };
}
