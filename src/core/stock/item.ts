import { nameKey } from "../palette/names";
import { fromSi } from "../units";

/** A thing that is stocked and bought: balloons of one printed size and colour. */
export interface Item {
  /** Size printed on the bag, m. */
  readonly printed: number;
  readonly colour: string;
}

/**
 * What items are matched by: the printed size to a hundredth of a millimetre and the colour's key.
 *
 * @param item printed size, m, and colour as typed
 * @returns equal texts for equal items
 */
export function itemKey(item: Item): string {
  return `${sizeKey(item.printed)} ${nameKey(item.colour)}`;
}

/**
 * What printed sizes are matched by.
 *
 * @param printed size printed on the bag, m
 * @returns whole hundredths of a millimetre
 */
export function sizeKey(printed: number): number {
  return Math.round(printed * 1e5);
}

/**
 * An item as a sentence names it: `11 in "Coral"`.
 *
 * @param item printed size, m, and colour as typed
 * @returns size in inches, as the trade prints it, and the colour in quotes
 */
export function itemText(item: Item): string {
  return `${sizeInches(item.printed)} in "${item.colour.trim()}"`;
}

/**
 * A printed size as the trade writes it.
 *
 * @param printed size printed on the bag, m
 * @returns inches, to the hundredth
 */
export function sizeInches(printed: number): number {
  return Number(fromSi(printed, "in").toFixed(2));
}
