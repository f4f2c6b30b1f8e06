import { CalcError, Refusal, overflow } from "../core/calc-error";
import { fromSi } from "../core/units";
import { isWithheld } from "../core/withheld";
import type { CatalogueFunction, Cell, Common, Definition, Measure, Outcome, ResultSpec } from "./definition";
import type { ArgumentsOf, Param } from "./param";
import { handedOn, readArgument } from "./read-argument";
import { listCells } from "./read-range";
import { headerOf, isSymbol, statedRow, withheldRow } from "./result-rows";
import { noteResult } from "./results";

/** Significant digits of a number in a cell. Source: Excel specifications and limits, number precision. */
const SHEET_DIGITS = 15;

function finished<Value extends Cell>(name: string, measure: Measure, value: Value): Value | number {
  if (typeof value !== "number") return value;
  const converted = isSymbol(measure) ? written(fromSi(value, measure)) : value;
  if (!Number.isFinite(converted)) throw overflow(`${name} is too large for a cell with these arguments`);
  return converted === 0 ? 0 : converted;
}

/** 12 in as 12 and not as 11.999999999999998, which no formula that looks for 12 would find: the digits that a sheet keeps. */
function written(value: number): number {
  return Number(value.toPrecision(SHEET_DIGITS));
}

function outcomeOf(
  fn: Common<ResultSpec> & { readonly params: readonly Param[] },
  computed: unknown,
  args: readonly unknown[],
): Outcome {
  const { result, name } = fn;
  if (result.kind === "value") {
    const value = finished(name, result.measure, computed as Cell);
    return isWithheld(value)
      ? { kind: "error", code: value.error, sentence: value.sentence }
      : { kind: "value", value };
  }
  if (result.kind === "list") {
    const values = (computed as readonly Cell[]).map((value) => finished(name, result.measure, value));
    const index = fn.params.findIndex((param) => param.name === result.like);
    const like = fn.params[index];
    const isRow = like?.kind === "list" && listCells(like, args[index]).isRow;
    return { kind: "table", rows: isRow ? [values] : values.map((value) => [value]) };
  }
  const rows = (computed as readonly Readonly<Record<string, Cell>>[]).map(statedRow).map((row) => {
    const extra = Object.keys(row).find((key) => result.columns.every((column) => column.name !== key));
    if (extra !== undefined) throw new Error(`a row has a cell "${extra}" without a column`);
    return result.columns.map((column) => {
      const cell = row[column.name];
      if (cell === undefined) throw new Error(`a row has no cell "${column.name}"`);
      return finished(name, column.measure, cell);
    });
  });
  return { kind: "table", rows: [result.columns.map(headerOf), ...rows] };
}

function failed(name: string, error: unknown): Outcome {
  if (error instanceof CalcError) return { kind: "error", code: error.code, sentence: error.message };
  const detail = error instanceof Error ? error.message : String(error);
  return {
    kind: "error",
    code: "#VALUE!",
    sentence: `${name} has a fault of its own, please report it: ${detail}`,
  };
}

/**
 * Makes a catalogue function: reads arguments by position, applies defaults, checks limits, converts to SI units, calls
 * core, converts back and checks every cell of the result.
 */
export function define<const Params extends readonly Param[], const Result extends ResultSpec>(
  definition: Definition<Params, Result>,
): CatalogueFunction {
  const { compute, draw, drawPieces, keepsShape, ...rest } = definition;
  if (rest.result.kind === "table") noteResult(rest.name, rest.result.columns.map(headerOf));
  const { params } = definition;
  const read = (args: readonly unknown[]): ArgumentsOf<Params> =>
    params.map((_, index) => readArgument(params, index, args)) as unknown as ArgumentsOf<Params>;
  const checkScalars = (args: readonly unknown[]): void => {
    params.forEach((param, index) => {
      if (param.kind !== "table") readArgument(params, index, args);
    });
  };
  const computed = (args: readonly unknown[]): unknown => {
    const { result } = definition;
    if (keepsShape !== true || result.kind !== "table") return compute(...read(args));
    checkScalars(args);
    try {
      return compute(...read(args));
    } catch (error) {
      if (error instanceof CalcError && !(error instanceof Refusal))
        return [withheldRow(result.columns, error.message)];
      throw error;
    }
  };
  return {
    ...rest,
    call: (args) => {
      try {
        return handedOn(params, args) ?? outcomeOf(rest, computed(args), args);
      } catch (error) {
        return failed(definition.name, error);
      }
    },
    ...(draw && { draw: (args: readonly unknown[]) => draw(...read(args)) }),
    ...(drawPieces && { drawPieces: (args: readonly unknown[]) => drawPieces(...read(args)) }),
  };
}
