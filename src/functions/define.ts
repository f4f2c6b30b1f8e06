import { CalcError, Refusal, invalid, overflow } from "../core/calc-error";
import type { PieceDrawing } from "../core/event/piece-drawing";
import { fromSi, type UnitSymbol } from "../core/units";
import { isWithheld, withheld, type Withheld } from "../core/withheld";
import { isErrorCell, plainCell } from "./incoming";
import {
  isOptional,
  zeroMeans,
  type ArgumentsOf,
  type ListParam,
  type Param,
  type ScalarParam,
} from "./param";
import { cellsOf, isNotGiven, listCells, readList, readTable, rowsOf } from "./read-range";
import { noteResult } from "./results";
import { isBlank, readScalar, refusedZero, type ScalarValue } from "./read-scalar";

/** A value that a cell can hold. */
export type PlainCell = number | string | boolean;

/** A cell of a result: a value, or an error with its sentence where the number cannot be known. */
export type Cell = PlainCell | Withheld;

/** A cell of a result that holds nothing: an empty text, since hosts show a missing one as 0. */
export const BLANK = "";

/** The group a function stands in: part of the name of nothing, only the order of help. */
export type Category =
  | "The whole event"
  | "Counting"
  | "Air and helium"
  | "Ribbon and rolls"
  | "Palette"
  | "Stock and buying"
  | "Work and transport"
  | "Price"
  | "Care"
  | "Help for sheets";

/** What the number of a result is: it decides the unit it is converted to and the format it is shown in. */
export type Measure = UnitSymbol | "count" | "share" | "money" | "number" | "datetime" | "text" | "flag";

/** A column of a spilled table. */
export interface ResultColumn {
  readonly name: string;
  readonly measure: Measure;
  readonly text: string;
}

/** What a function gives: one value, a list that lies as one of its arguments does, or a table with a header row. */
export type ResultSpec =
  | { readonly kind: "value"; readonly measure: Measure; readonly text: string }
  | { readonly kind: "list"; readonly measure: Measure; readonly like: string; readonly text: string }
  | { readonly kind: "table"; readonly columns: readonly ResultColumn[]; readonly text: string };

/** What a definition's `compute` gives back, in SI units. */
export type Computed<Result> = Result extends { readonly kind: "value" }
  ? Cell
  : Result extends { readonly kind: "list" }
    ? readonly Cell[]
    : Result extends { readonly kind: "table"; readonly columns: infer Columns }
      ? readonly ResultRow<Columns>[]
      : never;

/** One row of a spilled table: a cell for each column, by its name. */
export type ResultRow<Columns> = Columns extends readonly ResultColumn[]
  ? { readonly [Column in Columns[number] as Column["name"]]: Cell }
  : never;

/** A row of blank cells, to spread into rows that fill only some columns. */
export function blankRow<const Columns extends readonly ResultColumn[]>(
  columns: Columns,
): { readonly [Column in Columns[number] as Column["name"]]: typeof BLANK } {
  return Object.fromEntries(columns.map(({ name }) => [name, BLANK])) as ReturnType<typeof blankRow<Columns>>;
}

/** An argument in an example: a cell, a row or column of cells, or rows of cells; null leaves the argument out. */
export type ExampleArgument =
  PlainCell | null | readonly (PlainCell | null)[] | readonly (readonly (PlainCell | null)[])[];

/** A worked example: shown in help, evaluated by the tests. */
export interface Example {
  readonly args: readonly ExampleArgument[];
  /**
   * The value; for a table its rows without the header, where null stands for a cell that the example does not check and
   * `#N/A` for a withheld number.
   */
  readonly gives: PlainCell | readonly (readonly (PlainCell | null)[])[];
  /** Largest difference of a number from `gives`; 0 where absent. */
  readonly within?: number;
  /** The arithmetic, as a person would check it. */
  readonly working: string;
  /** Where the expected value comes from. */
  readonly source: string;
}

/** A wrong call: shown in help, evaluated by the tests. */
export interface Failure {
  readonly args: readonly ExampleArgument[];
  readonly gives: "#VALUE!" | "#N/A" | "#NUM!";
  readonly when: string;
  /** A part of the sentence that must be there. */
  readonly says?: string;
}

/** A ball to draw: centre and radius in metres, x to the right, y up from the base, z towards the viewer. */
export interface DrawnBalloon {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly radius: number;
  readonly row: number;
}

/** A piece to draw, in its own colours, with the lines that belong to it. */
export type DrawnPiece = PieceDrawing;

/** What a definition says beside its arguments and its model. */
export interface Common<Result> {
  readonly name: string;
  readonly category: Category;
  /** One sentence: what it answers. */
  readonly text: string;
  /** Questions in a decorator's words that this function answers, for search. */
  readonly asks: readonly string[];
  readonly result: Result;
  /** The model behind the number, and where it comes from. */
  readonly source: string;
  /** What it does not cover. */
  readonly limits?: string;
  /** What can hurt someone and what to do about it. */
  readonly caution?: string;
  /** The function that answers better: this one keeps computing in old workbooks, and lists leave it out. */
  readonly replacedBy?: string;
  readonly examples: readonly Example[];
  readonly failures: readonly Failure[];
}

/** A definition as its file writes it. */
export interface Definition<
  Params extends readonly Param[],
  Result extends ResultSpec,
