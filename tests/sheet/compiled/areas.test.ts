import { expect, it } from "vitest";
import { PENDING, SheetValues } from "../../../src/sheet/column-values";
import { Area } from "../../../src/sheet/compiled/areas";
import { NeedsResults } from "../../../src/sheet/compiled/signals";

/** A sheet of 4 rows and 3 columns, the middle one without anything; row 3 is blank. */
function sheet(): SheetValues {
  const values = new SheetValues(2);
  for (const [row, column, value] of [
    [0, 0, "a"],
    [1, 0, 1],
    [3, 0, 3],
    [0, 2, "b"],
    [1, 2, 2],
  ] as const)
    values.set(row, column, value);
  return values;
}

const seen = (area: Area, end?: unknown): readonly unknown[] => {
  const found: unknown[] = [];
  area.forEach((value) => {
    found.push(value);
    return value === end;
  });
  return found;
};

it("is as high and wide as its corners say, and used as far as something stands in it", () => {
  const values = sheet();
  const area = new Area(values, 1, 0, 9, 4);
  expect([area.height, area.width, area.usedHeight]).toEqual([9, 5, 3]);
  expect(new Area(values, 0, 2, 9, 2).usedHeight).toBe(2);
  expect(new Area(values, 0, 0, 0, 2).usedHeight).toBe(1);
  expect(new Area(values, 0, 1, 9, 1).usedHeight).toBe(0);
  expect(new Area(values, 1, 2, 1, 9).usedHeight).toBe(1);
  expect(new Area(values, 0, 0, 9, 2).usedHeight).toBe(4);
});

it("gives its cells by their place in it, row by row, blank ones left out where they are gone through", () => {
  const area = new Area(sheet(), 1, 0, 3, 2);
  expect([area.at(0, 0), area.at(0, 1), area.at(0, 2), area.at(2, 0), area.at(2, 2)]).toEqual([
    1,
    null,
    2,
    3,
    null,
  ]);
  expect(area.rows()).toEqual([
    [1, null, 2],
    [null, null, null],
    [3, null, null],
  ]);
  expect(area.rows(1, 0)).toEqual([[1]]);
  expect(seen(area)).toEqual([1, 2, 3]);
  expect(seen(area, 2)).toEqual([1, 2]);
  expect(seen(new Area(sheet(), 0, 0, 0, 2))).toEqual(["a", "b"]);
  expect(seen(new Area(sheet(), 0, 0, 1, 0))).toEqual(["a", 1]);
});

it("waits as a whole for a cell that is not computed yet", () => {
  const values = sheet();
  values.set(3, 2, PENDING);
  const area = new Area(values, 1, 0, 3, 2);
  for (const read of [() => area.at(2, 2), () => area.rows(), () => seen(area)]) {
    try {
      read();
      expect.unreachable();
    } catch (error) {
      if (!(error instanceof NeedsResults)) throw error;
      expect(error.range).toEqual({ sheet: 2, firstRow: 1, firstColumn: 0, lastRow: 3, lastColumn: 2 });
    }
  }
  expect(area.at(0, 0)).toBe(1);
});

it("has another version once a value in its columns is replaced or taken away, not when a result arrives", () => {
  const values = sheet();
  values.set(2, 0, PENDING);
  const [area, beside] = [new Area(values, 0, 0, 3, 1), new Area(values, 0, 2, 3, 5)];
  const before = area.version;
  const other = beside.version;
  values.set(2, 0, 7);
  values.set(2, 0, 7);
  expect(area.version).toBe(before);
  values.set(1, 0, 5);
  expect(area.version).toBeGreaterThan(before);
  const replaced = area.version;
  values.set(1, 0, undefined);
  expect(area.version).toBeGreaterThan(replaced);
  expect(beside.version).toBe(other);
  values.set(0, 2, "c");
  expect(beside.version).toBeGreaterThan(other);
  // Nothing comes of a blank where nothing was.
  values.set(0, 9, undefined);
  expect(values.columns.length).toBe(3);
});

it("is the same as another over the same cells only", () => {
  const values = sheet();
  const area = new Area(values, 1, 1, 3, 2);
  expect(area.isSame(area)).toBe(true);
  expect(area.isSame(new Area(values, 1, 1, 3, 2))).toBe(true);
  expect(area.isSame(new Area(sheet(), 1, 1, 3, 2))).toBe(false);
  expect(area.isSame(new Area(values, 0, 1, 3, 2))).toBe(false);
  expect(area.isSame(new Area(values, 1, 0, 3, 2))).toBe(false);
  expect(area.isSame(new Area(values, 1, 1, 2, 2))).toBe(false);
  expect(area.isSame(new Area(values, 1, 1, 3, 3))).toBe(false);
});
