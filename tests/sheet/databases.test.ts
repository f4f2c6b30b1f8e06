import { expect, it } from "vitest";
import { databaseFunctions } from "../../src/sheet/databases";
import { CellError, type PlainArgument } from "../../src/sheet/plain-functions";

const TREES: PlainArgument = [
  ["Tree", "Height", "Age", "Yield", "Profit"],
  ["Apple", 18, 20, 14, 105],
  ["Pear", 12, 12, 10, 96],
  ["Cherry", 13, 14, 9, 105],
  ["Apple", 14, 15, 10, 75],
  ["Pear", 9, 8, 8, 76.8],
  ["Apple", 8, 9, 6, 45],
];
const ALL: PlainArgument = [["Tree"], [null]];
const APPLE: PlainArgument = [["Tree"], ["=Apple"]];
const PEAR: PlainArgument = [["Tree"], ["=Pear"]];
/** Apples of more than 10 and less than 16 feet, or pears. */
const CHOICE: PlainArgument = [
  ["Tree", "Height", "Height"],
  ["=Apple", ">10", "<16"],
  ["=Pear", null, null],
];

const functions = databaseFunctions((text) => (/^-?\d+(?:\.\d+)?$/.test(text) ? Number(text) : undefined));

function outcome(name: string, ...args: readonly PlainArgument[]): unknown {
  try {
    return functions.get(name)?.(...args);
  } catch (error) {
    if (error instanceof CellError) return error.message;
    throw error;
  }
}

// The orchard of Microsoft's pages of the database functions, whose results the pages name, or worked out by hand.
it.each<readonly [string, PlainArgument, PlainArgument, unknown]>([
  ["DSUM", "Profit", APPLE, 225],
  ["DSUM", "profit", CHOICE, 75 + 96 + 76.8],
  ["DSUM", 5, APPLE, 225],
  ["DSUM", 5.9, APPLE, 225],
  ["DSUM", 1, APPLE, 0],
  ["DSUM", 0, APPLE, "#VALUE!"],
  ["DSUM", 6, APPLE, "#VALUE!"],
  ["DSUM", "Weight", APPLE, "#VALUE!"],
  ["DSUM", [["Age", "Yield"]], APPLE, "#VALUE!"],
  ["DSUM", [["Age"]], APPLE, 44],
  ["DPRODUCT", "Yield", CHOICE, 800],
  ["DPRODUCT", "Tree", APPLE, 0],
  [
    "DCOUNT",
    "Age",
    [
      ["Tree", "Height", "Height"],
      ["=Apple", ">10", "<16"],
    ],
    1,
  ],
  ["DCOUNT", "Tree", APPLE, 0],
  ["DCOUNT", null, APPLE, 3],
  [
    "DCOUNTA",
    "Profit",
    [
      ["Tree", "Height", "Height"],
      ["=Apple", ">10", "<16"],
    ],
    1,
  ],
  ["DCOUNTA", null, PEAR, 2],
  ["DMAX", "Profit", CHOICE, 96],
  ["DMIN", "Profit", CHOICE, 75],
  ["DMAX", "Tree", APPLE, 0],
  ["DMIN", "Tree", APPLE, 0],
  [
    "DAVERAGE",
    "Yield",
    [
      ["Tree", "Height"],
      ["=Apple", ">10"],
    ],
    12,
  ],
  ["DAVERAGE", 3, ALL, 13],
  ["DSTDEV", "Yield", CHOICE, Math.sqrt(4 / 3)],
  ["DVARP", "Yield", [["Tree"], ["=Apple"], ["=Pear"]], 7.04],
  ["DVAR", "Yield", [["Tree"], ["=Apple"], ["=Pear"]], 8.8],
  ["DSTDEVP", "Yield", [["Tree"], ["=Apple"], ["=Pear"]], Math.sqrt(7.04)],
  ["DGET", "Yield", APPLE, "#NUM!"],
  ["DGET", "Yield", [["Tree"], ["=Plum"]], "#VALUE!"],
  [
    "DGET",
    "Profit",
    [
      ["Tree", "Height"],
      ["=Cherry", 13],
    ],
    105,
  ],
  ["DGET", "Tree", [["Age"], ["8"]], "Pear"],
  // A text without a sign takes what begins with it: page DSUM's kind, "Examples of criteria".
  ["DCOUNTA", "Tree", [["Tree"], ["app"]], 3],
  ["DCOUNTA", "Tree", [["Tree"], ["=app"]], 0],
  ["DCOUNTA", "Tree", [["Tree"], ["p*r"]], 2],
  ["DCOUNTA", "Tree", [["Tree"], ["*rr"]], 1],
  ["DCOUNTA", "Tree", [["Tree"], ["=*e"]], 3],
  ["DCOUNTA", "Tree", [["Tree"], ["?pple"]], 3],
  ["DCOUNTA", "Tree", [["Tree"], ["<>Apple"]], 3],
  ["DCOUNTA", "Tree", [["tREE"], ["=Apple"]], 3],
  [
    "DCOUNTA",
    "Tree",
    [
      ["Tree", "Age"],
      ["=Apple", null],
      [null, ">13"],
    ],
    4,
  ],
  // A formula's result under no header that is not true takes nothing.
  ["DCOUNTA", "Tree", [[null], ["no"]], 0],
])("%s of %j where %j is %j", (name, field, criteria, value) => {
  const found = outcome(name, TREES, field, criteria);
  if (typeof value === "number") expect(found).toBeCloseTo(value, 9);
  else expect(found).toBe(value);
});

it("wants a table with a record", () => {
  expect(outcome("DSUM", [["Tree", "Profit"]], "Profit", ALL)).toBe("#VALUE!");
  expect(outcome("DSUM", "Tree", "Profit", ALL)).toBe("#VALUE!");
  expect(outcome("DCOUNTA", [["Tree"], [null], ["x"]], "Tree", [["Tree"], [null]])).toBe(1);
});
