import fc from "fast-check";
import { expect, it } from "vitest";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { type TestCell, workbookOf } from "../workbook-of";
import { LEFT, quickly } from "./quickly";

const number = fc.oneof(
  fc.integer({ min: -1000, max: 1000 }),
  fc.tuple(fc.integer({ min: -1e7, max: 1e7 }), fc.nat(6)).map(([whole, decimals]) => whole / 10 ** decimals),
  // Halves of the last place, which doubles miss by a hair.
  fc.tuple(fc.nat(100_000), fc.nat(4)).map(([whole, decimals]) => Number(`${whole}5e-${decimals + 1}`)),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.constantFrom(0, 1e15, -1e15, 2 ** 53, 1e22, 1e300, 5e-324, 1 / 3, 0.1, 1.005, 2.675, -1.005),
);
const digits = fc.oneof(fc.integer({ min: -5, max: 8 }), fc.constantFrom(0.5, -2.7, 15, 20, 309, 400, -400));

const FORMULAS = [
  "ROUND(A#,B#)", "ROUNDUP(A#,B#)", "ROUNDDOWN(A#,B#)", "INT(A#)", "CEILING(A#,C#)", "FLOOR(A#,C#)", "MOD(A#,C#)", "ABS(A#)",
  "SQRT(A#)", "A#+C#", "A#-C#", "A#*C#", "A#/C#",
]; // prettier-ignore

it(
  "computes roundings and operations to the last digit as the engine's own language does",
  { timeout: 60_000 },
  async () => {
    const rows = fc.sample(fc.tuple(number, digits, number), { numRuns: 300, seed: 3 });
    const cells: Record<string, TestCell> = {};
    for (const [at, given] of rows.entries()) {
      given.forEach((value, column) => (cells[`${"ABC"[column] ?? ""}${at + 1}`] = value || 0));
      FORMULAS.forEach((formula, column) => {
        cells[`${"EFGHIJKLMNOPQ"[column] ?? ""}${at + 1}`] = `=${formula.replaceAll("#", String(at + 1))}`;
      });
    }
    const workbook = workbookOf({ S: cells });
    const found: unknown[][] = [];
    for (const fast of [true, false]) {
      const engine = new UniverEngine([], { fast });
      await engine.load(workbook);
      await engine.recalculate();
      found.push(
        rows.flatMap((given, row) =>
          FORMULAS.map((formula, column) => [
            formula,
            given,
            engine.value({ sheet: 0, row, column: column + 4 }),
          ]),
        ),
      );
      engine.dispose();
    }
    expect(found[0]).toEqual(found[1]);
  },
);

// Exact decimal arithmetic by hand; Microsoft's pages ROUND, CEILING, FLOOR and MOD.
it.each([
  ["ROUND(1.005,2)", 1.01],
  ["ROUND(2.675,2)", 2.68],
  ["ROUND(-1.475,2)", -1.48],
  ["ROUND(626.3,-3)", 1000],
  ["ROUNDUP(3.2,0)", 4],
  ["ROUNDUP(-3.14159,1)", -3.2],
  ["ROUNDDOWN(31415.92654,-2)", 31400],
  ["CEILING(2.5,1)", 3],
  ["CEILING(-2.5,-2)", -4],
  ["CEILING(1.5,0.1)", 1.5],
  ["CEILING(2,0)", 0],
  ["FLOOR(0.234,0.01)", 0.23],
  ["FLOOR(2.5,-2)", { error: "#NUM!" }],
  ["FLOOR(2,0)", { error: "#DIV/0!" }],
  ["MOD(-3,2)", 1],
  ["MOD(3,-2)", -1],
  ["MOD(3,0)", { error: "#DIV/0!" }],
  ["INT(-8.9)", -9],
  ["SQRT(-16)", { error: "#NUM!" }],
])("%s is %j", async (formula, value) => {
  const engine = new UniverEngine([]);
  await engine.load(workbookOf({ S: { A1: `=${formula}` } }));
  await engine.recalculate();
  expect(engine.value({ sheet: 0, row: 0, column: 0 })).toEqual(value);
  engine.dispose();
});

