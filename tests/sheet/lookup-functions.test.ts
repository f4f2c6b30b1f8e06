import {
  type BaseValueObject,
  ErrorType,
  ErrorValueObject,
  type FunctionVariantType,
  NullValueObject,
  NumberValueObject,
  StringValueObject,
} from "@univerjs/engine-formula";
import { describe, expect, it } from "vitest";
import { addressing, cellInfo, lookingUp, matching } from "../../src/sheet/lookup-functions";
import type { Calculate } from "../../src/sheet/plain-functions";
import { rowsOf } from "../../src/sheet/univer-values";

const TOLD = StringValueObject.create("Univer's own");
const univer = (): FunctionVariantType => TOLD;
const text = (value: string): BaseValueObject => StringValueObject.create(value);
const number = (value: number): BaseValueObject => NumberValueObject.create(value);
const blank = NullValueObject.create();

const isUnivers = (found: unknown): boolean => found === TOLD;
const shown = (found: ReturnType<Calculate>): ReturnType<typeof rowsOf> =>
  rowsOf(found as FunctionVariantType);

describe("CELL", () => {
  // Microsoft support, page CELL: what it can be asked for; letters in any case.
  it.each(["address", "COL", "Contents", "filename", "ROW", "type", "width"])("tells %s", (asked) => {
    expect(isUnivers(cellInfo(univer)(text(asked)))).toBe(true);
  });

  it.each([[text("hello")], [text("")], [number(1)], [blank]])("knows nothing else", (asked) => {
    expect(shown(cellInfo(univer)(asked))).toEqual([[{ error: "#VALUE!" }]]);
  });

  it("wants to be asked for something", () => {
    expect(shown(cellInfo(univer)())).toEqual([[{ error: "#VALUE!" }]]);
  });

  it("passes an error on, as Univer does", () => {
    expect(isUnivers(cellInfo(univer)(ErrorValueObject.create(ErrorType.NA)))).toBe(true);
  });
});

describe("what Univer does as Excel does", () => {
  const list = number(4);

  it("is left to it: an exact lookup from the first to the last", () => {
    expect(isUnivers(matching(univer)(number(4), list))).toBe(true);
    expect(isUnivers(matching(univer)(number(4), list, blank, blank))).toBe(true);
    expect(isUnivers(lookingUp(univer)(number(4), list, list, blank))).toBe(true);
    expect(isUnivers(lookingUp(univer)(number(4), list, list, text("none"), blank))).toBe(true);
  });

  it("is not left to it where a mode stands there, or an error is looked for", () => {
    expect(shown(matching(univer)(number(4), list, number(0)))).toEqual([[1]]);
    expect(shown(matching(univer)(number(4), list, blank, number(-1)))).toEqual([[1]]);
    expect(shown(lookingUp(univer)(number(4), list, list, blank, number(0)))).toEqual([[4]]);
    const wanted = ErrorValueObject.create(ErrorType.NUM);
    expect(shown(lookingUp(univer)(wanted, list, list))).toEqual([[{ error: "#NUM!" }]]);
  });

  it("is left to it: the address of a cell that exists, and of none", () => {
    expect(isUnivers(addressing(univer)(number(1), number(1)))).toBe(true);
    expect(isUnivers(addressing(univer)())).toBe(true);
    expect(isUnivers(addressing(univer)(number(1)))).toBe(true);
    expect(shown(addressing(univer)(number(0), number(1)))).toEqual([[{ error: "#VALUE!" }]]);
  });
});