> extends Common<Result> {
  readonly params: Params;
  /** Where the tables cannot be read the result keeps its shape: its header and one row that says why. */
  readonly keepsShape?: true;
  readonly compute: (...args: ArgumentsOf<Params>) => Computed<Result>;
  /** The piece as balloons in space, for pictures. */
  readonly draw?: (...args: ArgumentsOf<Params>) => readonly DrawnBalloon[];
  /** Several pieces, each in its own colours, for pictures of a whole job. */
  readonly drawPieces?: (...args: ArgumentsOf<Params>) => readonly DrawnPiece[];
}

/** What a call gives: never an exception, never a number that a cell cannot hold. */
export type Outcome =
  | { readonly kind: "value"; readonly value: PlainCell }
  | { readonly kind: "table"; readonly rows: readonly (readonly Cell[])[] }
  | { readonly kind: "error"; readonly code: string; readonly sentence: string };

/** A function of the catalogue, as hosts use it. */
export interface CatalogueFunction extends Common<ResultSpec> {
  readonly params: readonly Param[];
  /** Calls with the arguments as a worksheet sends them, read by position; more than the parameters are ignored. */
  readonly call: (args: readonly unknown[]) => Outcome;
  /** Balloons in space for the same arguments; undefined where the function draws nothing. */
  readonly draw?: (args: readonly unknown[]) => readonly DrawnBalloon[];
  /** The pieces of a job for the same arguments; undefined where the function draws none. */
  readonly drawPieces?: (args: readonly unknown[]) => readonly DrawnPiece[];
}

function readScalarArgument(param: ScalarParam, raw: unknown): ScalarValue | undefined {
  const rows = rowsOf(raw);
  const cells = cellsOf(rows[0]);
  if (rows.length !== 1 || cells.length !== 1) throw invalid(param.name, "be one cell", raw);
  const value = plainCell(cells[0]);
  const zero = value === 0 ? zeroMeans(param) : "zero";
  if (zero === "refused") throw refusedZero(param.name, param, "leave it out");
  const isUnset = isBlank(value) || zero === "default";
  if (!isUnset) return readScalar(param.name, param, value);
  if (param.default !== undefined) return readScalar(param.name, param, param.default);
  if (isOptional(param)) return undefined;
  throw invalid(param.name, "be given", undefined);
}

function partnerCells(
  params: readonly Param[],
  param: ListParam,
  args: readonly unknown[],
): readonly unknown[] | undefined {
  const index = params.findIndex((candidate) => candidate.name === param.pairedWith);
  const partner = params[index];
  return partner?.kind === "list" ? listCells(partner, args[index]).cells : undefined;
}

/**
 * An error that stands in an argument of one cell or in a list goes on to the result, as in Excel's own functions. In a table
 * it is a bad cell of its row.
 */
function handedOn(params: readonly Param[], args: readonly unknown[]): Outcome | undefined {
  for (const [index, param] of params.entries()) {
    if (param.kind === "table") continue;
    const rows = rowsOf(args[index]);
    let place = 0;
    for (const row of rows) {
      for (const raw of cellsOf(row)) {
        place += 1;
        const cell = plainCell(raw);
        if (!isErrorCell(cell)) continue;
        const where = param.kind === "list" ? `${param.name} cell ${place}` : param.name;
        return { kind: "error", code: cell.error, sentence: `${where} holds the error ${cell.error}` };
      }
    }
  }
  return undefined;
}

type Read = ScalarValue | readonly ScalarValue[] | ReturnType<typeof readTable> | unknown;

/** Reads one argument as its parameter says. `args` are all arguments, for lists that go in pairs. */
export function readArgument(params: readonly Param[], index: number, args: readonly unknown[]): Read {
  const param = params[index];
  if (param === undefined) return undefined;
  const raw = args[index];
  if (param.kind === "table" && param.raw === true) return raw;
  if (param.kind !== "list" && param.kind !== "table") return readScalarArgument(param, raw);
  if (isOptional(param) && isNotGiven(param, raw)) return undefined;
  return param.kind === "list"
    ? readList(param, raw, partnerCells(params, param, args))
    : readTable(param, raw);
}

function isSymbol(measure: Measure): measure is UnitSymbol {
  return !["count", "share", "money", "number", "datetime", "text", "flag"].includes(measure);
}

function finished<Value extends Cell>(name: string, measure: Measure, value: Value): Value | number {
  if (typeof value !== "number") return value;
  const converted = isSymbol(measure) ? fromSi(value, measure) : value;
  if (!Number.isFinite(converted)) throw overflow(`${name} is too large for a cell with these arguments`);
  return converted === 0 ? 0 : converted;
}

/** The header text of a result column: its name and, where there is one, its unit. */
export function headerOf(column: ResultColumn): string {
  return isSymbol(column.measure) ? `${column.name} ${column.measure}` : column.name;
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
  const rows = (computed as readonly Readonly<Record<string, Cell>>[]).map((row) => {
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

/** The row of a plan that cannot be made: every number withheld, the reason in its status. */
export function withheldRow<const Columns extends readonly ResultColumn[]>(
  columns: Columns,
  sentence: string,
): ResultRow<Columns> {
  const cells = columns.map(({ name, measure }) => {
    if (name === "status") return [name, `stop: ${sentence}`];
    return [name, measure === "text" || measure === "flag" ? BLANK : withheld(sentence)];
  });
  return Object.fromEntries(cells) as ResultRow<Columns>;
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
