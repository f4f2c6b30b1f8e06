import { describe, expect, it } from "vitest";
import { parseRange } from "../../src/formula/address";
import { keyOf, SheetCells, spilledValue, takeOutcome } from "../../src/sheet/sheet-cells";
import type { SheetModel } from "../../src/workbook/model";
import { type TestSheets, workbookOf } from "./workbook-of";

function area(address: string): NonNullable<ReturnType<typeof parseRange>> {
  const range = parseRange(address);
  if (range === undefined) throw new Error(`${address} is no range`);
  return range;
}

function sheetOf(cells: TestSheets[string], merges: readonly string[] = []): SheetCells {
  const sheet = workbookOf({ S: cells }).sheets[0] as SheetModel;
  return new SheetCells({ ...sheet, merges: merges.map(area) }, 0);
}

function formulaAt(
  cells: SheetCells,
  address: string,
): NonNullable<ReturnType<SheetCells["formulas"]["get"]>> {
  const { firstRow, firstColumn } = area(address);
  const cell = cells.formulas.get(keyOf(firstRow, firstColumn));
  if (cell === undefined) throw new Error(`${address} has no formula`);
  return cell;
}

/** The values that stand on a range; what waits for a formula is "pending". */
function shown(cells: SheetCells, address: string): readonly unknown[] {
  const { firstRow, lastRow, firstColumn, lastColumn } = area(address);
  const found: unknown[] = [];
  for (let row = firstRow; row <= lastRow; row++) {
    for (let column = firstColumn; column <= lastColumn; column++) {
      const value = cells.values.get(row, column);
      found.push(typeof value === "symbol" || typeof value === "object" ? "pending" : value);
    }
  }
  return found;
}

/** A stored array in B2:C3 beside constants. */
const ARRAY: TestSheets[string] = {
  A1: "a",
  B2: { f: "A1:B2*2", kind: "array", range: "B2:C3", v: 1 },
  C2: 2,
  B3: 3,
  C3: 4,
  E5: { f: "A1", v: 7 },
};

describe("the cells of a file", () => {
  it("take what an array wrote around it for its result", () => {
    const cells = sheetOf(ARRAY);
    const owner = formulaAt(cells, "B2");
    expect(owner.area).toEqual(area("B2:C3"));
    expect(owner.table).toEqual([
      [1, 2],
      [3, 4],
    ]);
    expect(owner.stored).toEqual({ value: 1, area: owner.area, table: owner.table });
    expect(shown(cells, "A1:C3")).toEqual([
      "a",
      undefined,
      undefined,
      undefined,
      "pending",
      "pending",
      undefined,
      "pending",
      "pending",
    ]);
    expect(cells.constant(1, 2)).toBeNull();
    expect(cells.constant(0, 0)).toBe("a");
    expect(spilledValue(owner, 2, 1)).toBe(3);
    expect(spilledValue(owner, 2, 9)).toBeNull();
    expect([...cells.owners]).toEqual([owner]);
  });

  it("leave a formula within an array its own, and a cell of two arrays to the first", () => {
    const cells = sheetOf({
      A1: { f: "X", kind: "array", range: "A1:A3", v: 1 },
      A2: { f: "B1", v: 5 },
      A3: 9,
      B2: { f: "Y", kind: "dynamic", range: "A3:B3", v: 2 },
    });
    expect(formulaAt(cells, "A1").table).toEqual([[1], [null], [9]]);
    expect(formulaAt(cells, "B2").table).toEqual([[null, null]]);
    expect(cells.formulas.size).toBe(3);
  });

  it("take no area of one cell, of a plain formula or larger than a sheet of ours fills", () => {
    const cells = sheetOf({
      A1: { f: "1", kind: "array", range: "A1:A1" },
      A2: { f: "1", kind: "normal", range: "A2:A3" },
      A5: { f: "1", kind: "array", range: "A5:B1048576" },
      A4: { f: "1", kind: "dynamic" },
    });
    expect(["A1", "A2", "A5", "A4"].map((at) => formulaAt(cells, at).area)).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });

  it("tell the last row and column in use", () => {
    expect(sheetOf(ARRAY).extent()).toEqual({ lastRow: 4, lastColumn: 4 });
    expect(sheetOf({ B9: 1, D2: 1 }).extent()).toEqual({ lastRow: 8, lastColumn: 3 });
    expect(sheetOf({}).extent()).toEqual({ lastRow: 0, lastColumn: 0 });
  });
});

