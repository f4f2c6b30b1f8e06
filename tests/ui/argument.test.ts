import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { catalogue, functionNamed } from "../../src/functions/catalogue";
import { define } from "../../src/functions/define";
import type { PlainCell } from "../../src/functions/definition";
import type { Param } from "../../src/functions/param";
import { formulaText } from "../../src/functions/reference";
import { fieldText, formulaOf, readField, type Argument } from "../../src/ui/argument";

const length: Param = { name: "height", kind: "length", text: "Height." };
const balloon: Param = { name: "balloon", kind: "balloon", text: "Size." };
const share: Param = { name: "loss", kind: "share", text: "Loss.", default: 0.1 };
const temperature: Param = { name: "site", kind: "temperature", text: "Warmth.", default: 20 };
const choice: Param = { name: "curve", kind: "choice", options: ["half ellipse", "round"], text: "Curve." };
const flag: Param = { name: "tied", kind: "flag", text: "Tied." };
const text: Param = { name: "name", kind: "text", text: "Name." };
const list: Param = { name: "sizes", kind: "list", of: { kind: "balloon" }, blanks: "skip", text: "Sizes." };
const table: Param = {
  name: "items",
  kind: "table",
  text: "Items.",
  columns: [
    { name: "item", kind: "text", text: "Item." },
    { name: "count", kind: "count", text: "Count." },
  ],
};

const literal = (value: unknown): unknown => ({ kind: "literal", value });
const reference = (written: string): unknown => ({ kind: "reference", text: written });

describe("readField", () => {
  it.each<readonly [Param, string, unknown]>([
    [length, "6 ft", literal("6 ft")],
    [length, " 1.8 ", literal(1.8)],
    [length, "1,80", literal(1.8)],
    [length, "6'2\"", literal("6'2\"")],
    [length, '"6 ft"', literal("6 ft")],
    [length, "-1", literal(-1)],
    [balloon, "11", literal(11)],
    [share, "3%", literal("3%")],
    // A number 0 would mean the default there, so the formula must say it as text.
    [temperature, "0", literal("0")],
    [share, "0", literal("0")],
    [choice, "Half-Ellipse", literal("half ellipse")],
    [choice, "square", literal("square")],
    [flag, "yes", literal(true)],
    [flag, "FALSE", literal(false)],
    [text, "007", literal("007")],
    [text, "gold", literal("gold")],
    [text, '"A1"', literal("A1")],
    [list, "5, 9, 11", literal([[5, 9, 11]])],
    [list, "5; 9,5", literal([[5, "9,5"]])],
    [list, "5\n9\n11", literal([[5], [9], [11]])],
    [list, "11", literal([[11]])],
    [list, "{5;9}", literal([[5], [9]])],
    [
      table,
      "arch, 12\nwall, 30",
      literal([
        ["arch", 12],
        ["wall", 30],
      ]),
    ],
    [
      table,
      "arch,12;wall,30",
      literal([
        ["arch", 12],
        ["wall", 30],
      ]),
    ],
    [
      table,
      "arch\t12\r\nwall\t",
      literal([
        ["arch", 12],
        ["wall", null],
      ]),
    ],
    [
      table,
      '"arch, big",12\n"say ""hi""",3',
      literal([
        ["arch, big", 12],
        ['say "hi"', 3],
      ]),
    ],
    [
      table,
      "arch\nwall, 3, TRUE",
      literal([
        ["arch", null, null],
        ["wall", 3, true],
      ]),
    ],
    [length, "A1", reference("A1")],
    [length, "$B$12", reference("$B$12")],
    [length, "=A1*2", reference("A1*2")],
    [text, "Prices!A2", reference("Prices!A2")],
    [list, "'My prices'!A2:A40", reference("'My prices'!A2:A40")],
    [table, "Prices!A2:F40", reference("Prices!A2:F40")],
    [table, "A:F", reference("A:F")],
    [table, "Prices[[size]:[price]]", reference("Prices[[size]:[price]]")],
    [table, "A2#", reference("A2#")],
    [table, "=Preise", reference("Preise")],
    [length, "venue_height", { kind: "reference", text: "venue_height", otherwise: "venue_height" }],
    [table, "PriceList", { kind: "reference", text: "PriceList", otherwise: [["PriceList"]] }],
    [length, "", { kind: "omitted" }],
    [list, "  \n ", { kind: "omitted" }],
    [length, "=", { kind: "omitted" }],
  ])("%j: %s", (param, typed, argument) => {
    expect(readField(param, typed)).toEqual(argument);
  });
});

