import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { overflow, unavailable } from "../../src/core/calc-error";
import { withheld } from "../../src/core/withheld";
import { define } from "../../src/functions/define";
import type { Outcome, ResultRow } from "../../src/functions/definition";
import { readArgument } from "../../src/functions/read-argument";
import { blankRow, headerOf } from "../../src/functions/result-rows";
import { NUMBER_KINDS, QUANTITY_KINDS, type Param, type ScalarParam } from "../../src/functions/param";

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

const common = {
  name: "GIVES",
  category: "Help for sheets",
  text: "Gives.",
  asks: [],
  source: "test",
  examples: [],
  failures: [],
} as const;

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
    ["an entity by its basic value", length, { type: "Double", basicValue: 1.8 }, 1.8],
    ["an empty entity as the default", share, { type: "Empty" }, 0.03],
    ["a quantity of none", { name: "knot", kind: "length", default: 0.15, text: "K." }, "none", 0],
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

describe("every kind of number", () => {
  const kind = (name: ScalarParam["kind"]): ScalarParam => ({ name: "x", kind: name, text: "X." }) as never;

  // Exact factors of NIST SP 811, and a day count by hand: 2027-06-19 is 46557 days after 1899-12-30.
  it.each<[ScalarParam["kind"], unknown, number]>([
    ["volume", 50, 0.05],
    ["volume", "1.8 m3", 1.8],
    ["mass", 12, 0.012],
    ["mass", "2 kg", 2],
    ["pressure", 200, 2e7],
    ["pressure", "100 kPa", 1e5],
    ["speed", 8, 8],
    ["speed", "36 km/h", 10],
    ["duration", 2.5, 9000],
    ["duration", "2 h 30 min", 9000],
    ["altitude", -430, -430],
    ["altitude", "5280 ft", 1609.344],
    ["temperature", "68 F", 293.15],
    ["datetime", 46557, 46557],
    ["datetime", "2027-06-19 18:30", 46557 + 18.5 / 24],
    ["money", "14,90", 14.9],
    ["weight", "50%", 0.5],
    ["ratio", "80%", 0.8],
    ["number", "-1 234.5", -1234.5],
    ["count", "12", 12],
  ])("reads %s %j", (name, value, expected) => {
    expect(read(kind(name), value)).toBeCloseTo(expected, 9);
  });

  it.each<[ScalarParam["kind"], unknown, string]>([
    ["altitude", -431, "x must be from -430 to 5000 m, found -431 m"],
    ["pressure", 401, "x must be from 0 to 400 bar, found 401 bar"],
    ["speed", 61, "x must be from 0 to 60 m/s, found 61 m/s"],
    ["duration", "366 d", "x must be from 0 to 8760 h, found 8784 h"],
    ["temperature", 61, "x must be from -40 to 60 C, found 61 C"],
    ["temperature", -41, "x must be from -40 to 60 C, found -41 C"],
    ["money", -0.01, "x must be from 0 to 1000000000, found -0.01"],
    ["ratio", 101, "x must be from 0 to 100, found 101"],
    ["datetime", "next Sunday", "x must be a date and time such as "],
    ["volume", "3 m", 'x must be a volume such as 50 or "1.8 m3", found "3 m"'],
    ["mass", { some: "cell" }, 'x must be a weight such as 12 or "2 kg", found an object'],
    ["number", Number.POSITIVE_INFINITY, "x must be a number such as 12.5, found a number without end"],
    ["text", true, "x must be text, found TRUE"],
    ["text", "a".repeat(256), "x must be at most 255 characters, found 256"],
  ])("refuses %s %j", (name, value, sentence) => {
    expect(echo(kind(name))(value)).toMatchObject({
      kind: "error",
      code: "#VALUE!",
      sentence: expect.stringContaining(sentence) as string,
    });
  });
});

describe("the texts that error sentences propose", () => {
  const kinds = [...Object.entries(QUANTITY_KINDS), ...Object.entries(NUMBER_KINDS)];
  const proposals = kinds.flatMap(([kind, { such }]) =>
    [...such.matchAll(/"([^"]+)"/g)].map(([, text = ""]) => [kind, text] as const),
  );

  it.each(proposals)("can be read: %s %j", (kind, text) => {
    expect(echo({ name: "x", kind, text: "X." } as ScalarParam)(text).kind).toBe("value");
  });
});