describe("what a formula fills", () => {
  it("shows with its result, waits with it and goes with it", () => {
    const cells = sheetOf({ A1: { f: "X" }, C1: 5 });
    const cell = formulaAt(cells, "A1");
    cells.setArea(cell, area("A1:B2"));
    takeOutcome(cell, {
      value: 1,
      table: [
        [1, 2],
        [3, null],
      ],
    });
    cells.setDone(cell);
    expect(shown(cells, "A1:B2")).toEqual([1, 2, 3, undefined]);
    expect(cell.state).toBe("done");
    cells.setPending(cell);
    expect(cell.state).toBe("dirty");
    expect(shown(cells, "A1:C2")).toEqual(["pending", "pending", 5, "pending", "pending", undefined]);
    cells.setDone(cell);
    cells.setArea(cell, area("A1:A2"));
    cells.setDone(cell);
    expect(shown(cells, "A1:B2")).toEqual([1, undefined, 3, undefined]);
    expect(cells.spilled.size).toBe(1);
    cells.removeFormula(cell);
    expect(shown(cells, "A1:C2")).toEqual([undefined, undefined, 5, undefined, undefined, undefined]);
    expect([cells.spilled.size, cells.owners.size, cells.formulas.size]).toEqual([0, 0, 0]);
    expect("area" in cell).toBe(false);
  });

  it("leaves a formula in its way alone", () => {
    const cells = sheetOf({ A1: { f: "X" }, A2: { f: "Y" } });
    const [first, second] = [formulaAt(cells, "A1"), formulaAt(cells, "A2")];
    takeOutcome(second, { value: "own" });
    cells.setDone(second);
    cells.setArea(first, area("A1:A2"));
    takeOutcome(first, { value: 1, table: [[1], [2]] });
    cells.setDone(first);
    expect(shown(cells, "A1:A2")).toEqual([1, "own"]);
  });

  // Microsoft support, How to correct a #SPILL! error: a value, a formula or a merged cell stands in the way.
  it("is blocked by values, formulas, merged cells and what another formula fills", () => {
    const cells = sheetOf({ A1: { f: "X" }, A5: 1, C1: { f: "Y" }, E1: { f: "Z" } }, ["G3:H3"]);
    const [cell, other] = [formulaAt(cells, "A1"), formulaAt(cells, "E1")];
    cells.setArea(other, area("E1:E3"));
    const blocked = (address: string): boolean => cells.isBlocked(cell, area(address));
    expect(["A1:A4", "A1:B4", "A1", "A1:A5", "A1:C1", "A1:B5"].map(blocked)).toEqual([
      false,
      false,
      false,
      true,
      true,
      true,
    ]);
    expect(["E2:E3", "D2:D9", "E4:E9", "G2:G2", "G3:G9", "F1:G3"].map(blocked)).toEqual([
      true,
      false,
      false,
      false,
      true,
      true,
    ]);
    cells.setArea(cell, area("A1:A3"));
    expect(["A1:A4", "A1:B3"].map(blocked)).toEqual([false, false]);
    expect(cells.isBlocked(other, area("A2:A2"))).toBe(true);
    expect(sheetOf({ A1: { f: "X" }, B2: false }).isBlocked(cell, area("A1:B2"))).toBe(true);
  });
});

it("finds the formulas of a range that have no result yet", () => {
  const cells = sheetOf({ A1: { f: "X" }, A2: { f: "Y" }, A3: 1, C1: { f: "Z" } });
  const pending = (address: string): readonly string[] =>
    [...cells.pendingIn(area(address))].map(({ formula }) => formula.text);
  expect(pending("A1:C3")).toEqual(["X", "Y", "Z"]);
  expect(pending("A1")).toEqual(["X"]);
  expect(pending("A2:B9")).toEqual(["Y"]);
  expect(pending("A1:XFD1048576")).toEqual(["X", "Y", "Z"]);
  expect(pending("B1:B9")).toEqual([]);
  expect(pending("D4:E9")).toEqual([]);
  const owner = formulaAt(cells, "C1");
  cells.setArea(owner, area("C1:C3"));
  cells.setPending(owner);
  expect(pending("A3:C3")).toEqual(["Z"]);
  expect(pending("C1:C3")).toEqual(["Z"]);
  cells.setDone(formulaAt(cells, "A1"));
  expect(pending("A1:B2")).toEqual(["Y"]);
});

it("keeps nothing of an earlier outcome", () => {
  const cell = formulaAt(sheetOf({ A1: { f: "X" } }), "A1");
  const full = {
    value: 1,
    table: [[1, 2]],
    blocked: area("A1:B1"),
    sentences: [{ row: 0, column: 0, sentence: "count must be above 0" }],
    why: "the name x is not defined",
    differs: { ours: 2, why: "not trusted" },
  };
  takeOutcome(cell, full);
  expect(cell).toMatchObject(full);
  takeOutcome(cell, { value: 3 });
  expect(cell.value).toBe(3);
  for (const key of ["table", "blocked", "sentences", "why", "differs"]) expect(cell).not.toHaveProperty(key);
});
