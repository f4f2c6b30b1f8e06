import { parseRange } from "../formula/address";
import { closingOf, type FormulaToken } from "../formula/tokens";
import type { ReferenceAreas } from "./reference-operators";

/**
 * What ROW, COLUMN, ROWS or COLUMNS gives for a reference that the formula spells out; undefined for all else.
 * They ask where cells are, not what they hold, so that a formula may ask it of its own cell.
 */
export function positionOf(tokens: readonly FormulaToken[], at: number): number | undefined {
  const inner = tokens.slice(at + 2, closingOf(tokens, at + 1));
  const reference = inner.at(-1);
  const isPlain = inner.length === 1 || (inner.length === 2 && inner[0]?.kind === "sheet");
  const range = isPlain && reference?.kind === "reference" ? parseRange(reference.text) : undefined;
  if (range === undefined || inner[0]?.text.includes("[") === true) return undefined;
  const isOneRow = range.firstRow === range.lastRow;
  const isOneColumn = range.firstColumn === range.lastColumn;
  switch (tokens[at]?.text.toUpperCase()) {
    case "ROW":
      return isOneRow ? range.firstRow + 1 : undefined;
    case "COLUMN":
      return isOneColumn ? range.firstColumn + 1 : undefined;
    case "ROWS":
      return range.lastRow - range.firstRow + 1;
    case "COLUMNS":
      return range.lastColumn - range.firstColumn + 1;
    default:
      return undefined;
  }
}

/** What AREAS gives, which asks how a reference is put together and not what its cells hold; undefined for no plain one. */
export function areaCountOf(found: ReferenceAreas | undefined): string | undefined {
  if (found === undefined || found.isDeep) return undefined;
  return found.areas.length === 0 ? "#NULL!" : String(found.areas.length);
}
