import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dataPart, partData } from "../../src/workbook/data-part";
import {
  KEPT_NAMESPACE,
  keptPart,
  keptRange,
  readKeptPart,
  type KeptFormula,
} from "../../src/partner/kept-formulas";

const value = fc.oneof(
  fc.string({ unit: "binary" }),
  fc.boolean(),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
);
const formula: fc.Arbitrary<KeptFormula> = fc
  .record({
    sheet: fc.string({ unit: "binary", minLength: 1 }),
    row: fc.nat(1_048_000),
    column: fc.nat(16_000),
    formula: fc.string({ unit: "binary" }),
    many: fc.boolean(),
    value,
  })
  .map(({ many, value: first, ...kept }) => {
    const { row, column } = kept;
    const range = { firstRow: row, firstColumn: column, lastRow: row + 1, lastColumn: column };
    return many
      ? { ...kept, kind: "dynamic" as const, range, values: [[first], [""]] }
      : { ...kept, values: [[first]] };
  });

describe("kept formulas", () => {
  it("come back from their part as they were, whatever text they hold", () => {
    fc.assert(
      fc.property(fc.array(formula), (formulas) => {
        const kept = { taken: "2027-06-19T10:00:00.000Z", formulas };
        // JSON knows one zero.
        expect(readKeptPart(keptPart(kept))).toEqual(JSON.parse(JSON.stringify(kept)));
      }),
    );
  });

  it("are not read from parts that are damaged or from something else", () => {
    const part = (data: unknown): string => dataPart(KEPT_NAMESPACE, data);
    const good = { sheet: "Plan", cell: "B3", formula: "=1", values: [[1]] };
    expect(readKeptPart(part({ taken: "x", formulas: [good] }))?.formulas).toHaveLength(1);
    for (const bad of [
      {},
      { sheet: 1 },
      { cell: "B0" },
      { range: "?" },
      { values: [] },
      { values: [[null]] },
      { values: [[]] },
    ]) {
      const formulas = [Object.keys(bad).length === 0 ? {} : { ...good, ...bad }];
      expect(readKeptPart(part({ taken: "x", formulas }))).toBeUndefined();
    }
    expect(readKeptPart("<a>")).toBeUndefined();
    expect(readKeptPart(dataPart("urn:other", { taken: "x", formulas: [] }))).toBeUndefined();
    expect(partData("urn:other", dataPart("urn:other", [1]))).toEqual([1]);
  });

  it("fill their own cell where they fill no more", () => {
    expect(keptRange({ row: 2, column: 1 })).toEqual({
      firstRow: 2,
      firstColumn: 1,
      lastRow: 2,
      lastColumn: 1,
    });
  });
});