describe("a bare 0, which some hosts send for a blank cell", () => {
  const optional = { text: "X.", default: 1 } as const;

  // Tables of what 0 means: EVENT-MODEL 2.3 with its check values; the sentences are written out here by hand.
  it.each<[string, ScalarParam, string]>([
    ["a share", share, "breakage is 0 or a blank cell: type none for zero, or leave it out"],
    [
      "a temperature",
      { name: "temperature", kind: "temperature", ...optional },
      'temperature is 0 or a blank cell: type "0 C" for zero, or leave it out',
    ],
    [
      "a flag that is TRUE by default",
      { name: "f", kind: "flag", default: true, text: "F." },
      "f is 0 or a blank cell: type no, or leave it out",
    ],
    [
      "a crew, outside its limits",
      { name: "crew", kind: "count", min: 1, max: 1000, ...optional },
      "crew must be from 1 to 1000, found 0",
    ],
  ])("is refused as %s", (_, param, sentence) => {
    expect(read(param, 0)).toBe(sentence);
  });

  it.each<[string, ScalarParam, unknown]>([
    ["a count, which is zero", { name: "count", kind: "count", ...optional }, 0],
    ["a wind whose default is 0", { name: "wind", kind: "speed", text: "W.", default: 0 }, 0],
    ["a size, which can never be 0", { name: "size", kind: "balloon", text: "S.", default: 10 }, 0.254],
    ["a spacing, which can never be 0", { name: "s", kind: "ratio", zero: "default", ...optional }, 1],
    ["a choice", { name: "c", kind: "choice", options: ["a", "b"], default: "b", text: "C." }, "b"],
  ])("is taken as %s", (_, param, expected) => {
    expect(read(param, 0)).toEqual(expected);
  });
});

describe("an error cell in an argument", () => {
  const fn = define({
    ...common,
    params: [
      { name: "size", kind: "number", text: "S." },
      { name: "bags", kind: "list", of: { kind: "count" }, blanks: "skip", text: "B." },
    ],
    result: { kind: "value", measure: "number", text: "V." },
    compute: (size) => size,
  });

  it.each([
    ["of the headless engine", { error: "#N/A" }, "#N/A"],
    ["as an entity", { type: "Error", basicType: "Error", basicValue: "#DIV/0!" }, "#DIV/0!"],
    ["as an entity without a value", { type: "Error", errorType: "Busy" }, "#VALUE!"],
    ["as text", "#N/A", "#N/A"],
    ["as an error object", { code: "#REF!", message: "" }, "#REF!"],
  ])("goes on to the result %s", (_, cell, code) => {
    expect(fn.call([cell, [[1]]])).toEqual({
      kind: "error",
      code,
      sentence: `size holds the error ${code}`,
    });
    expect(fn.call([1, [[1], [cell]]])).toEqual({
      kind: "error",
      code,
      sentence: `bags cell 2 holds the error ${code}`,
    });
  });
});

describe("limits, units and defaults of a parameter's own", () => {
  const width: ScalarParam = {
    name: "width",
    kind: "length",
    unit: "cm",
    min: 5,
    max: 50,
    default: 28,
    text: "W.",
  };
  const gap: ScalarParam = { name: "gap", kind: "length", above: 0, max: 10, text: "G." };

  it.each<[ScalarParam, unknown, unknown]>([
    [width, 5, 0.05],
    [width, 50, 0.5],
    [width, "60 mm", 0.06],
    [width, "", 0.28],
    [gap, 10, 10],
    [gap, "1 mm", 0.001],
    [{ name: "n", kind: "count", default: 0, text: "N." }, null, 0],
    [{ name: "f", kind: "flag", default: true, text: "F." }, null, true],
    [{ name: "f", kind: "flag", default: false, text: "F." }, 0, false],
    [{ name: "c", kind: "choice", options: ["a", "b"], default: "b", text: "C." }, 0, "b"],
    [{ name: "n", kind: "count", optional: true, text: "N." }, null, null],
    [{ name: "n", kind: "count", optional: true, text: "N." }, "", null],
    [{ name: "n", kind: "count", optional: true, text: "N." }, 0, 0],
    [{ name: "n", kind: "count", optional: true, text: "N." }, "0", 0],
  ])("reads %o %j", (param, value, expected) => {
    expect(read(param, value)).toEqual(expected);
  });

  it.each<[ScalarParam, unknown, string]>([
    [width, 4.99, "width must be from 5 to 50 cm, found 4.99 cm"],
    [width, "0.51 m", "width must be from 5 to 50 cm, found 51 cm"],
    [width, "0 cm", "width must be from 5 to 50 cm, found 0 cm"],
    [gap, 0, "gap must be above 0 and at most 10 m, found 0 m"],
    [gap, undefined, "gap must be given, found nothing"],
    [gap, "   ", "gap must be given, found nothing"],
  ])("refuses %o %j", (param, value, sentence) => {
    expect(echo(param)(value)).toEqual({ kind: "error", code: "#VALUE!", sentence });
  });

  it.each([
    [[[1, 2]], "a range of 1 x 2 cells"],
    [[[1], [2]], "a range of 2 x 1 cells"],
    [
      [
        ["", ""],
        ["", 2],
      ],
      "a range of 2 x 2 cells",
    ],
  ])("takes one cell only: %j", (range, found) => {
    expect(read(gap, range)).toBe(`gap must be one cell, found ${found}`);
  });
});

