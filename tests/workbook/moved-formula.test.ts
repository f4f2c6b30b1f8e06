import { expect, it } from "vitest";
import { type LostColumns, movedFormula } from "../../src/workbook/moved-formula";

// What Excel makes of formulas whose table, or a column of it, is deleted: #REF! for what is gone, the rest as it was.

const moved = (formula: string, ...lost: readonly LostColumns[]): string =>
  movedFormula(
    { sheet: "Lists", shift: { kind: "delete", axis: "column", at: 90, count: 1 }, lost },
    formula,
    "Offer",
  );
const whole: LostColumns = { table: "Prices", columns: ["size", "cost"], isWhole: true };
const cost: LostColumns = { table: "Prices", columns: ["cost"], isWhole: false };

it.each([
  ["SUM(Prices[cost])", "SUM(#REF!)"],
  ["ROWS(Prices)+1", "ROWS(#REF!)+1"],
  ["SUM(prices[Cost])", "SUM(#REF!)"],
  ["Prices[[#Totals],[cost]]*2", "#REF!*2"],
  ["SUM(Prices2[cost])+Other[cost]", "SUM(Prices2[cost])+Other[cost]"],
  ['"Prices[cost]"&A1', '"Prices[cost]"&A1'],
])("of a table that is gone: %s", (before, after) => {
  expect(moved(before, whole)).toBe(after);
});

it.each([
  ["SUM(Prices[cost])", "SUM(#REF!)"],
  ["SUM(Prices[COST],Prices[size])", "SUM(#REF!,Prices[size])"],
  ["Prices[[#This Row],[cost]]-Prices[[#This Row],[size]]", "#REF!-Prices[[#This Row],[size]]"],
  ["SUM(Prices[[size]:[cost]])", "SUM(#REF!)"],
  ["ROWS(Prices)", "ROWS(Prices)"],
  ["SUM(Prices[costs])", "SUM(Prices[costs])"],
  ["SUM(Other[cost])", "SUM(Other[cost])"],
])("of a column that is gone: %s", (before, after) => {
  expect(moved(before, cost)).toBe(after);
});

// Brackets, number signs and apostrophes in a column's name stand behind an apostrophe (Excel, structured references).
it("of a column whose name has signs of its own", () => {
  const odd: LostColumns = { table: "Prices", columns: ["[net] #1 a'b"], isWhole: false };
  expect(moved("SUM(Prices['[net'] '#1 a''b])", odd)).toBe("SUM(#REF!)");
  expect(moved("SUM(Prices[net])", odd)).toBe("SUM(Prices[net])");
});

it("of several tables, and of cells that move as well", () => {
  const shift = { kind: "delete", axis: "column", at: 1, count: 1 } as const;
  const other: LostColumns = { table: "Rates", columns: ["x"], isWhole: true };
  const change = { sheet: "Lists", shift, lost: [cost, other] };
  expect(movedFormula(change, "Prices[cost]+Rates[x]+Lists!D4+D4+Lists!B1", "Offer")).toBe(
    "#REF!+#REF!+Lists!C4+D4+Lists!#REF!",
  );
  expect(movedFormula(change, "D4", "Lists")).toBe("C4");
});
