import fc from "fast-check";
import { expect, it } from "vitest";
import { Dependents } from "../../src/sheet/dependents";
import { intersects } from "../../src/sheet/rectangles";

const range = fc
  .tuple(fc.nat(40), fc.nat(6), fc.nat(20), fc.nat(3))
  .map(([firstRow, firstColumn, rows, columns]) => ({
    sheet: 0,
    firstRow,
    firstColumn,
    lastRow: firstRow + rows,
    lastColumn: firstColumn + columns,
  }));

it("finds the readers that comparing every pair of rectangles finds", () => {
  fc.assert(
    fc.property(fc.array(range), range, fc.nat(10), (ranges, changed, removed) => {
      const dependents = new Dependents<number>();
      for (const [reader, read] of ranges.entries()) dependents.add(reader, [read]);
      const gone = ranges[removed];
      if (gone !== undefined) dependents.remove(removed, [gone]);
      const expected = ranges.flatMap((read, reader) =>
        intersects(read, changed) && reader !== removed ? [reader] : [],
      );
      expect([...new Set(dependents.walk()(changed))].sort((a, b) => a - b)).toEqual(expected);
    }),
  );
});

it("keeps sheets apart", () => {
  const dependents = new Dependents<string>();
  const cell = { firstRow: 0, firstColumn: 0, lastRow: 0, lastColumn: 0 };
  dependents.add("reader", [{ sheet: 1, ...cell }]);
  expect([...dependents.walk()({ sheet: 0, ...cell })]).toEqual([]);
});

it("gives each reader once, however many of its cells change", () => {
  const dependents = new Dependents<string>();
  const column = { sheet: 0, firstRow: 0, firstColumn: 1, lastRow: 1_048_575, lastColumn: 1 };
  dependents.add("total", [column]);
  dependents.add("other", [{ ...column, lastRow: 7 }]);
  const walk = dependents.walk();
  const changed = { sheet: 0, firstRow: 3, firstColumn: 0, lastRow: 5, lastColumn: 2 };
  expect([...walk(changed)].filter((reader) => reader === "total")).toEqual(["total"]);
  expect([...walk({ ...changed, firstRow: 1_048_575, lastRow: 1_048_575 })]).toEqual([]);
  expect([...dependents.walk()({ ...changed, firstRow: 1_048_575, lastRow: 1_048_575 })]).toEqual(["total"]);
});

it("takes away one reader of a range and keeps the others", () => {
  const dependents = new Dependents<string>();
  const cell = { sheet: 0, firstRow: 2, firstColumn: 2, lastRow: 2, lastColumn: 2 };
  dependents.add("one", [cell]);
  dependents.add("two", [cell]);
  dependents.remove("one", [cell]);
  dependents.remove("never there", [{ ...cell, sheet: 3 }]);
  expect([...dependents.walk()(cell)]).toEqual(["two"]);
});
