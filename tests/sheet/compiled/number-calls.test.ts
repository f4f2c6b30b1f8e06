import fc from "fast-check";
import { expect, it } from "vitest";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { type TestCell, workbookOf } from "../workbook-of";

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
