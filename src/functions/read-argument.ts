import { invalid } from "../core/calc-error";
import type { Outcome } from "./definition";
import { holdsError, plainCell } from "./incoming";
import { isOptional, zeroMeans, type ListParam, type Param, type ScalarParam } from "./param";
import { cellsOfRow, isNotGiven, listCells, readList, readTable, rangeRows } from "./read-range";
import { isBlank, readScalar, refusedZero, type ScalarValue } from "./read-scalar";

function readScalarArgument(param: ScalarParam, raw: unknown): ScalarValue | undefined {
  const rows = rangeRows(raw);
  const cells = cellsOfRow(rows[0]);
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
export function handedOn(params: readonly Param[], args: readonly unknown[]): Outcome | undefined {
  for (const [index, param] of params.entries()) {
    if (param.kind === "table") continue;
    const rows = rangeRows(args[index]);
    let place = 0;
    for (const row of rows) {
      for (const raw of cellsOfRow(row)) {
        place += 1;
        const cell = plainCell(raw);
        if (!holdsError(cell)) continue;
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
