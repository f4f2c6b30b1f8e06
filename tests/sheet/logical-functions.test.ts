import { expect, it } from "vitest";
import { LOGICAL_JOINS } from "../../src/sheet/logical-functions";
import { CellError, type PlainArgument } from "../../src/sheet/plain-functions";

const NA = { error: "#N/A" };

function outcome(name: string, args: readonly PlainArgument[]): unknown {
  try {
    return LOGICAL_JOINS.get(name)?.(...args);
  } catch (error) {
    if (error instanceof CellError) return error.message;
    throw error;
  }
}

// Microsoft's pages AND, OR and XOR: texts and blanks of ranges are left out, XOR counts whether the true ones are odd.
it.each<readonly [string, readonly PlainArgument[], unknown]>([
  ["AND", [true, true], true],
  ["AND", [true, false], false],
  ["AND", [1, 0], false],
  ["AND", [[[true, "x", null, 2]]], true],
  ["AND", [[[true, 0]]], false],
  ["AND", [[["x", null]]], "#VALUE!"],
  ["AND", [[["TRUE"]]], "#VALUE!"],
  ["AND", ["TRUE"], true],
  ["AND", ["true", "False"], false],
  ["AND", ["truex"], "#VALUE!"],
  ["AND", ["xfalse"], "#VALUE!"],
  ["AND", [[[1, NA]]], "#N/A"],
  ["AND", [false, NA], "#N/A"],
  ["OR", [false, 0], false],
  ["OR", [false, 3], true],
  ["OR", [[[false, "x"]]], false],
  ["OR", [[[false], [true]]], true],
  ["OR", ["FALSE"], false],
  ["XOR", [true, true], false],
  ["XOR", [true, false], true],
  ["XOR", [true, true, true], true],
  ["XOR", [true, false, true], false],
  ["XOR", [[[1, 1, 1, 0]]], true],
  ["XOR", [[[0, false]]], false],
])("%s of %j is %j", (name, args, value) => {
  expect(outcome(name, args)).toBe(value);
});
