import { expect, it } from "vitest";
import { takeOutcome } from "../../src/sheet/sheet-cells";
import { NotReady, WorkbookCells } from "../../src/sheet/workbook-cells";
import { workbookOf } from "./workbook-of";

function made(): WorkbookCells {
  return new WorkbookCells(
    workbookOf({
      Job: { A1: "x", B1: { f: "A1&1", v: "old" }, D4: { error: "#N/A" } },
      Prices: { A1: { f: "1+1", kind: "array", range: "A1:A2", v: 5 }, A2: 6 },
    }),
  );
}

it("gives the value of each cell, wherever it comes from", () => {
  const cells = made();
  const places = [
    { sheet: 0, row: 0, column: 0 },
    { sheet: 0, row: 0, column: 1 },
    { sheet: 0, row: 3, column: 3 },
    { sheet: 0, row: 9, column: 9 },
    { sheet: 1, row: 0, column: 0 },
    { sheet: 1, row: 1, column: 0 },
  ];
  expect(places.map((place) => cells.value(place))).toEqual(["x", "old", { error: "#N/A" }, null, 5, 6]);
});

it("gives a formula what it reads, with the formula that stands there", () => {
  const cells = made();
  expect(cells.read(0, 0, 0)).toEqual({ value: "x" });
  expect(cells.read(0, 5, 5)).toBeUndefined();
  const [first] = cells.formulas();
  if (first === undefined) throw new Error("no formula");
  takeOutcome(first, { value: "x1" });
  cells.sheet(0).setDone(first);
  expect(cells.read(0, 0, 1)).toEqual({ value: "x1", formula: "A1&1" });
});

it("names the formula that must be computed first", () => {
  const cells = made();
  const missing = (sheet: number, row: number, column: number): unknown => {
    try {
      return cells.read(sheet, row, column);
    } catch (error) {
      return error instanceof NotReady ? error.cell.formula.text : error;
    }
  };
  expect(missing(0, 0, 1)).toBe("A1&1");
  expect(missing(1, 0, 0)).toBe("1+1");
  expect(missing(1, 1, 0)).toBe("1+1");
});

it("lists what waits, and nothing else", () => {
  const cells = made();
  const waiting = (): readonly string[] => cells.pending().map(({ formula }) => formula.text);
  expect(waiting()).toEqual(["A1&1", "1+1"]);
  const [first] = cells.pending();
  if (first !== undefined) cells.sheet(0).setDone(first);
  expect(waiting()).toEqual(["1+1"]);
});

it("says that a sheet does not exist", () => {
  expect(() => made().sheet(2)).toThrow("the workbook has no sheet 3");
});

// Whole columns and rows are read with room for 64 rows and 16 columns more, up to a power of two, so that typing below
// a list seldom changes what they mean; a sheet has 1,048,576 rows and 16,384 columns (Microsoft support, Excel limits).
it.each([
  [{ row: 0, column: 0 }, 127, 31],
  [{ row: 63, column: 15 }, 127, 31],
  [{ row: 64, column: 16 }, 127, 31],
  [{ row: 65, column: 17 }, 255, 63],
  [{ row: 1_048_575, column: 16_383 }, 1_048_575, 16_383],
  [{ row: 1_000_000, column: 9000 }, 1_048_575, 16_383],
  [undefined, 127, 31],
])("reads whole columns of a workbook that reaches D4 and %j up to row %d", (place, lastRow, lastColumn) => {
  const grown = place === undefined ? undefined : { sheet: 0, ...place };
  expect(made().extent(grown)).toEqual({ lastRow, lastColumn });
});
