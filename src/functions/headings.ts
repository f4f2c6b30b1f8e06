import { unitNamed, UNITS, type UnitSymbol } from "../core/units";
import { plainCell } from "./incoming";
import { isQuantity, limitsOf, type TableColumn } from "./param";
import { comparable, plainSpaces } from "./read-text";

/** A cell of a header row: its words, and what they are without a unit at their end. */
export interface Heading {
  readonly text: string;
  readonly title: string;
  readonly unit?: UnitSymbol;
}

/** A column of a table with its place in the range, and the unit that its heading gives to bare numbers. */
export interface Located {
  readonly column: TableColumn;
  readonly index: number;
  readonly unit?: UnitSymbol;
}

/** Reads a cell as a heading: one case, plain spaces, no brackets, commas or colons. */
export function readHeading(cell: unknown): Heading {
  const plain = plainCell(cell);
  const text = plainSpaces(comparable(typeof plain === "string" ? plain : "").replace(/[()[\],:]/g, " "));
  const words = text.split(" ");
  const unit = words.length > 1 ? unitNamed(words.at(-1) ?? "") : undefined;
  return unit === undefined ? { text, title: text } : { text, title: words.slice(0, -1).join(" "), unit };
}

/** What a column may be called, its own name first. */
export function titlesOf(column: TableColumn): readonly string[] {
  return [column.name, ...(column.aliases ?? [])].map(comparable);
}

/** True where a heading says one of these titles, with or without a unit. */
export function isTitled(heading: Heading, titles: readonly string[]): boolean {
  return titles.includes(heading.title) || titles.includes(heading.text);
}

/** A column at its place; the heading's unit counts where it measures what the column does. */
export function located(column: TableColumn, index: number, heading: Heading | undefined): Located {
  if (heading?.unit === undefined || !isQuantity(column)) return { column, index };
  const own = limitsOf(column).unit as UnitSymbol;
  return UNITS[heading.unit].dimension === UNITS[own].dimension
    ? { column, index, unit: heading.unit }
    : { column, index };
}
