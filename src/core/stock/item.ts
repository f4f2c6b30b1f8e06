import { nameKey } from "../palette/names";
import { fromSi } from "../units";

/** A thing that is stocked and bought: balloons of one printed size and colour. */
export interface Item {
  /** Size printed on the bag, m. */
  readonly printed: number;
  readonly colour: string;
  /** What it is made of; latex where it is not said. */
  readonly type?: ItemType | undefined;
  /** Trade code of a long balloon, which is known by it where there is one. */
  readonly code?: number | undefined;
}

/** Balloons of one size and colour that are not the same thing. */
export type ItemType = "latex" | "foil" | "long";

/**
 * What items are matched by: the type, the printed size to a hundredth of a millimetre, or a long balloon's code, and the
 * colour's key.
 *
 * @param item printed size, m, colour as typed, and type
 * @returns equal texts for equal items
 */
export function itemKey(item: Item): string {
  return `${typedSizeKey(item)} ${nameKey(item.colour)}`;
}

/**
 * What the sizes of one type are matched by.
 *
 * @param item printed size, m, type and code
 * @returns equal texts for equal sizes of one type
 */
export function typedSizeKey({ printed, type = "latex", code }: Omit<Item, "colour">): string {
  const size = type === "long" && code !== undefined ? `code ${code}` : String(sizeKey(printed));
  return type === "latex" ? size : `${type} ${size}`;
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
 * An item as a sentence names it, in plain words: `11 in Coral`, `18 in Gold foil`, `260 White`.
 *
 * @param item printed size, m, colour as typed, type and code
 * @returns size in inches, as the trade prints it, colour, and foil where it is one
 */
export function itemWords(item: Item): string {
  const size = item.code === undefined ? `${sizeInches(item.printed)} in` : String(item.code);
  return `${size} ${item.colour.trim()}${item.type === "foil" ? " foil" : ""}`;
}

/**
 * Whether a row may be an item, as far as the row can be read.
 *
 * @param cells what was read of the row; a code without a type is that of a long balloon
 * @param item the item
 * @returns false where a cell says that it is another
 */
export function mayBe({ printed, code, colour, type }: Partial<Item>, item: Item): boolean {
  const said = type ?? (code === undefined ? undefined : "long");
  if (said !== undefined && said !== (item.type ?? "latex")) return false;
  if (code !== undefined && item.code !== undefined && code !== item.code) return false;
  if (code === undefined && printed !== undefined && sizeKey(printed) !== sizeKey(item.printed)) return false;
  return colour === undefined || nameKey(colour) === nameKey(item.colour);
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
