import { MAX_ROWS } from "../../formula/address";
import type { SheetRange } from "../rectangles";
import type { FormulaCell } from "../sheet-cells";
import { firstAtOrBelow, type FormulaPattern } from "./patterns";
import { type Bound, placeOf, type RelativeReference } from "./references";

/** A reference of a pattern, asked for by the columns that it reads. */
interface Reading {
  readonly pattern: FormulaPattern;
  readonly reference: RelativeReference;
}

type Rows = readonly [first: number, last: number];

/** References over more columns than this are asked for at every change instead of being filed by column. */
const WIDE = 256;

/** Finds which cells of patterns read a cell: a pattern is asked once for all its cells, which answer by arithmetic. */
export class PatternReaders {
  private readonly byColumn = new Map<string, Reading[]>();
  private readonly wide: Reading[] = [];

  constructor(patterns: Iterable<FormulaPattern>) {
    for (const pattern of patterns) {
      for (const reference of pattern.formula.references) this.file({ pattern, reference });
    }
  }

  private file(reading: Reading): void {
    const { pattern, reference } = reading;
    const columns = [...pattern.cells.keys()];
    if (columns.length === 0) return;
    const ends = [Math.min(...columns), Math.max(...columns)].flatMap((column) =>
      columnsOf(reference, column),
    );
    const [first, last] = [Math.min(...ends), Math.max(...ends)];
    if (last - first > WIDE) {
      this.wide.push(reading);
      return;
    }
    for (let column = first; column <= last; column++) {
      const key = keyOf(reference.sheet, column);
      const readings = this.byColumn.get(key);
      if (readings === undefined) this.byColumn.set(key, [reading]);
      else readings.push(reading);
    }
  }

  /** A walk that gives each reading cell about once, however many changed cells it is asked for. */
  walk(): (changed: SheetRange) => Generator<FormulaCell> {
    const visited = new Map<Reading, Map<number, Rows>>();
    const filed = (sheet: number, column: number): readonly Reading[] =>
      this.byColumn.get(keyOf(sheet, column)) ?? [];
    const wide = (sheet: number): readonly Reading[] =>
      this.wide.filter(({ reference }) => reference.sheet === sheet);
    return function* (changed) {
      const everywhere = wide(changed.sheet);
      for (let column = changed.firstColumn; column <= changed.lastColumn; column++) {
        for (const readings of [filed(changed.sheet, column), everywhere]) {
          for (const reading of readings) {
            const done = visited.get(reading) ?? new Map<number, Rows>();
            visited.set(reading, done);
            yield* readersIn(reading, column, changed, done);
          }
        }
      }
    };
  }
}

function* readersIn(
  { pattern, reference }: Reading,
  column: number,
  { firstRow, lastRow }: SheetRange,
  visited: Map<number, Rows>,
): Generator<FormulaCell> {
  for (const rows of rowsReading(reference, firstRow, lastRow)) {
    for (const [own, cells] of pattern.cells) {
      const [left, right] = columnsOf(reference, own);
      if (column < left || column > right) continue;
      for (const [first, last] of fresh(rows, visited.get(own))) {
        for (let at = firstAtOrBelow(cells, first); at < cells.length; at++) {
          const cell = cells[at];
          if (cell === undefined || cell.row > last) break;
          yield cell;
        }
      }
      visited.set(own, joined(rows, visited.get(own)));
    }
  }
}

/** What of some rows was not visited before. */
function fresh([first, last]: Rows, before: Rows | undefined): readonly Rows[] {
  if (before === undefined || before[0] > last || before[1] < first) return [[first, last]];
  const above: readonly Rows[] = first < before[0] ? [[first, before[0] - 1]] : [];
  const below: readonly Rows[] = last > before[1] ? [[before[1] + 1, last]] : [];
  return [...above, ...below];
}

/** What to remember as visited: all of it where that is one piece, else the latest. */
function joined([first, last]: Rows, before: Rows | undefined): Rows {
  const isOnePiece = before !== undefined && before[0] <= last + 1 && before[1] >= first - 1;
  return isOnePiece ? [Math.min(first, before[0]), Math.max(last, before[1])] : [first, last];
}

/** The rows of formulas whose reference meets some rows. */
function rowsReading({ firstRow: a, lastRow: b }: RelativeReference, first: number, last: number): Rows[] {
  const ALL: Rows = [0, MAX_ROWS - 1];
  if (a.isFixed && b.isFixed) return a.at <= last && b.at >= first ? [ALL] : [];
  if (!a.isFixed && !b.isFixed) return [[first - b.at, last - a.at]];
  const [fixed, moving] = a.isFixed ? [a, b] : [b, a];
  // One end stays and the other goes along, on either side of it.
  const below: Rows[] = fixed.at <= last ? [[first - moving.at, ALL[1]]] : [];
  const above: Rows[] = fixed.at >= first ? [[0, last - moving.at]] : [];
  return [...below, ...above];
}

function columnsOf({ firstColumn, lastColumn }: RelativeReference, home: number): Rows {
  const place = (bound: Bound): number => placeOf(bound, home);
  const [a, b] = [place(firstColumn), place(lastColumn)];
  return a < b ? [a, b] : [b, a];
}

function keyOf(sheet: number, column: number): string {
  return `${String(sheet)}!${String(column)}`;
}
