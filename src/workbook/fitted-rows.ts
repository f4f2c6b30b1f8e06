import { DEFAULT_HEIGHT, DEFAULT_WIDTH, fittedHeight, widthPixels } from "./cell-sizes";
import { FilledRanges } from "./filled-ranges";
import type { CellStyle, SheetModel } from "./model";

/** Pixels of the rows that Excel fits to fonts and wrapped texts and that are higher than others for it. */
export function fittedRows(sheet: SheetModel, styles: readonly CellStyle[]): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  const merged = new FilledRanges(sheet.merges);
  // What one line needs, by style: the texts of most cells need no look.
  const lines = styles.map((style) => fittedHeight(null, style, DEFAULT_WIDTH));
  for (const { row, column, value, style } of sheet.cells) {
    const isWrapped = typeof value === "string" && styles[style]?.wrap === true;
    const line = lines[style] ?? DEFAULT_HEIGHT;
    if (!isWrapped && line <= DEFAULT_HEIGHT) continue;
    // Excel fits no row to a merged cell.
    if (sheet.rowHeights.has(row) || merged.has(row, column)) continue;
    const characters = sheet.columnWidths.get(column);
    const width = characters === undefined ? DEFAULT_WIDTH : widthPixels(characters);
    const height = isWrapped ? fittedHeight(value, styles[style], width) : line;
    if (height > (found.get(row) ?? DEFAULT_HEIGHT)) found.set(row, height);
  }
  return found;
}
