import fc from "fast-check";
import { expect, it } from "vitest";
import { cellCount, cellRange, covers, intersects, mapRange, rangeKey } from "../../src/sheet/rectangles";
import type { CellRange } from "../../src/formula/address";

const range = fc
  .tuple(fc.nat(6), fc.nat(6), fc.nat(4), fc.nat(4))
  .map(([firstRow, firstColumn, rows, columns]) => ({
    firstRow,
    firstColumn,
    lastRow: firstRow + rows,
    lastColumn: firstColumn + columns,
  }));

/** The cells one by one. */
function cells({ firstRow, lastRow, firstColumn, lastColumn }: CellRange): ReadonlySet<string> {
  const found = new Set<string>();
  for (let row = 0; row < 20; row++) {
    for (let column = 0; column < 20; column++) {
      const isInside = row >= firstRow && row <= lastRow && column >= firstColumn && column <= lastColumn;
      if (isInside) found.add(`${row}/${column}`);
    }
  }
  return found;
}

it("says of rectangles what their cells say", () => {
  fc.assert(
    fc.property(range, range, (a, b) => {
      const [ofA, ofB] = [cells(a), cells(b)];
      expect(cellCount(a)).toBe(ofA.size);
      expect(covers(a, b)).toBe([...ofB].every((cell) => ofA.has(cell)));
      expect(intersects(a, b)).toBe([...ofB].some((cell) => ofA.has(cell)));
      const mapped = mapRange(a, (row, column) => `${row}/${column}`);
      expect(mapped.flat()).toEqual([...ofA]);
      expect(mapped).toHaveLength(a.lastRow - a.firstRow + 1);
    }),
    { numRuns: 2000 },
  );
});

it("names the rectangle of a cell, and different rectangles differently", () => {
  const cell = cellRange({ sheet: 2, row: 4, column: 7 });
  expect(cell).toEqual({ sheet: 2, firstRow: 4, lastRow: 4, firstColumn: 7, lastColumn: 7 });
  fc.assert(
    fc.property(range, range, fc.nat(2), fc.nat(2), (a, b, sheet, other) => {
      const isSame = JSON.stringify([a, sheet]) === JSON.stringify([b, other]);
      expect(rangeKey({ ...a, sheet }) === rangeKey({ ...b, sheet: other })).toBe(isSame);
    }),
  );
});
