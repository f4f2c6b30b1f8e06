import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catalogue, functionNamed } from "../../../src/functions/catalogue";
import type { Cell } from "../../../src/functions/definition";
import { functionForRows } from "../../../src/functions/help/each";

const each = functionNamed("EACH");
if (each === undefined) throw new Error("EACH is missing");

function column(...args: readonly unknown[]): readonly Cell[] {
  const outcome = each?.call(args);
  if (outcome?.kind !== "table") throw new Error(JSON.stringify(outcome));
  expect(outcome.rows.every((row) => row.length === 1)).toBe(true);
  return outcome.rows.map(([cell]) => cell ?? "");
}

const alone = (name: string, ...args: readonly unknown[]): Cell => {
  const outcome = functionNamed(name)?.call(args);
  if (outcome?.kind === "value") return outcome.value;
  return outcome?.kind === "error" ? { error: "#N/A", sentence: outcome.sentence } : "";
};

describe("EACH", () => {
  it("gives for each row what the function gives for it alone (law, any heights and sizes)", () => {
    const cell = fc.oneof(
      fc.double({ min: 0.1, max: 40, noNaN: true }),
      fc.constantFrom("6 ft", "?", "11 in"),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { minLength: 2, maxLength: 8 }), (rows) => {
        const wanted = rows.map(([height, balloon]) => alone("COUNT_COLUMN", height, balloon));
        expect(column("COUNT_COLUMN", rows)).toEqual(wanted);
        const apart = [rows.map(([height]) => [height]), rows.map(([, balloon]) => [balloon])] as const;
        expect(column("COUNT_COLUMN", ...apart)).toEqual(wanted);
      }),
      { numRuns: 100 },
    );
  });

  it("keeps the error of a row in its own cell with its sentence, and that of an error cell", () => {
    // 6 ft at 9 in is 12 clusters of four: common practice, two clusters to the foot.
    const heights = [["6 ft"], [-1], [{ error: "#REF!" }], ["6 ft"]];
    expect(column("COUNT_COLUMN", heights, 9)).toEqual([
      48,
      { error: "#N/A", sentence: expect.stringContaining("height must be above 0") },
      { error: "#N/A", sentence: "height holds the error #REF!" },
      48,
    ]);
  });

  it("takes one cell or one row for all rows, and leaves out what lies between", () => {
    expect(column("COUNT_COLUMN", [[1.8], [2.4]], 10)).toEqual([
      alone("COUNT_COLUMN", 1.8, 10),
      alone("COUNT_COLUMN", 2.4, 10),
    ]);
    expect(column("COUNT_COLUMN", [[1.8], [2.4]], [[10, 5]])).toEqual([
      alone("COUNT_COLUMN", 1.8, 10, 5),
      alone("COUNT_COLUMN", 2.4, 10, 5),
    ]);
    expect(column("COUNT_COLUMN", [[1.8], [2.4]], [[10], [11]], null, [[0.9], [0.7]])).toEqual([
      alone("COUNT_COLUMN", 1.8, 10, null, 0.9),
      alone("COUNT_COLUMN", 2.4, 11, null, 0.7),
    ]);
  });

  it("reads a name with its namespace, brackets or lower case", () => {
    for (const name of ["bln.metres", "BLN_METRES", "=BLN.METRES()", " metres "])
      expect(column(name, [["6 m"]]), name).toEqual([6]);
  });

  it("leaves blank rows blank whatever stands in for them, and drops the blank end", () => {
    for (const blank of [null, "", undefined])
      expect(column("METRES", [["6 m"], [blank], ["1 m"], [blank], [blank]])).toEqual([6, "", 1]);
    // A host that sends 0 for the blank end of a range: no column is 0 m high.
    expect(column("COUNT_COLUMN", [["6 ft"], [0], [0]], 9)).toEqual([48]);
    // Where 0 is an answer it stays, at the end too: no balloons hold no air.
    expect(column("AIR_LITRES", 11, [[0], [0]])).toEqual([0, 0]);
    expect(each.call(["METRES", [[null], [""]]])).toMatchObject({
      code: "#VALUE!",
      sentence: "range_1 must be given, found nothing",
    });
  });

  it("takes a whole column of the sheet", () => {
    const rows = Array.from({ length: 1_048_576 }, (_, row) => [row < 3 ? "6 ft" : 0]);
    expect(column("COUNT_COLUMN", rows, 9)).toEqual([48, 48, 48]);
  });

  it("has a range for every argument of every function that it takes", () => {
    const taken = catalogue.filter((fn) => functionForRows(catalogue, fn.name) !== undefined);
    expect(taken.length).toBeGreaterThan(30);
    expect(taken.every(({ name }) => name !== "EACH")).toBe(true);
    for (const { params } of taken) expect(params.length).toBeLessThanOrEqual(each.params.length - 1);
  });
});
