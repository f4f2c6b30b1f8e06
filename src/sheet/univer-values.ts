import { CellValueType, type Nullable } from "@univerjs/core";
import {
  ArrayValueObject,
  type BaseReferenceObject,
  type BaseValueObject,
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  type FunctionVariantType,
  NullValueObject,
  NumberValueObject,
  StringValueObject,
} from "@univerjs/engine-formula";
import { MAX_TEXT } from "../formula/address";
import type { CellValue } from "../workbook/model";
import type { CellSentence, EngineTableCell } from "./engine";
import { knownError } from "./known-errors";
import type { ValueCells } from "./value-cells";

/** An error that says why: it keeps its sentence through whatever passes it on. */
export class ErrorWithSentence extends ErrorValueObject {
  constructor(
    code: ErrorType,
    readonly sentence: string,
  ) {
    super(code);
  }
}

/** The sentences of a value's errors, by position in it. */
export function sentencesOf(value: FunctionVariantType): readonly CellSentence[] {
  if (value instanceof ErrorWithSentence) return [{ row: 0, column: 0, sentence: value.sentence }];
  if (value.isReferenceObject() || !value.isArray()) return [];
  return (value as ArrayValueObject)
    .getArrayValue()
    .flatMap((cells, row) =>
      cells.flatMap((cell, column) =>
        cell instanceof ErrorWithSentence ? [{ row, column, sentence: cell.sentence }] : [],
      ),
    );
}

/** A cell of a table of ours as Univer's object. */
export function tableCellObject(cell: EngineTableCell): BaseValueObject {
  return typeof cell === "object"
    ? new ErrorWithSentence(errorType(cell.error), cell.sentence)
    : valueObject(cell);
}

/** A cell as Univer reads it, with its value as we have it: Univer's has no way to tell an error from its text. */
export interface OwnCell {
  readonly v: string | number;
  readonly t: CellValueType;
  readonly own: Exclude<CellValue, null>;
}

/** Whether Univer reads a cell of ours. */
export function isOwnCell(cell: object): cell is OwnCell {
  return "own" in cell;
}

/** A cell as Univer reads it from a sheet. */
export function univerCell(own: Exclude<CellValue, null>): OwnCell {
  return { ...plainCell(own), own };
}

function plainCell(value: Exclude<CellValue, null>): Pick<OwnCell, "v" | "t"> {
  switch (typeof value) {
    case "number":
      return { v: value, t: CellValueType.NUMBER };
    case "boolean":
      return { v: value ? 1 : 0, t: CellValueType.BOOLEAN };
    case "string":
      return { v: value, t: CellValueType.STRING };
    default:
      return { v: errorType(value.error), t: CellValueType.STRING };
  }
}

/** Univer's name of an error. */
export function errorType(code: string): ErrorType {
  return knownError(code) as ErrorType;
}

/** The cells of a value, and the rectangle where it is a reference. */
export function resultOf(value: FunctionVariantType): ValueCells {
  if (!value.isReferenceObject()) return { rows: rowsOf(value) };
  const reference = value as BaseReferenceObject;
  const { startRow, startColumn, endRow, endColumn } = reference.getRangePosition();
  return {
    rows: rowsOf(reference),
    reference: { firstRow: startRow, firstColumn: startColumn, lastRow: endRow, lastColumn: endColumn },
  };
}

/** The cells of a value, an array or what a reference refers to. */
export function rowsOf(value: FunctionVariantType): readonly (readonly CellValue[])[] {
  if (value.isReferenceObject()) return rowsOf((value as BaseReferenceObject).toArrayValueObject());
  if (!value.isArray()) return [[cellOf(value as BaseValueObject)]];
  const array = value as ArrayValueObject;
  const values = array.getArrayValue();
  const columns = Array.from({ length: array.getColumnCount() }, (_, column) => column);
  return Array.from({ length: array.getRowCount() }, (_, row) =>
    columns.map((column) => cellOf(values[row]?.[column])),
  );
}

function cellOf(value: Nullable<BaseValueObject>): CellValue {
  if (!value || value.isNull()) return null;
  if (value.isArray()) return cellOf((value as ArrayValueObject).getFirstCell());
  if (value.isLambda()) return { error: ErrorType.CALC };
  const content = value.getValue();
  if (value.isError()) return { error: String(content) };
  if (typeof content === "number") return storable(content);
  return value.isBoolean() ? Boolean(content) : storable(String(content));
}

/** What Excel makes of a number or text that a cell cannot hold. */
function storable(value: number | string): CellValue {
  if (typeof value === "string") return value.length > MAX_TEXT ? { error: ErrorType.VALUE } : value;
  if (!Number.isFinite(value)) return { error: ErrorType.NUM };
  return value === 0 ? 0 : value;
}

/** A cell's value as Univer's object. */
export function valueObject(value: CellValue): BaseValueObject {
  switch (typeof value) {
    case "number":
      return Number.isFinite(value)
        ? NumberValueObject.create(value)
        : ErrorValueObject.create(ErrorType.NUM);
    case "string":
      return StringValueObject.create(value);
    case "boolean":
      return BooleanValueObject.create(value);
    default:
      return value === null ? NullValueObject.create() : ErrorValueObject.create(errorType(value.error));
  }
}

/** Rows of Univer's objects as one; a single cell as itself. */
export function arrayObject(rows: readonly (readonly BaseValueObject[])[]): BaseValueObject {
  const [first] = rows;
  if (first?.[0] === undefined) return ErrorValueObject.create(ErrorType.CALC);
  if (rows.length === 1 && first.length === 1) return first[0];
  const columnCount = Math.max(...rows.map((row) => row.length));
  const missing = ErrorValueObject.create(ErrorType.NA);
  return ArrayValueObject.create({
    calculateValueList: rows.map((row) => Array.from({ length: columnCount }, (_, at) => row[at] ?? missing)),
    rowCount: rows.length,
    columnCount,
    unitId: "",
    sheetId: "",
    row: -1,
    column: -1,
  });
}

/** The value itself, or the first cell of an array. */
export function firstOf(value: BaseValueObject): BaseValueObject {
  return value.isArray() ? (value as ArrayValueObject).getFirstCell() : value;
}

/** Rows of Univer's objects as an array that stands nowhere on a sheet. */
export function arrayOf(rows: ReturnType<ArrayValueObject["getArrayValue"]>): ArrayValueObject {
  return ArrayValueObject.create({
    calculateValueList: rows,
    rowCount: rows.length,
    columnCount: rows[0]?.length ?? 0,
    unitId: "",
    sheetId: "",
    row: -1,
    column: -1,
  });
}

/** The value itself, or the only cell of an array. */
export function single(variant: FunctionVariantType): FunctionVariantType {
  if (!variant.isArray()) return variant;
  const array = variant as ArrayValueObject;
  return array.getRowCount() === 1 && array.getColumnCount() === 1 ? array.getFirstCell() : variant;
}

/** What a single value holds. */
export function contentOf(variant: FunctionVariantType): unknown {
  if (variant.isReferenceObject() || variant.isArray()) return undefined;
  return (variant as BaseValueObject).getValue();
}
