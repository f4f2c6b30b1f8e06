import { type FunctionVariantType, LambdaValueObjectObject } from "@univerjs/engine-formula";
import { expect, it } from "vitest";
import type { EngineArgument, EngineFunction, EngineResult } from "../../src/sheet/engine";
import {
  type CallNotes,
  CatalogueExecutor,
  JoinedAreas,
  UnknownExecutor,
} from "../../src/sheet/univer-own-functions";
import { arrayObject, rowsOf, sentencesOf, valueObject } from "../../src/sheet/univer-values";
import type { CellValue } from "../../src/workbook/model";

type Given = CellValue | readonly (readonly CellValue[])[];

function variantOf(given: Given): FunctionVariantType {
  return Array.isArray(given)
    ? arrayObject((given as readonly (readonly CellValue[])[]).map((row) => row.map(valueObject)))
    : valueObject(given as CellValue);
}

/** Calls a function of ours with a count, a colour list and an optional size, and tells what it was given. */
function called(given: readonly Given[], answer: (args: readonly EngineArgument[]) => EngineResult) {
  const calls: (readonly EngineArgument[])[] = [];
  const fn: EngineFunction = {
    name: "MIX",
    text: "",
    parameters: [
      { name: "count", text: "", isOptional: false, takesRange: false },
      { name: "colours", text: "", isOptional: false, takesRange: true },
      { name: "size", text: "", isOptional: true, takesRange: false },
    ],
    call: (args) => {
      calls.push(args);
      return answer(args);
    },
  };
  const notes: CallNotes = { failures: [], isSpread: false };
  const value = new CatalogueExecutor(fn, notes).calculate(...given.map(variantOf));
  return { rows: rowsOf(value), sentences: sentencesOf(value), calls, notes };
}

const one = (value: number): EngineResult => ({ kind: "value", value });
const COLOURS = [["red"], ["gold"]];

it("calls a function once where its arguments are single or taken whole", () => {
  const { rows, calls, notes } = called([5, COLOURS, 11], () => one(7));
  expect(rows).toEqual([[7]]);
  expect(calls).toEqual([[5, COLOURS, 11]]);
  expect(notes).toEqual({ failures: [], isSpread: false });
  expect(called([5, "red"], () => one(7)).calls).toEqual([[5, "red"]]);
});

it("calls it once for each cell of a range where one value is wanted, as Excel does", () => {
  const { rows, calls, notes } = called([[[1, 2]], COLOURS, [[3], [4]]], ([count, , size]) =>
    one(Number(count) * Number(size)),
  );
  expect(rows).toEqual([
    [3, 6],
    [4, 8],
  ]);
  expect(calls[0]).toEqual([1, COLOURS, 3]);
  expect(notes.isSpread).toBe(true);
  // Where one range is shorter, what it lacks is #N/A (Microsoft support, array formulas).
  const short = called([[[1], [2], [3]], "red", [[4], [5]]], ([count]) => one(Number(count)));
  expect(short.rows).toEqual([[1], [2], [{ error: "#N/A" }]]);
});

it("gives a table, and its errors with their sentences", () => {
  const { rows, sentences, notes } = called([1, "red"], () => ({
    kind: "table",
    rows: [
      ["what", 1],
      [true, { error: "#VALUE!", sentence: "gold is not sold" }],
    ],
  }));
  expect(rows).toEqual([
    ["what", 1],
    [true, { error: "#VALUE!" }],
  ]);
  expect(sentences).toEqual([{ row: 1, column: 1, sentence: "gold is not sold" }]);
  expect(notes.failures).toEqual([{ code: "#VALUE!", sentence: "gold is not sold" }]);
});

it("takes the first cell of a table that comes once for each cell", () => {
  const { rows } = called([[[1], [2]], "red"], ([count]) => ({
    kind: "table",
    rows: [[Number(count), 9]],
  }));
  expect(rows).toEqual([[1], [2]]);
});

it.each([
  [[{ error: "#DIV/0!" }, "red"], "#DIV/0!", "count holds the error #DIV/0!", 0],
  [[1, "red", { error: "#N/A" }], "#N/A", "size holds the error #N/A", 0],
  [[1, "red", 2, 3], "#VALUE!", "MIX takes fewer arguments", 0],
] as readonly (readonly [readonly Given[], string, string, number])[])(
  "does not call it with %j",
  (given, error, sentence, calls) => {
    const found = called(given, () => one(1));
    expect(found.rows).toEqual([[{ error }]]);
    expect(found.sentences).toEqual([{ row: 0, column: 0, sentence }]);
    expect(found.calls).toHaveLength(calls);
    expect(found.notes.failures).toEqual([{ code: error, sentence }]);
  },
);

it("leaves an error in a range that is taken whole to the function", () => {
  const given = [["red"], [{ error: "#N/A" }]];
  expect(called([1, given], () => one(1)).calls).toEqual([[1, given]]);
  expect(called([1, { error: "#REF!" }], () => one(1)).calls).toEqual([[1, { error: "#REF!" }]]);
});

it("tells an error that it gives, and what it throws", () => {
  const failing = called([1, "red"], () => ({
    kind: "error",
    code: "#NUM!",
    sentence: "count must be above 0",
  }));
  expect([failing.rows, failing.sentences]).toEqual([
    [[{ error: "#NUM!" }]],
    [{ row: 0, column: 0, sentence: "count must be above 0" }],
  ]);
  const thrown = called([1, "red"], () => {
    throw new Error("out of balloons");
  });
  expect([thrown.rows, thrown.sentences[0]?.sentence]).toEqual([[[{ error: "#VALUE!" }]], "out of balloons"]);
});

it("takes no function for an argument", () => {
  const notes: CallNotes = { failures: [], isSpread: false };
  const fn: EngineFunction = {
    name: "MIX",
    text: "",
    parameters: [{ name: "count", text: "", isOptional: false, takesRange: false }],
    call: () => one(1),
  };
  const lambda = new LambdaValueObjectObject(null, null, []) as unknown as FunctionVariantType;
  expect(rowsOf(new CatalogueExecutor(fn, notes).calculate(lambda))).toEqual([[{ error: "#VALUE!" }]]);
  expect(notes.failures[0]?.sentence).toBe("an argument must not be a function");
});

it("says that a name of ours is no function", () => {
  const notes: CallNotes = { failures: [], isSpread: false };
  const value = new UnknownExecutor("BLN_GARLANDS", notes).calculate();
  expect(rowsOf(value)).toEqual([[{ error: "#NAME?" }]]);
  expect(notes.failures).toEqual([{ code: "#NAME?", sentence: "there is no function BLN.GARLANDS" }]);
  expect(sentencesOf(value)[0]?.sentence).toBe("there is no function BLN.GARLANDS");
});

it("lists the cells of several areas one below the other, or the first area's error", () => {
  const joined = (...given: readonly Given[]): unknown =>
    rowsOf(new JoinedAreas("JOINED").calculate(...given.map(variantOf)));
  expect(
    joined(
      [
        [1, 2],
        [3, null],
      ],
      5,
    ),
  ).toEqual([[1], [2], [3], [null], [5]]);
  expect(joined([[1, 2]], { error: "#REF!" })).toEqual([[{ error: "#REF!" }]]);
});
