import { parseRange, splitSheet } from "../formula/address";
import { cellFinder } from "../workbook/cell-finder";
import type { CellValue, SheetModel, WorkbookModel } from "../workbook/model";
import { shownRows, textTable } from "./text-table";

const PRINT_AREA = "_xlnm.Print_Area";
const READY_HEADER = ["weight", "table", "row", "what", "do"];
/** Reasons that are no reason to look. */
const QUIET = "note";

/** The part of a sheet that is printed, or all of it. */
function printed(model: WorkbookModel, sheet: SheetModel): SheetModel {
  const index = model.sheets.indexOf(sheet);
  const area = model.names.find((entry) => entry.name === PRINT_AREA && entry.sheet === index);
  const range = area === undefined ? undefined : parseRange(splitSheet(area.text).rest);
  if (range === undefined) return sheet;
  const cells = sheet.cells.filter(({ column }) => column >= range.firstColumn && column <= range.lastColumn);
  return { ...sheet, cells };
}

/** What a sheet prints, as lines of text; empty where there is no such sheet. */
export function paperText(model: WorkbookModel, name: string): string {
  const sheet = model.sheets.find((candidate) => candidate.name === name);
  return sheet === undefined ? "" : textTable(shownRows(model, printed(model, sheet)));
}

/**
 * The first verdict of a workbook and its reasons, as lines of text: `ready: nothing to check`. Empty where no sheet holds one.
 */
export function verdictText({ sheets }: WorkbookModel): string {
  const cellAt = cellFinder({ sheets });
  for (const [sheet, { cells }] of sheets.entries()) {
    const rowAt = (row: number, column: number): readonly CellValue[] =>
      READY_HEADER.map((_, across) => cellAt(sheet, row, column + across)?.value ?? null);
    const header = cells.find(
      ({ row, column, value }) =>
        value === READY_HEADER[0] &&
        rowAt(row, column).every((cell, across) => cell === READY_HEADER[across]),
    );
    if (header === undefined) continue;
    const lines: string[] = [];
    for (let row = header.row + 1; ; row += 1) {
      const [weight, , , what, todo] = rowAt(row, header.column).map((cell) => String(cell ?? ""));
      if (weight === undefined || weight === "") break;
      if (weight !== QUIET) lines.push(`${weight}: ${what ?? ""}${todo === "" ? "" : ` (${todo ?? ""})`}`);
    }
    return lines.join("\n");
  }
  return "";
}
