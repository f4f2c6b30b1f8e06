import { describe, expect, it } from "vitest";
import { byFunction, conformanceOf } from "../../src/sheet/conformance";
import { workbookOf } from "./workbook-of";

describe("a workbook with stored values", () => {
  const cells = {
    A1: { f: "SUM(1,2)", v: 3 },
    A2: { f: "SUM(1,2)", v: 4 },
    // Reads a deviation, so that it says nothing about its own functions.
    A3: { f: "ABS(A2)", v: 4 },
    A4: { f: "ROUND(SUM(2,2),0)", v: 5 },
    A5: { f: "ROUND(2.4,0)", v: 2 },
    A6: { f: "CUBEVALUE(1)", v: 5 },
    A7: { f: "ROUND(1/3,15)", v: 0.3333333331 },
    A8: { f: "NA()", v: "#N/A" },
  };

  it("is compared cell by cell", async () => {
    const { formulas, deviations } = await conformanceOf(workbookOf({ S: cells }));
    expect(formulas).toBe(8);
    expect(deviations.map(({ row }) => row + 1)).toEqual([2, 3, 4, 6]);
  });

  it("tells by function, and lays a deviation to the least sound function", async () => {
    const { evidence } = await conformanceOf(workbookOf({ S: cells }));
    expect(Object.fromEntries(byFunction(evidence))).toEqual({
      CUBEVALUE: { equal: 0, different: 0, left: 1 },
      NA: { equal: 1, different: 0, left: 0 },
      ROUND: { equal: 2, different: 0, left: 0 },
      SUM: { equal: 1, different: 2, left: 0 },
    });
  });
});
