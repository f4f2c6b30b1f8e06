import {
  type ArrayValueObject,
  BaseFunction,
  type BaseValueObject,
  ErrorType,
  type FunctionVariantType,
  StringValueObject,
} from "@univerjs/engine-formula";
import type { CellValue } from "../workbook/model";
import { decimalText } from "./decimal-text";
import { codeOf } from "./trust";
import { arrayObject, rowsOf, valueObject } from "./univer-values";

/** An argument: one value, or the cells of a range or array, which functions take otherwise than values. */
export type PlainArgument = CellValue | readonly (readonly CellValue[])[];

/** What a function of Univer does. */
export type Calculate = (...variants: FunctionVariantType[]) => ReturnType<BaseFunction["calculate"]>;

/** Ends a function with an error in its cell. */
export class CellError extends Error {}

/** `#VALUE!` and the like as a cell's value. */
export function errorValue(error: string): CellValue {
  return { error };
}

/** Whether an argument is a range or an array. */
export function isCells(argument: PlainArgument | undefined): argument is readonly (readonly CellValue[])[] {
  return Array.isArray(argument);
}

/** The cells of an argument in one list, row by row. */
export function cellsOf(argument: PlainArgument): readonly CellValue[] {
  return isCells(argument) ? argument.flat() : [argument];
}

/** The number that a value stands for where Excel wants one. Throws CellError where it stands for none. */
export function numberOf(value: CellValue | undefined, absent = 0): number {
  switch (typeof value) {
    case "number":
      return value;
    case "boolean":
      return value ? 1 : 0;
    case "string": {
      const number = StringValueObject.create(value).convertToNumberObjectValue();
      if (value.trim() === "" || number.isError()) throw new CellError(ErrorType.VALUE);
      return number.getValue() as number;
    }
    case "undefined":
      return absent;
    default:
      if (value === null) return 0;
      throw new CellError(value.error);
  }
}

/** The text that a value stands for. Throws CellError for an error. */
export function textOf(value: CellValue | undefined): string {
  if (value === undefined || value === null) return "";
  if (typeof value === "object") throw new CellError(value.error);
  if (typeof value === "number") return decimalText(value);
  return typeof value === "boolean" ? String(value).toUpperCase() : value;
}

/** Runs a computation; what it throws for a cell becomes the cell's error, what is no number `#NUM!`. */
export function settled(compute: () => CellValue): CellValue {
  try {
    const value = compute();
    return typeof value === "number" && !Number.isFinite(value) ? errorValue(ErrorType.NUM) : value;
  } catch (error) {
    if (error instanceof CellError) return errorValue(error.message);
    throw error;
  }
}

/** A function of single values; where ranges or arrays are given it is computed cell by cell. */
export function cellByCell(compute: (...values: CellValue[]) => CellValue): Calculate {
  return (...variants) => {
    const arrays = variants.map((variant) =>
      variant.isArray() || variant.isReferenceObject() ? rowsOf(variant) : undefined,
    );
    const values = variants.map((variant) => rowsOf(variant)[0]?.[0] ?? null);
    const height = Math.max(1, ...arrays.map((rows) => rows?.length ?? 1));
    const width = Math.max(1, ...arrays.map((rows) => rows?.[0]?.length ?? 1));
    const cellAt = (at: number, row: number, column: number): CellValue => {
      const rows = arrays[at];
      if (rows === undefined) return values[at] ?? null;
      const line = rows.length === 1 ? rows[0] : rows[row];
      const value = line?.length === 1 ? line[0] : line?.[column];
      return value === undefined ? errorValue(ErrorType.NA) : value;
    };
    return arrayObject(
      Array.from({ length: height }, (_, row) =>
        Array.from({ length: width }, (_, column) => {
          const given = variants.map((_, at) => cellAt(at, row, column));
          const failing = given.find((value) => codeOf(value) !== undefined);
          return valueObject(failing ?? settled(() => compute(...given)));
        }),
      ),
    );
  };
}

/** A function of whole ranges that gives one value. */
export function ofRanges(compute: (...args: PlainArgument[]) => CellValue): Calculate {
  return (...variants) => valueObject(settled(() => compute(...variants.map(argumentOf))));
}

/** A function of whole ranges that gives rows of cells. */
export function tableOf(compute: (...args: PlainArgument[]) => readonly (readonly CellValue[])[]): Calculate {
  return (...variants) => {
    try {
      return arrayObject(compute(...variants.map(argumentOf)).map((row) => row.map(valueObject)));
    } catch (error) {
      if (error instanceof CellError) return valueObject(errorValue(error.message));
      throw error;
    }
  };
}

function argumentOf(variant: FunctionVariantType): PlainArgument {
  const rows = rowsOf(variant);
  return variant.isArray() || variant.isReferenceObject() ? rows : (rows[0]?.[0] ?? null);
}

/** A function that Univer lacks. */
export class PlainFunction extends BaseFunction {
  constructor(
    name: string,
    override readonly minParams: number,
    override readonly maxParams: number,
    private readonly compute: Calculate,
  ) {
    super(name);
  }

  override calculate(...variants: FunctionVariantType[]): BaseValueObject | ArrayValueObject {
    return this.compute(...variants) as BaseValueObject;
  }
}
