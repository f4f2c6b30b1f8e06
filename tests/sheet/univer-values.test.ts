import {
  ArrayValueObject,
  type BaseValueObject,
  ErrorType,
  LambdaValueObjectObject,
  NumberValueObject,
  StringValueObject,
} from "@univerjs/engine-formula";
import fc from "fast-check";
import { expect, it } from "vitest";
import {
  arrayObject,
  arrayOf,
  contentOf,
  ErrorWithSentence,
  firstOf,
  resultOf,
  rowsOf,
  sentencesOf,
  single,
  tableCellObject,
  univerCell,
  valueObject,
} from "../../src/sheet/univer-values";
import type { CellValue } from "../../src/workbook/model";

const ERRORS = ["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"];
const value: fc.Arbitrary<CellValue> = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }).map((number) => (number === 0 ? 0 : number)),
  fc.string(),
  fc.boolean(),
  fc.constant(null),
  fc.constantFrom(...ERRORS).map((error) => ({ error })),
);

it("gives back every value of a cell as it was", () => {
  fc.assert(
    fc.property(value, (given) => {
      expect(rowsOf(valueObject(given))).toEqual([[given]]);
      expect(resultOf(valueObject(given))).toEqual({ rows: [[given]] });
    }),
  );
});

it("gives back every rectangle of values as it was", () => {
  const rows = fc
    .integer({ min: 1, max: 4 })
    .chain((width) =>
      fc.array(fc.array(value, { minLength: width, maxLength: width }), { minLength: 1, maxLength: 4 }),
    );
  fc.assert(
    fc.property(rows, (given) => {
      expect(rowsOf(arrayObject(given.map((row) => row.map(valueObject))))).toEqual(given);
    }),
  );
});

// Excel's limits: a cell holds 32,767 characters; a result that is no finite number is #NUM!, and 0 has no sign.
it("makes of what no cell can hold what Excel makes of it", () => {
  expect(rowsOf(StringValueObject.create("x".repeat(32_767)))).toEqual([["x".repeat(32_767)]]);
  expect(rowsOf(StringValueObject.create("x".repeat(32_768)))).toEqual([[{ error: "#VALUE!" }]]);
  expect(rowsOf(NumberValueObject.create(Number.NaN))).toEqual([[{ error: "#NUM!" }]]);
  expect(Object.is((rowsOf(NumberValueObject.create(-0))[0] ?? [])[0], 0)).toBe(true);
  expect(rowsOf(valueObject(Infinity))).toEqual([[{ error: "#NUM!" }]]);
  // A function as the result of a formula is #CALC!.
  const lambda = new LambdaValueObjectObject(null, null, []) as unknown as BaseValueObject;
  expect(rowsOf(lambda)).toEqual([[{ error: "#CALC!" }]]);
});

it("fills rows of different length with #N/A, and has #CALC! for an empty array, as Excel's array functions", () => {
  const ragged = [[1, 2], [3]].map((row) => row.map(valueObject));
  expect(rowsOf(arrayObject(ragged))).toEqual([
    [1, 2],
    [3, { error: "#N/A" }],
  ]);
  expect(rowsOf(arrayObject([]))).toEqual([[{ error: "#CALC!" }]]);
  expect(rowsOf(arrayObject([[]]))).toEqual([[{ error: "#CALC!" }]]);
  expect(arrayObject([[valueObject(4)]]).isArray()).toBe(false);
});

it("reads one cell of an array as that cell", () => {
  const one = arrayOf([[valueObject(4)]]);
  const row = arrayOf([[valueObject(4), valueObject(5)]]);
  const column = arrayOf([[valueObject(4)], [valueObject(5)]]);
  expect(contentOf(single(one))).toBe(4);
  expect(single(row)).toBe(row);
  expect(single(column)).toBe(column);
  expect(contentOf(row)).toBeUndefined();
  expect(contentOf(single(valueObject("a")))).toBe("a");
  expect(firstOf(column).getValue()).toBe(4);
  expect(firstOf(valueObject(7)).getValue()).toBe(7);
  expect(rowsOf(arrayOf([]))).toEqual([]);
});

it("reads an array within an array as its first cell, and a gap as blank", () => {
  const nested = arrayOf([[arrayOf([[valueObject(1), valueObject(2)]]) as never, null]]);
  expect(rowsOf(nested)).toEqual([[1, null]]);
  const short = ArrayValueObject.create({
    calculateValueList: [[valueObject(1)]],
    rowCount: 2,
    columnCount: 2,
    unitId: "",
    sheetId: "",
    row: -1,
    column: -1,
  });
  expect(rowsOf(short)).toEqual([
    [1, null],
    [null, null],
  ]);
});

it("keeps the sentence of an error of ours with its place", () => {
  const failing = tableCellObject({ error: "#VALUE!", sentence: "size must be above 0" });
  expect(failing).toBeInstanceOf(ErrorWithSentence);
  expect(rowsOf(failing)).toEqual([[{ error: "#VALUE!" }]]);
  expect(sentencesOf(failing)).toEqual([{ row: 0, column: 0, sentence: "size must be above 0" }]);
  const table = arrayObject([
    [valueObject(1), valueObject(2)],
    [valueObject({ error: "#N/A" }), failing],
  ]);
  expect(sentencesOf(table)).toEqual([{ row: 1, column: 1, sentence: "size must be above 0" }]);
  expect(sentencesOf(valueObject(1))).toEqual([]);
  expect(rowsOf(tableCellObject("pink"))).toEqual([["pink"]]);
  expect(new ErrorWithSentence(ErrorType.NUM, "x").getValue()).toBe("#NUM!");
});

// Cell types of Univer's model: text 1, number 2, logical value 3.
it.each([
  [12, { v: 12, t: 2 }],
  [true, { v: 1, t: 3 }],
  [false, { v: 0, t: 3 }],
  ["a", { v: "a", t: 1 }],
  [{ error: "#N/A" }, { v: "#N/A", t: 1 }],
])("gives Univer the cell %j", (own, cell) => {
  expect(univerCell(own)).toEqual({ ...cell, own });
});
