import { MAX_COLUMNS, MAX_ROWS } from "../../formula/address";
import type { FormulaTemplate, ReferenceEnd } from "../../formula/shift";
import type { SheetRange } from "../rectangles";

/** One side of a reference: counted from 0 where it is fixed, else from the formula's own row or column. */
export interface Bound {
  readonly at: number;
  readonly isFixed: boolean;
}

/** A reference as all cells of a pattern have it. */
export interface RelativeReference {
  readonly sheet: number;
  readonly firstRow: Bound;
  readonly lastRow: Bound;
  readonly firstColumn: Bound;
  readonly lastColumn: Bound;
  /** Whether the formula spells one cell and no range. */
  readonly isCell: boolean;
}

/** A reference that is the same in every cell. */
export function fixedReference(range: SheetRange): RelativeReference {
  const fixed = (at: number): Bound => ({ at, isFixed: true });
  return {
    sheet: range.sheet,
    firstRow: fixed(range.firstRow),
    lastRow: fixed(range.lastRow),
    firstColumn: fixed(range.firstColumn),
    lastColumn: fixed(range.lastColumn),
    isCell: range.firstRow === range.lastRow && range.firstColumn === range.lastColumn,
  };
}

/** What the ends of a reference mean for a formula in `home`; whole columns and rows lack an axis. */
export function referenceFrom(
  ends: readonly ReferenceEnd[],
  sheet: number,
  home: { readonly row: number; readonly column: number },
): RelativeReference | undefined {
  const [first, last = first] = ends;
  if (first === undefined || last === undefined) return undefined;
  const [firstRow, lastRow] = ordered(
    boundOf(first.row, first.isRowFixed, 0, home.row),
    boundOf(last.row, last.isRowFixed, MAX_ROWS - 1, home.row),
  );
  const [firstColumn, lastColumn] = ordered(
    boundOf(first.column, first.isColumnFixed, 0, home.column),
    boundOf(last.column, last.isColumnFixed, MAX_COLUMNS - 1, home.column),
  );
  return { sheet, firstRow, lastRow, firstColumn, lastColumn, isCell: ends.length === 1 };
}

function boundOf(index: number | undefined, isFixed: boolean, absent: number, home: number): Bound {
  if (index === undefined) return { at: absent, isFixed: true };
  return { at: isFixed ? index : index - home, isFixed };
}

/** Two bounds of one kind in their order; a fixed and a relative one may cross, from cell to cell. */
function ordered(a: Bound, b: Bound): readonly [Bound, Bound] {
  return a.isFixed === b.isFixed && a.at > b.at ? [b, a] : [a, b];
}

/** Whether a reference is the same in every cell. */
export function isFixed({ firstRow, lastRow, firstColumn, lastColumn }: RelativeReference): boolean {
  return firstRow.isFixed && lastRow.isFixed && firstColumn.isFixed && lastColumn.isFixed;
}

/** Where a bound lies for a formula in row or column `home`. */
export function placeOf({ at, isFixed }: Bound, home: number): number {
  return isFixed ? at : at + home;
}

/** What a reference means in a cell; undefined where that is no part of the sheet. */
export function rangeIn(
  reference: RelativeReference,
  { row, column }: { readonly row: number; readonly column: number },
): SheetRange | undefined {
  const [top, bottom] = [placeOf(reference.firstRow, row), placeOf(reference.lastRow, row)];
  const [left, right] = [placeOf(reference.firstColumn, column), placeOf(reference.lastColumn, column)];
  const range = {
    sheet: reference.sheet,
    firstRow: Math.min(top, bottom),
    lastRow: Math.max(top, bottom),
    firstColumn: Math.min(left, right),
    lastColumn: Math.max(left, right),
  };
  const isOnSheet =
    range.firstRow >= 0 &&
    range.firstColumn >= 0 &&
    range.lastRow < MAX_ROWS &&
    range.lastColumn < MAX_COLUMNS;
  return isOnSheet ? range : undefined;
}

/** A formula with its references as distances, the same text for all cells that it is filled into. */
export function distanceText(template: FormulaTemplate, row: number, column: number): string {
  return template
    .map((piece) =>
      typeof piece === "string"
        ? piece
        : piece
            .map((end) => {
              const down = distance("R", end.row, end.isRowFixed, row);
              return `\u0001${down}${distance("C", end.column, end.isColumnFixed, column)}`;
            })
            .join(":"),
    )
    .join("");
}

function distance(axis: string, index: number | undefined, isFixed: boolean, home: number): string {
  if (index === undefined) return "";
  return isFixed ? `${axis}${String(index)}` : `${axis}[${String(index - home)}]`;
}
