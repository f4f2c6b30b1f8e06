import fc from "fast-check";
import { expect, it } from "vitest";
import { contains, type CellRange } from "../../src/formula/address";
import { FilledRanges } from "../../src/workbook/filled-ranges";

const end = fc.integer({ min: 0, max: 9 });
const someRange = fc.tuple(end, end, end, end).map(([a, b, c, d]): CellRange => ({
  firstRow: Math.min(a, b),
  lastRow: Math.max(a, b),
  firstColumn: Math.min(c, d),
  lastColumn: Math.max(c, d),
}));

it("finds what looking at every range finds, in whatever order cells come", () => {
  fc.assert(
    fc.property(fc.array(someRange), fc.array(fc.tuple(end, end)), (ranges, cells) => {
      const filled = new FilledRanges(ranges);
      for (const [row, column] of cells) {
        const over = ranges.filter((range) => contains(range, row, column));
        expect(new Set(filled.over(row, column))).toEqual(new Set(over));
        expect(filled.has(row, column)).toBe(over.length > 0);
      }
    }),
  );
});
