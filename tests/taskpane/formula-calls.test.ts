import { describe, expect, it } from "vitest";
import { argumentValues, evaluate, ourCalls } from "../../src/taskpane/formula-calls";
import type { CellRows } from "../../src/taskpane/sheet-host";

const cells: Readonly<Record<string, CellRows>> = {
  A1: [[1.8]],
  "'Price list'!B2": [[10]],
  "A1:A3": [[1], [2], [3]],
  "[@Height]": [[2.4]],
  Sizes: [[5, 11]],
};

const values = (formula: string): unknown => {
  const [call] = ourCalls(formula);
  return call && argumentValues(call, (reference) => cells[reference]);
};

describe("arguments of a call", () => {
  it.each([
    ["=BLN.COUNT_COLUMN(A1, 'Price list'!B2)", [1.8, 10]],
    ['=BLN.COUNT_COLUMN("6 ft", -2.5)', ["6 ft", -2.5]],
    ['=BLN.COUNT_COLUMN("say ""6""", TRUE)', ['say "6"', true]],
    ["=ROUND(BLN.COUNT_COLUMN([@Height], 11,, 0.9), 0)", [2.4, 11, null, 0.9]],
    ["=_xldudf_BLN_COUNT_COLUMN((A1), 1e1)", [1.8, 10]],
    ["=BLN.COUNT_COLUMN(A1:A3, 10)", [1, 10]],
    [
      '=BLN.BAG_PLAN(200, {50,-8;"100",14})',
      [
        200,
        [
          [50, -8],
          ["100", 14],
        ],
      ],
    ],
    ["=BLN.BAG_PLAN(200, A1:A3)", [200, [[1], [2], [3]]]],
  ])("%s", (formula, expected) => {
    expect(values(formula)).toEqual(expected);
  });

  it.each(["=BLN.COUNT_COLUMN(A1*2, 10)", "=BLN.COUNT_COLUMN(Z9, 10)", "=BLN.COUNT_COLUMN(SUM(A1), 10)"])(
    "cannot tell %s",
    (formula) => {
      expect(values(formula)).toBeUndefined();
    },
  );

  it("are computed where they are calls of ours", () => {
    const [outer] = ourCalls('=BLN.COUNT_COLUMN(BLN.METRES("1.8 m"), 10)');
    const [plain] = ourCalls("=BLN.COUNT_COLUMN(1.8, 10)");
    if (outer === undefined || plain === undefined) throw new Error("no call");
    expect(evaluate(outer, () => undefined)).toEqual(evaluate(plain, () => undefined));
  });

  it("are not looked for in text and in functions of others", () => {
    expect(ourCalls('="BLN.METRES(1)"&SUM(A1)&OTHER.METRES(2)')).toEqual([]);
  });
});
