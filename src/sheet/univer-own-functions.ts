import {
  BaseFunction,
  type BaseValueObject,
  ErrorType,
  type FunctionVariantType,
} from "@univerjs/engine-formula";
import type { CellValue } from "../workbook/model";
import type { EngineArgument, EngineFunction, EngineResult, EngineTableCell } from "./engine";
import { engineFunctionName } from "./translation";
import { cellAt, intersected, isErrorCell, isRectangle, singleCell } from "./value-cells";
import {
  arrayObject,
  arrayOf,
  errorType,
  firstOf,
  resultOf,
  rowsOf,
  tableCellObject,
  valueObject,
} from "./univer-values";

/** A failing call of ours. */
export interface CallFailure {
  readonly code: string;
  readonly sentence: string;
}

/** Where functions of ours leave what Univer's values cannot carry. */
export interface CallNotes {
  failures: CallFailure[];
  isSpread: boolean;
}

/** A function of ours inside Univer. */
export class CatalogueExecutor extends BaseFunction {
  constructor(
    private readonly fn: EngineFunction,
    private readonly notes: CallNotes,
  ) {
    super(engineFunctionName(fn.name));
  }

  override calculate(...variants: FunctionVariantType[]): BaseValueObject {
    const { parameters } = this.fn;
    if (variants.length > parameters.length) return this.failed(`${this.fn.name} takes fewer arguments`);
    if (variants.some((variant) => (variant as BaseValueObject).isLambda()))
      return this.failed("an argument must not be a function");
    const args = variants.map(rowsOf);
    const isSpread = args.map((rows, at) => parameters[at]?.takesRange !== true && isRectangle(rows));
    const height = Math.max(1, ...args.map((rows, at) => (isSpread[at] === true ? rows.length : 1)));
    const width = Math.max(
      1,
      ...args.map((rows, at) => (isSpread[at] === true ? (rows[0]?.length ?? 1) : 1)),
    );
    const callAt = (row: number, column: number): BaseValueObject =>
      this.callWith(
        args.map((rows, at) => {
          if (parameters[at]?.takesRange === true)
            return variants[at]?.isArray() === true ? rows : singleCell(rows);
          return isSpread[at] === true ? cellAt(rows, row, column) : singleCell(rows);
        }),
      );
    if (height === 1 && width === 1) return callAt(0, 0);
    this.notes.isSpread = true;
    return arrayObject(
      Array.from({ length: height }, (_, row) =>
        Array.from({ length: width }, (_, column) => firstOf(callAt(row, column))),
      ),
    );
  }

  private callWith(args: readonly EngineArgument[]): BaseValueObject {
    // An error in a range is for the function to read: it names the row, and keeps what the other rows give.
    for (const [at, argument] of args.entries()) {
      const { name = "an argument", takesRange = false } = this.fn.parameters[at] ?? {};
      if (takesRange || Array.isArray(argument) || !isErrorCell(argument as CellValue)) continue;
      const { error } = argument as { readonly error: string };
      return this.failed(`${name} holds the error ${error}`, error);
    }
    let result: EngineResult;
    try {
      result = this.fn.call(args);
    } catch (error) {
      return this.failed(error instanceof Error ? error.message : String(error));
    }
    switch (result.kind) {
      case "value":
        return valueObject(result.value);
      case "table":
        return arrayObject(result.rows.map((row) => row.map((cell) => this.cell(cell))));
      case "error":
        return this.failed(result.sentence, result.code);
    }
  }

  private failed(sentence: string, code: string = ErrorType.VALUE): BaseValueObject {
    return this.cell({ error: code, sentence });
  }

  private cell(cell: EngineTableCell): BaseValueObject {
    if (typeof cell === "object") {
      this.notes.failures.push({ code: errorType(cell.error), sentence: cell.sentence });
    }
    return tableCellObject(cell);
  }
}

/** Stands for a name in our namespace that is no function. */
export class UnknownExecutor extends BaseFunction {
  constructor(
    name: string,
    private readonly notes: CallNotes,
  ) {
    super(name);
  }

  override calculate(): BaseValueObject {
    const sentence = `there is no function ${String(this.name).replace("_", ".")}`;
    this.notes.failures.push({ code: ErrorType.NAME, sentence });
    return tableCellObject({ error: ErrorType.NAME, sentence });
  }
}

/** `@`: the cell of a range that lies in the formula's row or column; anything else as its first cell. */
export class Intersection extends BaseFunction {
  override needsReferenceObject = true;
  override minParams = 1;
  override maxParams = 1;

  override calculate(variant: FunctionVariantType): BaseValueObject {
    const { rows, reference } = resultOf(variant);
    return valueObject(intersected(rows, reference, { row: this.row, column: this.column }));
  }
}

/** The cells of several references as one list. */
export class JoinedAreas extends BaseFunction {
  override needsReferenceObject = true;
  override minParams = 1;
  override maxParams = 2 ** 14;

  override calculate(...variants: FunctionVariantType[]): BaseValueObject {
    const failing = variants.find((variant) => variant.isError());
    if (failing !== undefined) return failing as BaseValueObject;
    const cells = variants.flatMap((variant) => rowsOf(variant).flat());
    return arrayOf(cells.map((cell) => [valueObject(cell)]));
  }
}
