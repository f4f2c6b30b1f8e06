import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { define, headerOf, type Outcome } from "../../src/functions/define";
import type { Param, ScalarParam } from "../../src/functions/param";

function echo(param: Param): (value: unknown, ...more: unknown[]) => Outcome {
  const fn = define({
    name: "ECHO",
    category: "Help for sheets",
    text: "Gives its argument back.",
    asks: [],
    params: [param],
    result: { kind: "value", measure: "text", text: "As text." },
    source: "test",
    examples: [],
    failures: [],
    compute: (value: unknown) => JSON.stringify(value ?? null),
  } as never);
  return (...args) => fn.call(args);
}

const read = (param: Param, value: unknown): unknown => {
  const outcome = echo(param)(value);
  if (outcome.kind === "value") return JSON.parse(String(outcome.value)) as unknown;
  return outcome.kind === "error" ? outcome.sentence : outcome;
};

const length: ScalarParam = { name: "height", kind: "length", text: "Height." };
const balloon: ScalarParam = { name: "balloon", kind: "balloon", text: "Size." };
const share: ScalarParam = { name: "breakage", kind: "share", text: "Share.", default: 0.03 };
const count: ScalarParam = { name: "count", kind: "count", text: "Count." };

describe("scalar arguments", () => {
  it.each<[string, ScalarParam, unknown, unknown]>([
    ["a bare length in metres", length, 1.8, 1.8],
    ["a bare size in inches", balloon, 10, 0.254],
    ["a size at its limit", balloon, 120, 3.048],
    ["a size with its unit", balloon, "28 cm", 0.28],
    ["a 1 x 1 range", balloon, [[10]], 0.254],
    ["a percent text", share, "5%", 0.05],
    ["a share as text", share, "0,05", 0.05],
    ["a blank as the default", share, "", 0.03],
    ["null as the default", share, null, 0.03],
    ["an unfilled optional cell sent as 0", share, 0, 0.03],
    ["zero typed as text", share, "0%", 0],
    ["none in words", share, "none", 0],
    ["zero as a required count", count, 0, 0],
    ["a temperature in kelvin", { name: "t", kind: "temperature", text: "T." }, 20, 293.15],
    [
      "a choice in any case",
      { name: "c", kind: "choice", options: ["half ellipse"], text: "C." },
      "Half-Ellipse",
      "half ellipse",
    ],
    ["a flag in words", { name: "f", kind: "flag", text: "F." }, "yes", true],
    ["text trimmed", { name: "x", kind: "text", text: "X." }, " ab\u00a0c ", "ab c"],
  ])("reads %s", (_, param, value, expected) => {
    expect(read(param, value)).toEqual(expected);
  });

  it.each<[ScalarParam, unknown, string]>([
    [balloon, 250, "balloon must be from 1 to 120 in, found 250 in"],
    [balloon, "400 cm", "balloon must be from 1 to 120 in, found 157.480314961 in"],
    [balloon, null, "balloon must be given, found nothing"],
    [balloon, "big", 'balloon must be an inflated size such as 11 or "28 cm", found "big"'],
    [balloon, true, 'balloon must be an inflated size such as 11 or "28 cm", found TRUE'],
    [
      balloon,
      46157,
      "balloon must be from 1 to 120 in, found 46157 in; this may be a date: sizes such as 5/11/16 must be one per cell",
    ],
    [length, -1, "height must be from 0 to 1000 m, found -1 m"],
    [length, "6 furlongs", 'height must be a length such as 1.8 or "6 ft", found "6 furlongs"'],
    [
      length,
      "1,234",
      'height must be clear about its comma, found "1,234"; type it as a number, without a thousands mark',
    ],
    [length, Number.NaN, 'height must be a length such as 1.8 or "6 ft", found a value that is not a number'],
    [share, 3, "breakage must be from 0 to 1, found 3; type 3%"],
    [count, 2.5, "count must be a whole number, found 2.5"],
    [count, [[1], [2]], "count must be one cell, found a range of 2 x 1 cells"],
    [{ name: "f", kind: "flag", text: "F." }, "maybe", 'f must be TRUE or FALSE, found "maybe"'],
    [
      { name: "c", kind: "choice", options: ["a", "b"], text: "C." },
      "d",
      'c must be one of "a", "b", found "d"',
    ],
  ])("refuses in a sentence: %o %o", (param, value, sentence) => {
    expect(read(param, value)).toBe(sentence);
  });
});

