import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fileFormula } from "../../src/formula/names";
import type { KeptFormula } from "../../src/partner/kept-formulas";
import { KEPT_COLUMNS, keptSheetRows, readKeptSheet } from "../../src/partner/kept-sheet";

const TAKEN = "2027-06-19T10:00:00.000Z";
const kept: KeptFormula = { sheet: "Plan", row: 2, column: 1, formula: "=BLN.METRES(1)", values: [[1]] };

const value = fc.oneof(
  fc.string({ unit: "binary" }),
  fc.boolean(),
  // Excel's largest number.
  fc.double({ noNaN: true, min: -9.99999999999999e307, max: 9.99999999999999e307 }),
);
const formula: fc.Arbitrary<KeptFormula> = fc
  .record({
    sheet: fc.string({ unit: "binary", minLength: 1 }),
    row: fc.nat(1_048_000),
    column: fc.nat(16_000),
    formula: fc.string({ unit: "binary" }).map((text) => `=${text}`),
    stored: fc.string({ unit: "binary" }),
    values: fc.array(value, { minLength: 1, maxLength: 4 }).map((cells) => cells.map((cell) => [cell])),
  })
  .map((one) => {
    const { row, column, values } = one;
    const range = {
      firstRow: row,
      firstColumn: column,
      lastRow: row + values.length - 1,
      lastColumn: column,
    };
    return values.length > 1 ? { ...one, kind: "dynamic" as const, range } : one;
  });

describe("the sheet of kept formulas", () => {
  it("can be read by a person", () => {
    const rows = keptSheetRows({ taken: TAKEN, formulas: [kept] });
    expect(rows[0]?.[0]).toContain("since 2027-06-19");
    expect(rows[3]).toEqual([...KEPT_COLUMNS]);
    expect(rows[4]?.slice(0, 5)).toEqual(["Plan", "B3", "", "=BLN.METRES(1)", "1"]);
    expect(new Set(rows.map((row) => row.length)).size).toBe(1);
  });

  it("gives the formulas back, numbers at the 15 digits that every program keeps", () => {
    fc.assert(
      fc.property(fc.array(formula, { minLength: 1 }), (formulas) => {
        const read = readKeptSheet(keptSheetRows({ taken: TAKEN, formulas }));
        expect(read?.taken).toBe("2027-06-19");
        const fifteen = (cell: unknown): unknown =>
          typeof cell === "number" ? Number(cell.toPrecision(15)) + 0 : cell;
        const comparable = (list: readonly KeptFormula[] | undefined): unknown =>
          list?.map((one) => ({
            ...one,
            stored: one.stored ?? fileFormula(one.formula.slice(1)),
            values: one.values.map((row) => row.map(fifteen)),
          }));
        expect(comparable(read?.formulas)).toEqual(comparable(formulas));
      }),
    );
  });

  it("goes on in cells to the right where one is too small", () => {
    const long = { ...kept, values: [["é".repeat(32_767)], ["x".repeat(32_767)]] };
    const rows = keptSheetRows({ taken: TAKEN, formulas: [long] });
    expect(Math.max(...rows.flat().map((text) => text.length))).toBeLessThanOrEqual(32_767);
    expect(readKeptSheet(rows)?.formulas).toEqual([long]);
  });

  it("is found wherever rows were put above it, and only where it is whole", () => {
    const rows = keptSheetRows({ taken: TAKEN, formulas: [kept] });
    expect(readKeptSheet([["mine"], [], ...rows, [], [""]])?.formulas).toEqual([kept]);
    expect(readKeptSheet(rows.slice(0, 3))).toBeUndefined();
    expect(readKeptSheet([...rows, ["a remark"]])).toBeUndefined();
    expect(readKeptSheet(rows.map((row) => row.map((cell) => cell.replace("B3", "B0"))))).toBeUndefined();
  });
});
