import { shownCell } from "../paper/shown-cell";
import type { SheetModel, WorkbookModel } from "../workbook/model";

/** The filled part of a sheet as rows of shown cells; rows and columns without any content are left out. */
export function shownRows(workbook: WorkbookModel, sheet: SheetModel): readonly (readonly TextCell[])[] {
  const filled = sheet.cells.filter((cell) => cell.value !== null && cell.value !== "");
  const columns = [...new Set(filled.map((cell) => cell.column))].sort((a, b) => a - b);
  const rows = [...new Set(filled.map((cell) => cell.row))].sort((a, b) => a - b);
  const byPlace = new Map(filled.map((cell) => [`${cell.row} ${cell.column}`, cell]));
  return rows.map((row) =>
    columns.map((column) => {
      const cell = byPlace.get(`${row} ${column}`);
      if (cell === undefined) return { text: "", isNumber: false };
      const numberFormat = workbook.styles[cell.style]?.numberFormat ?? "General";
      return { text: shownCell(cell.value, numberFormat), isNumber: typeof cell.value === "number" };
    }),
  );
}

/** A cell of a table for the terminal. */
export interface TextCell {
  readonly text: string;
  readonly isNumber: boolean;
}

/** Breaks a text between words into lines of at most `width` characters. */
export function wrapped(text: string, width: number): readonly string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/).filter((part) => part !== "")) {
    if (line !== "" && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  return line === "" ? lines : [...lines, line];
}

/** Rows as lines of text: columns aligned, numbers flush right; a text alone in its row does not widen its column. */
export function textTable(rows: readonly (readonly TextCell[])[], widest = 60): string {
  const isAlone = (row: readonly TextCell[]): boolean => row.filter((cell) => cell.text !== "").length <= 1;
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.min(
      widest,
      Math.max(0, ...rows.filter((row) => !isAlone(row)).map((row) => row[column]?.text.length ?? 0)),
    ),
  );
  return rows
    .map((row) => {
      if (isAlone(row)) return row.map((cell) => cell.text).join("");
      return row
        .map((cell, column) => {
          const width = widths[column] ?? 0;
          return cell.isNumber ? cell.text.padStart(width) : cell.text.padEnd(width);
        })
        .join("  ");
    })
    .map((line) => line.trimEnd())
    .join("\n");
}
