import { afterEach, expect, it } from "vitest";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { parseCell } from "../../src/formula/address";
import { errorText, workbookOf } from "./workbook-of";

let engine = new UniverEngine([]);
afterEach(() => {
  engine.dispose();
});

/** A block of three rows and four columns: 11 to 14, 21 to 24, 31 to 34, all negative. */
const BLOCK = Object.fromEntries(
  [1, 2, 3].flatMap((row) =>
    [1, 2, 3, 4].map((column) => [`${" ABCD"[column] ?? ""}${row}`, -(10 * row + column)]),
  ),
);

/** What a formula of the time before spills gives in a cell. */
async function valueIn(address: string, formula: string): Promise<unknown> {
  engine = new UniverEngine([]);
  await engine.load(workbookOf({ S: { ...BLOCK, [address]: { f: formula, v: null } } }));
  await engine.recalculate({ differences: "accept" });
  const place = parseCell(address);
  if (place === undefined) throw new Error(address);
  return errorText(engine.value({ sheet: 0, ...place }));
}

// Microsoft support, page Implicit intersection operator: of a column the cell in the formula's row, of a row the one in its
// column, of an array the first; where row and column miss it, #VALUE!.
it.each([
  ["F2", "ABS(A1:A3)", 21],
  ["F3", "ABS(A1:A3)", 31],
  ["F9", "ABS(A1:A3)", "#VALUE!"],
  ["B9", "ABS(A1:C1)", 12],
  ["C9", "ABS(A1:D1)", 13],
  ["F9", "ABS(A1:C1)", "#VALUE!"],
  // No cell of what is read stands for a result that has another size.
  ["F2", "SMALL(A1:A3,{1;2})", -31],
  ["B9", "SMALL(A1:C1,{1,2})", -13],
  // Nor one that is read as a block.
  ["F2", "SMALL(A1:B3,{1;2;3})", -32],
  ["B9", "SMALL(A2:C3,{1,2,3})", -33],
  // An array is no cells: its first.
  ["F2", "ABS({-4;-5;-6})", 4],
])("%s: =%s is %s", async (address, formula, value) => {
  expect(await valueIn(address, formula)).toBe(value);
});
