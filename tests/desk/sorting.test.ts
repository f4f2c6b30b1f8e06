import fc from "fast-check";
import { expect, it } from "vitest";
import { reordered, sortedOrder, sortFault } from "../../src/desk/sorting";

it("sorts as Excel does: numbers, texts, FALSE and TRUE, blanks last either way", () => {
  const keys = ["b", null, 3, true, "A", 1, false, ""];
  const sorted = (isAscending: boolean): unknown => sortedOrder(keys, isAscending).map((at) => keys[at]);
  expect(sorted(true)).toEqual([1, 3, "A", "b", false, true, null, ""]);
  expect(sorted(false)).toEqual([true, false, "b", "A", 3, 1, null, ""]);
});

it("loses no row and keeps the order of equal ones", () => {
  fc.assert(
    fc.property(
      fc.array(fc.oneof(fc.integer({ max: 3 }), fc.constant(null), fc.constantFrom("x", "y"))),
      (keys) => {
        const order = sortedOrder(keys, true);
        expect([...order].sort((a, b) => a - b)).toEqual(keys.map((_, index) => index));
        for (const [at, index] of order.entries()) {
          const next = order[at + 1];
          if (next !== undefined && keys[index] === keys[next]) expect(index).toBeLessThan(next);
        }
      },
    ),
  );
});

// B2:D3, where rows begin with 1 in this text and with 0 in the ranges.
const RANGE = { firstRow: 1, firstColumn: 1, lastRow: 2, lastColumn: 3 };
const cells = (...contents: (string | number | null)[]) => contents.map((content) => ({ content }));

it("moves references within a row with it and leaves fixed ones", () => {
  const rows = [cells(2, "=B2*$F$1+Rates!$A$1"), cells(1, "=SUM(B3:$B3)*D$9")];
  expect(reordered(rows, [1, 0])).toEqual([cells(1, "=SUM(B2:$B2)*D$9"), cells(2, "=B3*$F$1+Rates!$A$1")]);
});

it.each([
  ["=D1+B2", "C2 points at another row"],
  ["=SUM(B2:B3)", "C2 points at another row"],
  ["=Rates!A3", "C2 points at another row"],
  ["=BLN.PART_PLAN($A$1:$C$9)", "C2 holds a formula that fills other cells too"],
])("does not sort a row with %s, and says why", (formula, why) => {
  expect(
    sortFault(
      [cells(2, formula), cells(1, 5)],
      [
        [2, 1],
        [1, 5],
      ],
      RANGE,
    ),
  ).toContain(why);
});

it("sorts rows whose formulas stay in their row, read whole columns or say the row of a table", () => {
  const rows = [cells(2, "=B2*2", "=SUM(F:F)"), cells(1, "=[@Price]*$A$1", "=Rates!$A$3")];
  expect(
    sortFault(
      rows,
      [
        [2, 4, 0],
        [1, 2, 0],
      ],
      RANGE,
    ),
  ).toBeUndefined();
});

it("does not sort what a formula elsewhere fills", () => {
  expect(
    sortFault(
      [cells(2, null), cells(1, null)],
      [
        [2, 7],
        [1, null],
      ],
      RANGE,
    ),
  ).toContain("C2 is filled by");
});
