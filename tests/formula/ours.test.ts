import { describe, expect, it } from "vitest";
import { calledFunction, mayFill, oursTest } from "../../src/formula/ours";

const usesOurs = oursTest({
  sheets: [],
  tables: [],
  names: Array.from({ length: 20_000 }, (_, i) => ({
    name: `step_${i}`,
    reference: i === 0 ? "BLN.METRES(1)" : `step_${i - 1}+1`,
  })),
});

describe("formulas of ours", () => {
  it("are known by their calls, and through names, however many lie between", () => {
    expect(usesOurs("SUM(BLN.METRES(1),2)", "Plan")).toBe(true);
    expect(usesOurs("step_19999", "Plan")).toBe(true);
    expect(usesOurs("step_20000", "Plan")).toBe(false);
    expect(usesOurs('"step_1"&"BLN.METRES(1)"', "Plan")).toBe(false);
  });

  it("call functions of the catalogue", () => {
    expect(calledFunction({ kind: "call", text: "_xldudf_bln_metres" })?.name).toBe("METRES");
    expect(calledFunction({ kind: "call", text: "BLN.NO_SUCH" })).toBeUndefined();
    expect(calledFunction({ kind: "name", text: "BLN.METRES" })).toBeUndefined();
  });

  it("may fill more than their cell where they give tables or lists", () => {
    expect(mayFill("BLN.BAG_PLAN(1,{1},{2})")).toBe(true);
    expect(mayFill("_xlfn._xlws.SORT(A1:A9)")).toBe(true);
    expect(mayFill("BLN.METRES(1)+SUM(A1:A9)")).toBe(false);
  });
});
