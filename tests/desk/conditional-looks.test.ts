import { describe, expect, it } from "vitest";
import { colorBetween, stopPosition } from "../../src/desk/color-scale";
import { conditionalLooks, isTooLarge } from "../../src/desk/conditional-looks";
import type { CellCondition, Question } from "../../src/workbook/conditions";
import type { CellValue } from "../../src/workbook/model";

const RED = { fill: "#ff0000" };
const EXTENT = { lastRow: 99, lastColumn: 9 };

/** The rows of column A that a condition paints. */
async function painted(
  values: readonly CellValue[],
  conditions: readonly CellCondition[],
  formulas: Readonly<Record<string, CellValue>> = {},
): Promise<readonly number[]> {
  const found = await conditionalLooks(
    0,
    { conditions, hasOthers: false },
    EXTENT,
    {
      value: ({ row }) => values[row] ?? null,
      evaluate: (_, formula) => Promise.resolve(formulas[formula] ?? null),
    },
    new AbortController().signal,
  );
  return found.filter(({ look }) => look.fill === RED.fill).map(({ row }) => row);
}

function over(count: number, question: Question, more: object = {}): CellCondition {
  const ranges = [{ firstRow: 0, firstColumn: 0, lastRow: count - 1, lastColumn: 0 }];
  return { ranges, priority: 1, question, look: RED, isLast: false, ...more };
}

const below = (formula1: string): Question => ({
  kind: "comparison",
  comparison: "lessThan",
  formula1,
  formula2: "",
});