describe("list arguments", () => {
  const sizes: Param = {
    name: "sizes",
    kind: "list",
    of: { kind: "balloon" },
    blanks: "skip",
    text: "Sizes.",
  };
  const shares: Param = {
    name: "shares",
    kind: "list",
    of: { kind: "weight" },
    blanks: "keep",
    text: "Shares.",
  };

  it("reads a column, a row, a single cell and skips blanks", () => {
    expect(read(sizes, [[10], [""], [null], [20]])).toEqual([0.254, 0.508]);
    expect(read(sizes, [[10, 20]])).toEqual([0.254, 0.508]);
    expect(read(sizes, 10)).toEqual([0.254]);
  });

  it("keeps the place of a blank share between others and drops the empty end of a column", () => {
    expect(read(shares, [[1], [""], [2], [""], [""]])).toEqual([1, 0, 2]);
  });

  it.each<[Param, unknown, string]>([
    [sizes, [[10], ["x"]], 'sizes cell 2 must be an inflated size such as 11 or "28 cm", found "x"'],
    [
      sizes,
      [[46157]],
      "sizes cell 1 must be from 1 to 120 in, found 46157 in; this may be a date: sizes such as 5/11/16 must be one per cell",
    ],
    [sizes, [[""]], "sizes must be given, found nothing"],
    [
      sizes,
      [
        [1, 2],
        [3, 4],
      ],
      "sizes must be one row or one column, found a range of 2 x 2 cells",
    ],
  ])("refuses in a sentence: %o %o", (param, value, sentence) => {
    expect(read(param, value)).toBe(sentence);
  });

  it("names the place where one of two paired lists is blank", () => {
    const fn = define({
      name: "PAIR",
      category: "Help for sheets",
      text: "Pairs.",
      asks: [],
      params: [
        {
          name: "sizes",
          kind: "list",
          of: { kind: "count", min: 1 },
          blanks: "skip",
          pairedWith: "prices",
          text: "S.",
        },
        {
          name: "prices",
          kind: "list",
          of: { kind: "money" },
          blanks: "skip",
          pairedWith: "sizes",
          text: "P.",
        },
      ],
      result: { kind: "value", measure: "text", text: "T." },
      source: "test",
      examples: [],
      failures: [],
      compute: (left, right) => JSON.stringify([left, right]),
    });
    expect(
      fn.call([
        [[100], [""], [50]],
        [[9], [""], [5]],
      ]),
    ).toEqual({ kind: "value", value: "[[100,50],[9,5]]" });
    expect(
      fn.call([
        [[100], [50]],
        [[9], [""]],
      ]),
    ).toMatchObject({ kind: "error", sentence: "prices cell 2 must be given, found nothing" });
    expect(
      fn.call([
        [[100], [""]],
        [[9], [5]],
      ]),
    ).toMatchObject({ kind: "error", sentence: "sizes cell 2 must be given, found nothing" });
  });
});

