import { valueMarkup } from "./cell-markup";
import { positionFinder } from "./cell-finder";
import type { CellChange, SheetModel } from "./model";
import { sameValue } from "./next-cell";
import type { ScannedCell } from "./sheet-scan";
import { PLAIN, type XmlEdit } from "./xml";

/** Types of values that are written without anything else of their cell. */
const TYPES: readonly string[] = ["n", "str", "b", "e"];
const NUMBERS = 3;
const FIRST_ROOM = 256;

/** Where the values of a sheet's cells stand in the text of its part, cell by cell as they come. */
export class ValuePlaces {
  /** Start, end and type of each value; a type of -1 where more than the value would have to be written. */
  private numbers = new Int32Array(NUMBERS * FIRST_ROOM);
  private count = 0;

  add({ element, value, inline }: ScannedCell): void {
    const at = NUMBERS * this.count++;
    if (at === this.numbers.length) {
      const longer = new Int32Array(2 * at);
      longer.set(this.numbers);
      this.numbers = longer;
    }
    const isPlain = element.name === "c" && inline === undefined && element.get("vm") === undefined;
    this.numbers[at] = value?.start ?? 0;
    this.numbers[at + 1] = value?.end ?? 0;
    this.numbers[at + 2] = isPlain && value !== undefined ? TYPES.indexOf(element.get("t") ?? "n") : -1;
  }

  /** Where the value of a cell stands, by the cell's position, if it is of this type and nothing else has to change. */
  of(position: number, type: string | null): Pick<XmlEdit, "start" | "end"> | undefined {
    const at = NUMBERS * position;
    const known = this.numbers[at + 2] ?? -1;
    if (known < 0 || TYPES[known] !== (type ?? "n")) return undefined;
    return { start: this.numbers[at] ?? 0, end: this.numbers[at + 1] ?? 0 };
  }
}

/**
 * The edits of a sheet's part where nothing but values change, each to another of its type: the part need not be walked over
 * for them. Undefined where more changes.
 */
export function valueEdits(
  { cells }: SheetModel,
  places: ValuePlaces,
  changes: readonly CellChange[],
): readonly XmlEdit[] | undefined {
  const find = positionFinder(cells);
  if (find === undefined) return undefined;
  const edits = new Map<number, XmlEdit>();
  for (const { row, column, value, formula, range, style, numberFormat, look } of changes) {
    if ((formula ?? range ?? style ?? numberFormat ?? look) !== undefined || formula === null)
      return undefined;
    const position = find(row, column);
    const cell = cells[position];
    if (value === undefined || cell === undefined) return undefined;
    if (sameValue(cell.value, value)) {
      edits.delete(position);
      continue;
    }
    // A text constant is kept in another way than the text that a formula gives.
    if (cell.formula === undefined && typeof value === "string") return undefined;
    const { type, markup } = valueMarkup(PLAIN, value, true);
    const place = markup === "" ? undefined : places.of(position, type);
    if (place === undefined) return undefined;
    edits.set(position, { ...place, text: markup });
  }
  return [...edits.values()];
}