describe("looks under conditions", () => {
  it("compares numbers, counts a blank as 0 and leaves errors and texts out", async () => {
    // Excel paints blanks under "less than" too; a text is greater than any number.
    expect(await painted([3, 8, null, "few", { error: "#N/A" }], [over(5, below("5"))])).toEqual([0, 2]);
  });

  it("compares with a cell, and texts whatever their case", async () => {
    expect(await painted([3, 8], [over(2, below("$D$1"))], { $D$1: 9 })).toEqual([0, 1]);
    const equal = {
      kind: "comparison",
      comparison: "equal",
      formula1: '"Late"',
      formula2: "",
    } as const;
    expect(await painted(["late", "ok"], [over(2, equal)])).toEqual([0]);
  });

  it("asks a formula for every cell, moved from the first one", async () => {
    const formulas = { "$B1>3": true, "$B2>3": 0, "$B3>3": 1, "$B4>3": "yes" };
    expect(await painted([1, 1, 1, 1], [over(4, { kind: "formula", formula: "$B1>3" })], formulas)).toEqual([
      0, 2,
    ]);
  });

  it("finds repetitions, the first ones in rank and those above the average", async () => {
    expect(
      await painted(
        ["gold", "Gold", "navy", null, null],
        [over(5, { kind: "repetition", isRepeated: true })],
      ),
    ).toEqual([0, 1]);
    expect(
      await painted(["gold", "Gold", "navy"], [over(3, { kind: "repetition", isRepeated: false })]),
    ).toEqual([2]);
    const rank = { kind: "rank", count: 2, isPercent: false, isLowest: false } as const;
    // Equal ones share a rank.
    expect(await painted([5, 9, 9, 7], [over(4, rank)])).toEqual([1, 2]);
    expect(
      await painted([5, 9, 8, 7], [over(4, { ...rank, count: 50, isPercent: true, isLowest: true })]),
    ).toEqual([0, 3]);
    // The mean of 1, 2 and 6 is 3.
    const average = { kind: "average", isAbove: true, isInclusive: false, deviations: 0 } as const;
    expect(await painted([1, 2, 6], [over(3, average)])).toEqual([2]);
  });

  it("finds those standard deviations beyond the average", async () => {
    // The mean of 2, 4, 4, 4, 5, 5, 7 and 9 is 5 and STDEV.S gives 2.138, so one beyond it is 7.138 and 2.862.
    const numbers = [2, 4, 4, 4, 5, 5, 7, 9];
    const one = { kind: "average", isAbove: true, isInclusive: false, deviations: 1 } as const;
    expect(await painted(numbers, [over(8, one)])).toEqual([7]);
    expect(await painted(numbers, [over(8, { ...one, isAbove: false })])).toEqual([0]);
    expect(await painted(numbers, [over(8, { ...one, deviations: 2 })])).toEqual([]);
  });

  const all = [{ firstRow: 0, firstColumn: 0, lastRow: 9, lastColumn: 0 }];
  const shown = async (
    values: readonly CellValue[],
    condition: CellCondition,
  ): ReturnType<typeof conditionalLooks> =>
    conditionalLooks(
      0,
      { conditions: [condition], hasOthers: false },
      EXTENT,
      { value: ({ row }) => values[row] ?? null, evaluate: () => Promise.resolve(null) },
      new AbortController().signal,
    );

  it("lets bars of negative numbers go the other way from where zero is", async () => {
    const stops = [
      { kind: "min", value: "" },
      { kind: "max", value: "" },
    ] as const;
    const bars = {
      ranges: all,
      priority: 1,
      bar: stops,
      color: "#638ec6",
      isFromZero: true,
      hidesNumber: false,
    };
    const found = await shown([-5, 10, 15, "few"], { ...bars, negativeColor: "#ff0000" });
    // From -5 to 15 zero lies at a quarter.
    expect(found.map(({ bar }) => bar)).toEqual([
      { from: 0, to: 0.25, color: "#ff0000" },
      { from: 0.25, to: 0.75, color: "#638ec6" },
      { from: 0.25, to: 1, color: "#638ec6" },
    ]);
  });

  it("gives a number the icon of the highest stop that it reaches", async () => {
    // Excel's own thirds: 33 % and 67 % of the way from the least to the most.
    const icons = ["0", "33", "67"].map((value) => ({ kind: "percent", value }) as const);
    const lights = {
      ranges: all,
      priority: 1,
      icons,
      set: "3TrafficLights1",
      isReversed: false,
      hidesNumber: false,
    };
    const colors = async (condition: CellCondition): Promise<readonly unknown[]> =>
      (await shown([0, 32, 33, 66, 67, 100, null], condition)).map(({ icon }) => icon?.color);
    const [red, , yellow, , green] = await colors(lights);
    expect(await colors(lights)).toEqual([red, red, yellow, yellow, green, green]);
    expect(new Set([red, yellow, green]).size).toBe(3);
    expect(await colors({ ...lights, isReversed: true })).toEqual([green, green, yellow, yellow, red, red]);
    const strict = icons.map((stop) => ({ ...stop, isStrict: true }));
    expect(await colors({ ...lights, icons: strict })).toEqual([red, red, red, yellow, yellow, green]);
    expect(await colors({ ...lights, set: "3Unknown" })).toEqual([]);
    const hidden = await shown([1, "few"], { ...lights, hidesNumber: true });
    expect(hidden.map(({ row, hidesNumber }) => [row, hidesNumber])).toEqual([[0, true]]);
  });

  it("lets the more important one win and stop the others", async () => {
    const blue = { look: { fill: "#0000ff" }, priority: 0 };
    expect(await painted([1, 9], [over(2, below("5"), blue), over(2, below("99"))])).toEqual([1]);
    const bold = { look: { bold: true }, priority: 0 };
    expect(await painted([1, 9], [over(2, below("5"), bold), over(2, below("99"))])).toEqual([0, 1]);
    expect(
      await painted([1, 9], [over(2, below("5"), { ...bold, isLast: true }), over(2, below("99"))]),
    ).toEqual([1]);
  });

  it("leaves a condition over too many cells out", () => {
    expect(isTooLarge(over(1_048_576, below("5")), EXTENT)).toBe(false);
    expect(isTooLarge(over(1_048_576, below("5")), { lastRow: 5_000, lastColumn: 0 })).toBe(true);
  });
});

describe("a scale of colours", () => {
  it("finds its stops among the numbers", () => {
    const numbers = [0, 10, 20, 100];
    expect(stopPosition("min", undefined, numbers)).toBe(0);
    expect(stopPosition("percent", 50, numbers)).toBe(50);
    // PERCENTILE.INC of 0, 10, 20 and 100 at one half is 15.
    expect(stopPosition("percentile", 50, numbers)).toBe(15);
    expect(stopPosition("num", 7, numbers)).toBe(7);
    expect(stopPosition("max", undefined, [])).toBeUndefined();
  });

  it("mixes the colours of the two stops beside a number", () => {
    const stops = [
      { at: 0, color: "#ff0000" },
      { at: 10, color: "#ffff00" },
      { at: 20, color: "#00ff00" },
    ];
    expect(colorBetween(stops, -5)).toBe("#ff0000");
    expect(colorBetween(stops, 5)).toBe("#ff8000");
    expect(colorBetween(stops, 15)).toBe("#80ff00");
    expect(colorBetween(stops, 99)).toBe("#00ff00");
  });
});
