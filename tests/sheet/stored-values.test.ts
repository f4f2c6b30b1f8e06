import { describe, expect, it } from "vitest";
import { byFunction, conformanceOf, isSame, storedFormulas } from "../../src/sheet/conformance";
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

it("leaves out what reads a deviating cell, and nothing beside it", async () => {
  const sheets = {
    S: {
      // The number pi is not 3.
      B2: { f: "PI()", v: 3 },
      E1: { f: "SUM(A1:C3)", v: Math.PI },
      E2: { f: "MAX(B3:B4)", v: 0 },
      E3: { f: "MIN(B1:B1)", v: 0 },
      E4: { f: "COUNT(A2:A2)", v: 0 },
      E5: { f: "COUNTA(C2:C2)", v: 0 },
    },
    T: { E1: { f: "PRODUCT(B2:B2)", v: 0 }, E2: { f: "NO.SUCH(1)", v: 4 } },
  };
  const { deviations, evidence } = await conformanceOf(workbookOf(sheets));
  expect(evidence.map(({ calls, found }) => [calls.join(), found])).toEqual([
    ["PI", "different"],
    ["MAX", "equal"],
    ["MIN", "equal"],
    ["COUNT", "equal"],
    ["COUNTA", "equal"],
    ["PRODUCT", "equal"],
    ["NO.SUCH", "left"],
  ]);
  expect(deviations).toMatchObject([
    { sheet: 0, row: 1, column: 1, formula: "PI()", stored: 3, ours: Math.PI },
    { sheet: 1, row: 1, column: 4, stored: 4, ours: 4, why: "the function NO.SUCH is not known here" },
  ]);
});

it("lays what differs to the function that differs more often, and lists functions by name", () => {
  const evidence = (["SIN", "COS"] as const).flatMap((name) =>
    Array.from({ length: name === "SIN" ? 2 : 3 }, () => ({ calls: [name], found: "equal" as const })),
  );
  const wrong = [["COS"], ["COS"], ["COS"], ["SIN", "COS"]].map((calls) => ({
    calls,
    found: "different" as const,
  }));
  expect([...byFunction([...evidence, ...wrong])]).toEqual([
    ["COS", { equal: 3, different: 4, left: 0 }],
    ["SIN", { equal: 2, different: 0, left: 0 }],
  ]);
});

it("takes from a file the formulas that have values, with all that they fill", () => {
  const [sheet] = workbookOf({
    S: {
      A1: 5,
      A2: { f: "A1", v: 5, range: "A2:A3" },
      A4: { f: "A1" },
      B1: { f: "A1", v: 1, kind: "dataTable", range: "B1:B2" },
      C1: { f: "X", v: 1, kind: "array", range: "C1:D2" },
      D1: 2,
      C2: 3,
      F1: { f: "Y", v: 9, kind: "dynamic" },
    },
  }).sheets;
  if (sheet === undefined) throw new Error("no sheet");
  expect(storedFormulas(sheet, 3).map(({ text, values, sheet: at }) => [text, values, at])).toEqual([
    ["A1", [[5]], 3],
    [
      "X",
      [
        [1, 2],
        [3, null],
      ],
      3,
    ],
    ["Y", [[9]], 3],
  ]);
});

it.each([
  [[[1]], 1, { value: 1 }, true],
  [[[1]], 1, { value: 2 }, false],
  [[[1], [2]], 1, { value: 1, spilled: [[1], [2]] }, true],
  [[[1], [2]], 1, { value: 1, spilled: [[1], [3]] }, false],
  [[[1, 2]], 1, { value: 1, spilled: [[1, 3]] }, false],
  [[[1], [2]], 1, { value: 1 }, false],
  [[[1], [null]], 1, { value: 1 }, true],
  // A program that stores an error as its text.
  [[["#N/A"]], "#N/A", { value: { error: "#N/A" } }, true],
  [[["#N/A"]], "#N/A", { value: { error: "#REF!" } }, false],
  [[["a"]], "a", { value: "b" }, false],
  [[[5]], 5, { value: { error: "#N/A" } }, false],
  [[["x"]], "y", { value: "x" }, false],
])("holds what is stored, %j, against %j", (stored, value, found, same) => {
  expect(isSame(stored, value, found)).toBe(same);
});