// Microsoft's pages of the functions, and decimal arithmetic by hand, over the cells of `SHEETS`.
it.each([
  ["ROUND(2.15,1)", 2.2],
  ["ROUND(2.149,1)", 2.1],
  ["ROUND(21.5,-1)", 20],
  ["ROUND(-50.55,-2)", -100],
  ["ROUND(-1.4,0)", -1],
  ["ROUND(-2.5,0)", -3],
  ["ROUND(-0.4,0)", 0],
  ["ROUND(0,2)", 0],
  ["ROUND(1.25,1.9)", 1.3],
  ["ROUND(15,-1.9)", 20],
  ["ROUNDUP(76.9,0)", 77],
  ["ROUNDUP(3.14159,3)", 3.142],
  ["ROUNDUP(1.1,1)", 1.1],
  ["ROUNDUP(4.35,2)", 4.35],
  ["ROUNDUP(31415.92654,-2)", 31_500],
  ["ROUNDDOWN(76.9,0)", 76],
  ["ROUNDDOWN(1.15,2)", 1.15],
  ["ROUNDDOWN(-3.14159,1)", -3.1],
  ["INT(8.9)", 8],
  ["INT(-8.9)", -9],
  ["INT(B1/3)", 3],
  ["INT(1E308*10)", "#NUM!"],
  ["INT(E1)", "#DIV/0!"],
  ["ABS(-4)", 4],
  ["ABS(E2)", "#N/A"],
  ["ABS(A5)", LEFT],
  ["SQRT(16)", 4],
  ["SQRT(-16)", "#NUM!"],
  ["CEILING(2.5,1)", 3],
  ["CEILING(-2.5,-2)", -4],
  ["CEILING(-2.5,2)", -2],
  ["CEILING(1.5,0.1)", 1.5],
  ["CEILING(0.234,0.01)", 0.24],
  ["CEILING(0,5)", 0],
  ["CEILING(0,-5)", 0],
  ["CEILING(7,0)", 0],
  ["CEILING(2,-2)", "#NUM!"],
  ["FLOOR(3.7,2)", 2],
  ["FLOOR(-2.5,-2)", -2],
  ["FLOOR(-2.5,2)", -4],
  ["FLOOR(1.58,0.1)", 1.5],
  ["FLOOR(0,0)", 0],
  ["FLOOR(2,0)", "#DIV/0!"],
  ["FLOOR(2,-2)", "#NUM!"],
  ["MOD(3,2)", 1],
  ["MOD(-3,2)", 1],
  ["MOD(3,-2)", -1],
  ["MOD(-3,-2)", -1],
  ["MOD(6,3)", 0],
  ["MOD(-6,3)", 0],
  ["MOD(5.5,2)", 1.5],
  ["MOD(3,0)", "#DIV/0!"],
  ["MOD(0,5)", 0],
  // Page MOD: #NUM! where the divisor goes 1,125,900,000,000 times and more into the number.
  ["MOD(1125900000000,1)", "#NUM!"],
  ["MOD(1125899999999,1)", 0],
  ["MOD(-1125900000000,1)", "#NUM!"],
  ["MOD(1125900000000,-1)", "#NUM!"],
  // Texts and two errors are read by Univer.
  ['ROUND("2.5",0)', LEFT],
  ["ROUND(E1,E2)", LEFT],
  ["ROUND(A1,0)", LEFT],
  ["INT(A1)", LEFT],
  ["INT(TRUE)", LEFT],
])("%s is %j at once", async (formula, value) => {
  const found = await quickly(formula);
  if (typeof value === "number") expect(found).toBeCloseTo(value, 12);
  else expect(found).toBe(value);
});