describe("fieldText", () => {
  const cell = fc.oneof(
    fc.string({ minLength: 1, maxLength: 12 }).filter((word) => word.trim() === word),
    fc.constantFrom(
      "A1",
      "6 ft",
      "TRUE",
      "12",
      "name",
      "a,b",
      'say "x"',
      "{1}",
      "=A1",
      '"q"',
      "x;y",
      "two\nlines",
    ),
    fc.double({ noNaN: true, noDefaultInfinity: true }).map((number) => (number === 0 ? 0 : number)),
    fc.boolean(),
  );

  it("is what readField reads back, for every text", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(length, text, share),
        cell.filter((value) => typeof value === "string"),
        (param, value) => {
          expect(readField(param, fieldText(param, value))).toEqual(literal(value));
        },
      ),
    );
  });

  it("is what readField reads back, for every range", () => {
    const ranges = fc
      .integer({ min: 1, max: 4 })
      .chain((width) =>
        fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 4 }),
      );
    fc.assert(
      fc.property(fc.constantFrom(list, table), ranges, (param, rows) => {
        expect(readField(param, fieldText(param, rows))).toEqual(literal(rows));
      }),
    );
  });
});

describe("formulaOf", () => {
  const fn = define({
    name: "TEST_CALL",
    category: "Counting",
    text: "A call.",
    asks: [],
    params: [
      { name: "a", kind: "text", text: "A." },
      { name: "b", kind: "number", text: "B.", default: 1 },
      { name: "c", kind: "text", text: "C.", default: "c" },
      { name: "d", kind: "flag", text: "D.", default: false },
    ],
    result: { kind: "value", measure: "text", text: "Text." },
    source: "none",
    examples: [],
    failures: [],
    compute: (a) => a,
  });
  const omitted: Argument = { kind: "omitted" };
  const of = (value: PlainCell): Argument => ({ kind: "literal", value });

  // Excel's grammar: text in double quotes which are doubled inside, arguments left out stay empty between commas.
  it.each<readonly [readonly Argument[], string]>([
    [[], "=BLN.TEST_CALL()"],
    [[of("6 ft"), omitted, omitted, omitted], '=BLN.TEST_CALL("6 ft")'],
    [[of("6'2\""), of(2)], '=BLN.TEST_CALL("6\'2""", 2)'],
    [[of("a"), omitted, omitted, of(true)], '=BLN.TEST_CALL("a", , , TRUE)'],
    [[{ kind: "reference", text: "'My sheet'!A1" }, of("0")], "=BLN.TEST_CALL('My sheet'!A1, \"0\")"],
  ])("%j: %s", (args, formula) => {
    expect(formulaOf(fn, args)).toBe(formula);
  });

  it.each(
    catalogue.flatMap((each) =>
      each.examples.map((example) => [formulaText(each, example.args), each, example.args] as const),
    ),
  )("writes %s from filled fields as help does", (formula, each, args) => {
    const filled = each.params.map((param, index) => readField(param, fieldText(param, args[index] ?? null)));
    expect(formulaOf(each, filled)).toBe(formula);
  });
});

describe("formulas over tables", () => {
  const omitted = { kind: "omitted" } as const;
  const cells = (text: string): Argument => ({ kind: "reference", text });

  it("leave no gap for a table that may stand in any place, but for one that has its own", () => {
    const plan = functionNamed("PART_PLAN");
    const needs = functionNamed("NEEDS_PLAN");
    if (plan === undefined || needs === undefined) throw new Error("both are in the catalogue");
    expect(formulaOf(plan, [cells("A1:F9"), omitted, cells("H1:L9")])).toBe("=BLN.PART_PLAN(A1:F9, H1:L9)");
    expect(formulaOf(needs, [cells("A1:F9"), omitted, { kind: "literal", value: 0.1 }])).toBe(
      "=BLN.NEEDS_PLAN(A1:F9, , 0.1)",
    );
    const each = functionNamed("EACH");
    if (each === undefined) throw new Error("it is in the catalogue");
    const name: Argument = { kind: "literal", value: "COUNT_COLUMN" };
    expect(formulaOf(each, [name, cells("A2:A9"), omitted, cells("C2:C9")])).toBe(
      '=BLN.EACH("COUNT_COLUMN", A2:A9, , C2:C9)',
    );
  });
});
