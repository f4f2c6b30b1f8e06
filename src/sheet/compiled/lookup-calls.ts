import { Area } from "./areas";
import type { CellValue } from "../../workbook/model";
import type { EngineTableCell } from "../engine";
import {
  type CompileCall,
  type Compiler,
  hasArguments,
  isTable,
  type Result,
  type TableResult,
  type ValueCode,
} from "./code";
import { isError, NO_CELL, NO_VALUE, operandNumber, storable, truthOf, VALUE_ERROR } from "./operands";
import { needsUniver } from "./signals";
import type { Tree } from "./tree";
import { exactPosition, lastUpTo } from "./value-index";

/** An argument that may be left out: `absent` where it is not there, 0 or FALSE where only its comma is. */
function optional(tree: Tree | undefined, absent: boolean | number, compiler: Compiler): ValueCode {
  if (tree === undefined) return () => absent;
  return tree.kind === "nothing" ? () => 0 : compiler.value(tree);
}

const verticalLookup: CompileCall = (args, compiler) => {
  if (!hasArguments(args, 3, 4)) return undefined;
  const [what, where, which, how] = args;
  const wantedCode = compiler.value(what);
  const areaCode = compiler.area(where);
  const columnCode = compiler.value(which);
  const nearCode = optional(how, true, compiler);
  return (row, column) => {
    const wanted = wantedCode(row, column);
    if (isError(wanted)) return wanted;
    const given = operandNumber(columnCode(row, column));
    if (typeof given !== "number") return given;
    const isNear = truthOf(nearCode(row, column));
    if (typeof isNear !== "boolean") return needsUniver();
    const area = areaCode(row, column);
    const across = Math.floor(given);
    if (across < 1) return VALUE_ERROR;
    if (across > area.width) return NO_CELL;
    const list = new Area(area.values, area.firstRow, area.firstColumn, area.lastRow, area.firstColumn);
    const at = isNear ? lastUpTo(list, wanted) : exactPosition(list, wanted);
    return at === undefined ? NO_VALUE : area.at(at, across - 1);
  };
};

const match: CompileCall = (args, compiler) => {
  if (!hasArguments(args, 2, 3)) return undefined;
  const [what, where, how] = args;
  const wantedCode = compiler.value(what);
  const areaCode = compiler.area(where);
  const modeCode = optional(how, 1, compiler);
  return (row, column) => {
    const wanted = wantedCode(row, column);
    if (isError(wanted)) return wanted;
    const mode = modeCode(row, column);
    if (mode !== 0 && mode !== 1) return needsUniver();
    const area = areaCode(row, column);
    const at = mode === 0 ? exactPosition(area, wanted) : lastUpTo(area, wanted);
    return at === undefined ? NO_VALUE : at + 1;
  };
};

/** Exact, from the first to the last, in a column, with one column of results. */
const exactLookup: CompileCall = (args, compiler) => {
  if (!hasArguments(args, 3, 4)) return undefined;
  const [what, where, results, otherwise] = args;
  const wantedCode = compiler.value(what);
  const listCode = compiler.area(where);
  const resultsCode = compiler.area(results);
  const otherwiseCode = otherwise && compiler.value(otherwise);
  return (row, column) => {
    const wanted = wantedCode(row, column);
    if (isError(wanted)) return wanted;
    const list = listCode(row, column);
    const table = resultsCode(row, column);
    if (list.width !== 1 || table.width !== 1 || table.height !== list.height) return needsUniver();
    const at = exactPosition(list, wanted);
    if (at !== undefined) return table.at(at, 0);
    return otherwiseCode === undefined ? NO_VALUE : (otherwiseCode(row, column) ?? needsUniver());
  };
};

/** A table of ours with its size; what is smaller is for Univer to look into. */
function tableIn(result: Result): TableResult & { readonly height: number; readonly width: number } {
  if (!isTable(result)) return needsUniver();
  const { table } = result;
  const [height, width] = [table.length, table[0]?.length ?? 0];
  return height * width > 1 && table.every((cells) => cells.length === width)
    ? { table, height, width }
    : needsUniver();
}

function cellOf(cell: EngineTableCell | undefined, compiler: Compiler): CellValue {
  if (cell === undefined) return NO_VALUE;
  return typeof cell === "object" ? compiler.fail({ error: cell.error }, cell.sentence) : storable(cell);
}

const indexed: CompileCall = (args, compiler) => {
  if (!hasArguments(args, 2, 3)) return undefined;
  const [where, down, across] = args;
  const cellsCode = where.kind === "call" ? compiler.any(where) : compiler.area(where);
  const downCode = compiler.value(down);
  const acrossCode = across && compiler.value(across);
  return (row, column) => {
    const cells = cellsCode(row, column);
    const area = cells instanceof Area ? cells : tableIn(cells);
    const first = downCode(row, column);
    const second = acrossCode?.(row, column);
    if (isError(first)) return first;
    if (isError(second)) return second;
    if (typeof first !== "number" || (second !== undefined && typeof second !== "number"))
      return needsUniver();
    const isRow = second === undefined && area.height === 1;
    if (second === undefined && !isRow && area.width > 1) return needsUniver();
    const [atRow, atColumn] = isRow ? [1, Math.trunc(first)] : [Math.trunc(first), Math.trunc(second ?? 1)];
    // Row or column 0 means all of them.
    if (atRow < 1 || atColumn < 1) return needsUniver();
    if (atRow > area.height || atColumn > area.width) return NO_CELL;
    if (!(area instanceof Area)) return cellOf(area.table[atRow - 1]?.[atColumn - 1], compiler);
    const [top, left] = [area.firstRow + atRow - 1, area.firstColumn + atColumn - 1];
    return new Area(area.values, top, left, top, left);
  };
};

export const LOOKUP_CALLS: Readonly<Record<string, CompileCall>> = {
  VLOOKUP: verticalLookup,
  MATCH: match,
  XLOOKUP: exactLookup,
  INDEX: indexed,
};