describe("table arguments", () => {
  const table: Param = {
    name: "price_list",
    kind: "table",
    text: "Prices.",
    columns: [
      { name: "printed", kind: "balloon", text: "Size.", aliases: ["size"] },
      { name: "colour", kind: "text", text: "Colour.", aliases: ["color"] },
      { name: "price", kind: "money", text: "Price." },
      { name: "bag", kind: "count", min: 1, text: "Bag.", default: 1 },
    ],
  };

  it("reads by position without a header and counts rows within the range", () => {
    expect(
      read(table, [
        [11, "Red", 9.5],
        ["", null, 0],
        ["12 in", "Blue", "10,50"],
      ]),
    ).toEqual([
      { row: 1, printed: 0.2794, colour: "Red", price: 9.5, bag: 1 },
      { row: 3, printed: 12 * 0.0254, colour: "Blue", price: 10.5, bag: 1 },
    ]);
  });

  it("reads by header in any order, with aliases, other columns and a unit in the header", () => {
    expect(
      read(table, [
        ["Price", "Note", "Color", "Size (cm)"],
        [9.5, "new", "Red", 28],
      ]),
    ).toEqual([{ row: 2, printed: 0.28, colour: "Red", price: 9.5, bag: 1 }]);
  });

  it("skips a header row in the user's own words", () => {
    expect(
      read(table, [
        ["Ballon", "Farbe", "Preis"],
        [11, "Rot", 9.5],
      ]),
    ).toEqual([{ row: 2, printed: 0.2794, colour: "Rot", price: 9.5, bag: 1 }]);
  });

  it.each<[unknown, string]>([
    [[[11, "Red", "n/a"]], 'price_list row 1: price must be an amount of money such as 14.90, found "n/a"'],
    [
      [[11, "", 9]],
      "price_list row 1: colour must be given, found nothing; merged cells keep only the first",
    ],
    [
      [
        [11, "Red", 9],
        ["Total", "", 9],
      ],
      "price_list row 2 must be an item, found a total row (Total); leave totals out of the range",
    ],
    [
      [
        ["size", "colour"],
        [11, "Red"],
      ],
      'price_list must have a column "price", found columns size, colour',
    ],
    [
      [[11, "Red"]],
      "price_list must have 3 to 4 columns (printed, colour, price, bag) or a header row with these names, found 2",
    ],
    [[["size", "colour", "price"]], "price_list must have at least one row below its header, found nothing"],
    [
      [
        ["size", "size", "colour", "price"],
        [1, 1, "a", 1],
      ],
      'price_list must have one column "printed", found 2',
    ],
    [[[null, ""]], "price_list must be given, found nothing"],
  ])("refuses in a sentence: %j", (value, sentence) => {
    expect(read(table, value)).toBe(sentence);
  });
});

describe("results", () => {
  const giving = (value: unknown, measure: string): Outcome =>
    define({
      name: "GIVES",
      category: "Help for sheets",
      text: "Gives.",
      asks: [],
      params: [],
      result: { kind: "value", measure, text: "T." },
      source: "test",
      examples: [],
      failures: [],
      compute: () => value,
    } as never).call([]);

  it("converts SI to the unit of the result and has no minus zero", () => {
    expect(giving(0.0137, "L")).toEqual({ kind: "value", value: 13.7 });
    const zero = giving(-0, "number");
    expect(zero.kind === "value" && Object.is(zero.value, 0)).toBe(true);
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY])("makes %s an error", (value) => {
    expect(giving(value, "number")).toMatchObject({ kind: "error", code: "#NUM!" });
  });

  it("writes units into headers", () => {
    expect(headerOf({ name: "height", measure: "m", text: "" })).toBe("height m");
    expect(headerOf({ name: "count", measure: "count", text: "" })).toBe("count");
  });

  it("turns a fault of its own into an error in the cell", () => {
    const fn = define({
      name: "BREAKS",
      category: "Help for sheets",
      text: "Breaks.",
      asks: [],
      params: [],
      result: { kind: "value", measure: "number", text: "T." },
      source: "test",
      examples: [],
      failures: [],
      compute: () => {
        throw new TypeError("boom");
      },
    });
    expect(fn.call([])).toEqual({
      kind: "error",
      code: "#VALUE!",
      sentence: "BREAKS has a fault of its own, please report it: boom",
    });
  });
});

it("reads anything without throwing", () => {
  const kinds = [
    "length",
    "balloon",
    "count",
    "share",
    "ratio",
    "money",
    "temperature",
    "datetime",
    "flag",
    "text",
  ] as const;
  fc.assert(
    fc.property(fc.constantFrom(...kinds), fc.anything(), (kind, value) => {
      const outcome = echo({ name: "thing", kind, text: "T." })(value);
      expect(["value", "error"]).toContain(outcome.kind);
      if (outcome.kind === "error") expect(outcome.sentence).toMatch(/^thing must /);
    }),
  );
});
