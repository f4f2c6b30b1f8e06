import { tally } from "../numeric/tally";
import { type Item, itemKey } from "./item";

/** Balloons needed, spares included. */
export interface NeedRow extends Item {
  readonly row: number;
  readonly count: number;
}

/** Balloons at hand or bought, loose pieces. */
export interface StockRow extends Item {
  readonly row: number;
  readonly pieces: number;
}

/**
 * Adds up pieces of equal items.
 *
 * @param rows rows of stock
 * @returns pieces by item key
 */
export function piecesByItem(rows: readonly StockRow[]): ReadonlyMap<string, number> {
  return tally(rows.map((row) => [itemKey(row), row.pieces]));
}