describe("arguments by position", () => {
  const params: readonly Param[] = [
    { name: "height", kind: "length", text: "H." },
    { name: "sizes", kind: "list", of: { kind: "balloon" }, blanks: "skip", optional: true, text: "S." },
    { name: "loss", kind: "share", default: 0.1, text: "L." },
  ];
  const fn = define({
    name: "ECHO",
    category: "Help for sheets",
    text: "Gives its arguments back.",
    asks: [],
    params,
    result: { kind: "value", measure: "text", text: "As text." },
    source: "test",
    examples: [],
    failures: [],
    compute: (...args: unknown[]) => JSON.stringify(args),
  } as never);

  it("reads each as its own parameter, fills in what is left out and ignores what is too much", () => {
    expect(fn.call([2, [[10], [20]], "5%", { what: "hosts append" }])).toEqual({
      kind: "value",
      value: "[2,[0.254,0.508],0.05]",
    });
    expect(fn.call([2])).toEqual({ kind: "value", value: "[2,null,0.1]" });
    expect(fn.call([])).toEqual({
      kind: "error",
      code: "#VALUE!",
      sentence: "height must be given, found nothing",
    });
    expect(readArgument(params, 3, [2, 10, 0, 4])).toBeUndefined();
  });

  it("names the first argument that is wrong", () => {
    expect(fn.call(["x", "y", "z"])).toMatchObject({ sentence: expect.stringMatching(/^height /) as string });
    expect(fn.call([1, "y", "z"])).toMatchObject({
      sentence: expect.stringMatching(/^sizes cell 1 /) as string,
    });
    expect(fn.call([1, 10, "z"])).toMatchObject({ sentence: expect.stringMatching(/^loss /) as string });
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

  it.each<[unknown, unknown]>([
    [undefined, null],
    ["", null],
    [[[null], [""], ["  "]], null],
    [[["", null]], null],
    [[["", 10]], [0.254]],
    [[[""], [10]], [0.254]],
  ])("takes an optional list of nothing but blanks as not given: %j", (value, expected) => {
    expect(read({ ...sizes, optional: true }, value)).toEqual(expected);
  });

  it("takes zeros of an optional list as values only where zero is one", () => {
    // A balloon of 0 in is none, so it can only be a host's stand-in for a blank cell; a share may be 0.
    expect(read({ ...sizes, optional: true }, [[0], [0]])).toBeNull();
    expect(read({ ...sizes, optional: true }, 0)).toBeNull();
    expect(read({ ...shares, optional: true }, [[0], [0]])).toEqual([0, 0]);
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

describe("optional tables", () => {
  const stock: Param = {
    name: "stock",
    kind: "table",
    optional: true,
    text: "Stock.",
    columns: [
      { name: "colour", kind: "text", text: "Colour." },
      { name: "count", kind: "count", text: "Count." },
    ],
  };

  it.each<[unknown]>([
    [undefined],
    [""],
    [
      [
        ["", null],
        [null, "  "],
      ],
    ],
    // Some hosts send 0 for a blank cell, so a range of zeros is an empty range.
    [0],
    [
      [
        [0, 0],
        ["", 0],
      ],
    ],
  ])("are not given where every cell is blank: %j", (value) => {
    expect(read(stock, value)).toBeNull();
  });

  it("are read where any cell is filled", () => {
    expect(
      read(stock, [
        ["", ""],
        ["Red", 5],
      ]),
    ).toEqual([{ row: 2, colour: "Red", count: 5 }]);
    expect(read(stock, [["", 5]])).toBe(
      "stock row 1: colour must be given, found nothing; merged cells keep only the first",
    );
  });

  it("keep a row of zeros where zeros are values", () => {
    const points: Param = {
      ...stock,
      zeroRowsCount: true,
      columns: [
        { name: "x", kind: "length", text: "X." },
        { name: "y", kind: "length", text: "Y." },
      ],
    };
    expect(read(points, [[0, 0]])).toEqual([{ row: 1, x: 0, y: 0 }]);
    expect(read(points, [["", ""]])).toBeNull();
  });
});

describe("results", () => {
  describe("as a list", () => {
    const halves = (measure: string) =>
      define({
        ...common,
        params: [
          { name: "first", kind: "list", of: { kind: "weight" }, blanks: "keep", text: "F." },
          { name: "sizes", kind: "list", of: { kind: "length" }, blanks: "keep", text: "S." },
        ],
        result: { kind: "list", measure, like: "sizes", text: "Half of each." },
        compute: (_: unknown, sizes: readonly number[]) => sizes.map((size) => size / 2),
      } as never);

    it("lies as the argument it goes with, in the unit of the result", () => {
      // Down a column although the other argument lies along a row, and the other way round.
      expect(halves("cm").call([[[1, 2]], [[4], [6]]])).toEqual({ kind: "table", rows: [[200], [300]] });
      expect(halves("m").call([[[1], [2]], [[4, 6]]])).toEqual({ kind: "table", rows: [[2, 3]] });
      expect(halves("m").call([1, 4])).toEqual({ kind: "table", rows: [[2]] });
    });

    it("goes down where it goes with no list", () => {
      const fn = define({
        ...common,
        params: [{ name: "count", kind: "count", text: "C." }],
        result: { kind: "list", measure: "count", like: "count", text: "L." },
        compute: (count) => Array.from({ length: count }, (_, index) => index + 1),
      });
      expect(fn.call([3])).toEqual({ kind: "table", rows: [[1], [2], [3]] });
      const none = define({
        ...common,
        params: [],
        result: { kind: "list", measure: "flag", like: "nothing", text: "L." },
        compute: () => [true, false],
      });
      expect(none.call([])).toEqual({ kind: "table", rows: [[true], [false]] });
    });

    it("is an error where one cell is no number", () => {
      const fn = define({
        ...common,
        params: [],
        result: { kind: "list", measure: "number", like: "", text: "L." },
        compute: () => [1, Number.NaN],
      });
      expect(fn.call([])).toEqual({
        kind: "error",
        code: "#NUM!",
        sentence: "GIVES is too large for a cell with these arguments",
      });
    });
  });

  describe("as a table", () => {
    const columns = [
      { name: "item", measure: "text", text: "I." },
      { name: "air", measure: "L", text: "A." },
      { name: "share", measure: "share", text: "S." },
      { name: "isDone", measure: "flag", text: "D." },
    ] as const;
    const blank = blankRow(columns);
    const table = (rows: readonly ResultRow<typeof columns>[]) =>
      define({
        ...common,
        params: [],
        result: {
          kind: "table",
          text: "T.",
          columns,
        },
        compute: () => rows,
      }).call([]);
    const header = ["item", "air L", "share", "isDone"];

    it("carries a withheld number as an error with its sentence in its own cell", () => {
      const air = withheld("nobody sells 11 in Gold");
      expect(table([{ ...blank, item: "Red", air }])).toEqual({
        kind: "table",
        rows: [header, ["Red", { error: "#N/A", sentence: "nobody sells 11 in Gold" }, "", ""]],
      });
    });

    it("is a fault of its own where a row has a cell without a column or a column without a cell", () => {
      const odd = [{ ...blank, itme: "Red" }];
      expect(table(odd)).toMatchObject({ kind: "error", sentence: expect.stringContaining('"itme"') });
      const short = [{ item: "Red" }] as unknown as readonly ResultRow<typeof columns>[];
      expect(table(short)).toMatchObject({ kind: "error", sentence: expect.stringContaining('"air"') });
    });

    it("has a header row, each column in its unit, and blanks where a row says so", () => {
      const rows = [
        { item: "Red", air: 0.0137, share: 0.5, isDone: true },
        { isDone: false, share: -0, air: 2, item: "Blue" },
        { ...blank, item: "end" },
      ];
      expect(table(rows)).toEqual({
        kind: "table",
        rows: [header, ["Red", 13.7, 0.5, true], ["Blue", 2000, 0, false], ["end", "", "", ""]],
      });
      expect(table([])).toEqual({ kind: "table", rows: [header] });
    });

    it("is an error where one cell is no number", () => {
      expect(
        table([
          { item: "Red", air: 1, share: 1, isDone: true },
          { ...blank, item: "Blue", air: Number.POSITIVE_INFINITY },
        ]),
      ).toMatchObject({
        kind: "error",
        code: "#NUM!",
      });
    });
  });

  it.each(["count", "share", "money", "number", "datetime"] as const)("gives a %s as it is", (measure) => {
    expect(giving(12.5, measure)).toEqual({ kind: "value", value: 12.5 });
    expect(headerOf({ name: "x", measure, text: "" })).toBe("x");
  });

  it.each(["text", "flag"] as const)("writes no unit over a column of %s", (measure) => {
    expect(headerOf({ name: "x", measure, text: "" })).toBe("x");
  });

  it("gives text and flags as they are, whatever the measure", () => {
    expect(giving("Red", "L")).toEqual({ kind: "value", value: "Red" });
    expect(giving(false, "flag")).toEqual({ kind: "value", value: false });
  });

  it("passes the code and the sentence of a question without an answer on", () => {
    const throwing = (thrown: unknown) =>
      define({
        ...common,
        params: [],
        result: { kind: "value", measure: "number", text: "T." },
        compute: (): number => {
          throw thrown;
        },
      }).call([]);
    expect(throwing(unavailable("no bag is big enough"))).toEqual({
      kind: "error",
      code: "#N/A",
      sentence: "no bag is big enough",
    });
    expect(throwing(overflow("the piece is too large"))).toEqual({
      kind: "error",
      code: "#NUM!",
      sentence: "the piece is too large",
    });
    expect(throwing("a text")).toEqual({
      kind: "error",
      code: "#VALUE!",
      sentence: "GIVES has a fault of its own, please report it: a text",
    });
  });

  it("draws the same arguments, read the same way, where a function draws at all", () => {
    const drawing = define({
      ...common,
      params: [
        { name: "across", kind: "balloon", text: "A." },
        { name: "count", kind: "count", default: 2, text: "C." },
      ],
      result: { kind: "value", measure: "count", text: "T." },
      compute: (_, count) => count,
      draw: (across, count) =>
        Array.from({ length: count }, (_, row) => ({ x: row, y: 0, z: 0, radius: across / 2, row })),
    });
    // 10 in are 0.254 m, so the radius is 0.127 m.
    expect(drawing.draw?.([10])).toEqual([
      { x: 0, y: 0, z: 0, radius: 0.127, row: 0 },
      { x: 1, y: 0, z: 0, radius: 0.127, row: 1 },
    ]);
    expect(drawing.call([10, 3])).toEqual({ kind: "value", value: 3 });
    const bare = define({
      ...common,
      params: [],
      result: { kind: "value", measure: "count", text: "T." },
      compute: () => 1,
    });
    expect("draw" in bare).toBe(false);
  });

  it("keeps what the definition says for help", () => {
    const fn = define({
      ...common,
      limits: "None.",
      params: [{ name: "n", kind: "count", text: "N." }],
      result: { kind: "value", measure: "count", text: "T." },
      compute: (n) => n,
    });
    expect(fn).toMatchObject({
      ...common,
      limits: "None.",
      params: [{ name: "n", kind: "count", text: "N." }],
    });
    expect(fn).not.toHaveProperty("compute");
  });

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

describe("results in a sheet's unit", () => {
  const gives = (measure: "in" | "m", value: number): unknown => {
    const fn = define({
      ...common,
      params: [],
      result: { kind: "value", measure, text: "A length." },
      compute: () => value,
    } as never);
    const outcome = fn.call([]);
    return outcome.kind === "value" ? outcome.value : outcome;
  };

  it("are the sizes that were typed, so that a formula that looks for 12 finds them", () => {
    for (let size = 1; size <= 120; size += 1) expect(gives("in", size * 0.0254)).toBe(size);
  });

  it("keep the 15 digits of a number in a cell (Excel specifications and limits)", () => {
    expect(gives("m", 1 / 3)).toBeCloseTo(1 / 3, 15);
    expect(gives("in", 0)).toBe(0);
  });
});
