import type { CellValue } from "../../workbook/model";
import type { ReadNumber } from "../criteria";
import type { EngineFunction, EngineTableCell } from "../engine";
import type { Area } from "./areas";
import type { ErrorValue, Tree } from "./tree";

/** A table that a function of ours gives. */
export interface TableResult {
  readonly table: readonly (readonly EngineTableCell[])[];
}

/** What a part of a formula gives in a cell: a value, cells that the caller looks into, or a table of ours. */
export type Result = CellValue | Area | TableResult;

export function isTable(result: Result): result is TableResult {
  return typeof result === "object" && result !== null && "table" in result;
}

/** A formula, or a part of one, for every cell that has it: computes the result of the cell in a row and column. */
export type Code = (row: number, column: number) => Result;
export type ValueCode = (row: number, column: number) => CellValue;
export type AreaCode = (row: number, column: number) => Area;

/** A failing call of a function of ours, with the error that it gave. */
export interface FailedCall {
  readonly error: ErrorValue;
  readonly sentence: string;
}

/** Turns parts of a formula into code. Each throws NotCompiled for what is Univer's to compute. */
export interface Compiler {
  any(tree: Tree): Code;
  /** One value; where cells are given, it must be one cell. */
  value(tree: Tree): ValueCode;
  /** A reference as the formula spells it. */
  area(tree: Tree): AreaCode;
  ours(name: string): EngineFunction | undefined;
  /** Rows and columns up to which functions of ours are given whole columns and rows. */
  readonly extent: { readonly lastRow: number; readonly lastColumn: number };
  /** The number that a text spells for a condition. */
  readonly numberIn: ReadNumber;
  fail(error: ErrorValue, sentence: string): ErrorValue;
}

/** Compiles a call; undefined where it is not one of those that are computed here. */
export type CompileCall = (args: readonly Tree[], compiler: Compiler) => Code | undefined;

/** The formula, or a part of it, is not compiled: Univer computes all of its cells. */
export class NotCompiled extends Error {}

export function notCompiled(why: string): never {
  throw new NotCompiled(why);
}

/** So many arguments, and perhaps more. */
type Arguments<Least extends number, Found extends readonly Tree[] = []> = Found["length"] extends Least
  ? readonly [...Found, ...(Tree | undefined)[]]
  : Arguments<Least, [...Found, Tree]>;

/** Whether a call has so many arguments. One that was left out is refused where it is compiled. */
export function hasArguments<Least extends number>(
  args: readonly (Tree | undefined)[],
  least: Least,
  most: number = least,
): args is Arguments<Least> {
  return args.length >= least && args.length <= most;
}
