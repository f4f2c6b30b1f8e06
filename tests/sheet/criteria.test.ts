import { describe, expect, it } from "vitest";
import { criterionOf } from "../../src/sheet/criteria";
import type { CellValue } from "../../src/workbook/model";

/** Texts that spell numbers, as far as these cases go. */
const readNumber = (text: string): number | undefined =>
  ({ "5": 5, "23": 23, "-1": -1, "0": 0, "50%": 0.5, " 5": 5, "5.0": 5 })[text];

const NA = { error: "#N/A" };
const CELLS: readonly CellValue[] = [
  null,
  "",
  0,
  5,
  23,
  -1,
  0.5,
  "5",
  "5.0",
  "red",
  "Red",
  "redder",
  "blue",
  "r*d",
  "?",
  true,
  false,
  "TRUE",
  NA,
  { error: "#VALUE!" },
];

/**
 * What COUNTIF counts: Microsoft's page COUNTIF, what Excel stored in the files of the conformance table, and for errors
 * and logical values from memory.
 */
const CASES: readonly (readonly [criterion: CellValue, counted: readonly CellValue[]])[] = [
  [5, [5, "5", "5.0"]],
  ["5", [5, "5", "5.0"]],
  ["=5", [5, "5", "5.0"]],
  ["50%", [0.5]],
  // A text that spells the number is another value than the number only here.
  ["<>5", CELLS.filter((cell) => cell !== 5)],
  [null, [0]],
  ["", [null, ""]],
  ["=", [null]],
  ["<>", CELLS.filter((cell) => cell !== null)],
  ["<", []],
  [">", []],
  ["<=", []],
  [">=", []],
  [">0", [5, 23, 0.5]],
  [">=0", [0, 5, 23, 0.5]],
  ["<0", [-1]],
  ["<=0", [0, -1]],
  ["red", ["red", "Red"]],
  ["RED", ["red", "Red"]],
  ["=red", ["red", "Red"]],
  ["red*", ["red", "Red", "redder"]],
  ["R?D", ["red", "Red", "r*d"]],
  ["r~*d", ["r*d"]],
  ["~?", ["?"]],
  ["<>red", CELLS.filter((cell) => cell !== "red" && cell !== "Red")],
  ["<>red*", CELLS.filter((cell) => cell !== "red" && cell !== "Red" && cell !== "redder")],
  [">=red", ["red", "Red", "redder", "TRUE"]],
  [">RED", ["redder", "TRUE"]],
  ["<blue", ["", "5", "5.0", "?"]],
  ["<=blue", ["", "5", "5.0", "blue", "?"]],
  [true, [true]],
  ["TRUE", [true]],
  ["=false", [false]],
  ["<>true", CELLS.filter((cell) => cell !== true)],
  [">false", [true]],
  ["<=false", [false]],
  ["<true", [false]],
  [NA, [NA]],
  ["#N/A", [NA]],
  ["=#n/a", [NA]],
  ["<>#N/A", CELLS.filter((cell) => cell !== NA)],
  [">#N/A", []],
  ["<=#N/A", []],
  // Not an error's whole name, so a text.
  ["#N/A!", []],
  ["x#N/A", []],
  ["untrue", []],
  ["true or not", []],
];

describe("a condition", () => {
  it.each(CASES)("%j", (criterion, counted) => {
    const fits = criterionOf(criterion, readNumber);
    expect(CELLS.filter((cell) => fits(cell))).toEqual(counted);
  });
});
