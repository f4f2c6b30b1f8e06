import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sorted, unique } from "../../src/sheet/sorting";
import type { CellValue } from "../../src/workbook/model";

const column = (...values: readonly CellValue[]): CellValue[][] => values.map((value) => [value]);
const flat = (rows: readonly (readonly CellValue[])[]): readonly CellValue[] => rows.flat();

// Microsoft's page "Sort data in a range or table", default sort orders: numbers from the lowest negative one up, then text
// in any case, FALSE before TRUE, then errors; blank cells last, whichever the direction.
describe("SORT", () => {
  const mixed = column("b", null, true, { error: "#N/A" }, 2, "A", false, -3, { error: "#REF!" });

  it("orders kinds of values as Excel does, blanks last in both directions", () => {
    expect(flat(sorted(mixed)).slice(0, 6)).toEqual([-3, 2, "A", "b", false, true]);
    expect(flat(sorted(mixed)).at(-1)).toBeNull();
    const down = flat(sorted(mixed, null, -1));
    expect(down.slice(2)).toEqual([true, false, "b", "A", 2, -3, null]);
  });

  // Microsoft's page of SORT: sort_index, sort_order and by_col.
  it("orders whole rows by one column or by several, each in its direction", () => {
    const rows = [
      ["Navy", 11, 3],
      ["White", 5, 2],
      ["navy", 5, 1],
      ["White", 11, 4],
    ];
    expect(sorted(rows, 3).map(([, , last]) => last)).toEqual([1, 2, 3, 4]);
    expect(sorted(rows, [[1, 2]], [[1, -1]]).map(([, , last]) => last)).toEqual([3, 1, 4, 2]);
    // One direction holds for all columns, and rows that are equal keep their order.
    expect(sorted(rows, [[1, 2]], -1).map(([, , last]) => last)).toEqual([4, 2, 3, 1]);
    expect(sorted(rows, 1).map(([, , last]) => last)).toEqual([3, 1, 2, 4]);
    expect(
      sorted(
        [
          ["c", "a", "b"],
          [1, 2, 3],
        ],
        1,
        1,
        true,
      ),
    ).toEqual([
      ["a", "b", "c"],
      [2, 3, 1],
    ]);
    expect(
      sorted(
        [
          ["c", "a", "b"],
          [3, 1, 2],
        ],
        2,
        -1,
        1,
      ),
    ).toEqual([
      ["c", "b", "a"],
      [3, 2, 1],
    ]);
    expect(sorted(7)).toEqual([[7]]);
  });

  it.each([
    ["a column before the first", [[0]], [[1]]],
    ["a column behind the last", [[3]], [[1]]],
    ["a direction other than 1 and -1", [[1]], [[2]]],
    ["no direction", [[1]], [[0]]],
    ["as many directions as there are no columns", [[1]], [[1, -1]]],
  ])("refuses %s", (_, index, order) => {
    expect(() => sorted([[1, 2]], index, order)).toThrow("#VALUE!");
  });

  it("loses and adds nothing, whatever stands there", () => {
    const cell = fc.oneof(fc.integer(), fc.string(), fc.boolean(), fc.constant(null));
    const tally = (values: readonly CellValue[]): string =>
      values
        .map((value) => JSON.stringify(value))
        .sort()
        .join();
    fc.assert(
      fc.property(fc.array(cell, { minLength: 1 }), (values) => {
        expect(tally(flat(sorted(column(...values))))).toBe(tally(values));
        expect(sorted(sorted(column(...values)))).toEqual(sorted(column(...values)));
      }),
    );
  });
});

// Microsoft's page of UNIQUE: by_col and exactly_once.
describe("UNIQUE", () => {
  it("keeps each row once, the first that came, texts in any case alike", () => {
    expect(
      unique([
        ["Navy", 1],
        ["NAVY", 1],
        ["Navy", 2],
        ["1", 1],
        [1, 1],
      ]),
    ).toEqual([
      ["Navy", 1],
      ["Navy", 2],
      ["1", 1],
      [1, 1],
    ]);
    expect(
      unique(
        [
          [1, 2, 1],
          [3, 4, 3],
        ],
        true,
      ),
    ).toEqual([
      [1, 2],
      [3, 4],
    ]);
    expect(unique("x")).toEqual([["x"]]);
  });

  it("keeps only what is there once where that is asked, and says so where nothing is", () => {
    expect(unique(column(1, 2, 1, 3), null, 1)).toEqual(column(2, 3));
    expect(() => unique(column(1, 1), false, true)).toThrow("#CALC!");
  });
});
