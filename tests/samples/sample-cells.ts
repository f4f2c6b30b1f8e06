import { catalogue } from "../../src/functions/catalogue";
import { engineFunctions } from "../../src/sheet/catalogue-functions";
import { recalculateWorkbook, type RecalculatedWorkbook } from "../../src/sheet/recalculate";
import type { CellChange, CellValue, WorkbookModel } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";

const functions = engineFunctions(catalogue);

/** Rows of a table by heading. */
export type Rows = readonly Readonly<Record<string, CellValue>>[];

function cellsOf(model: WorkbookModel, name: string): ReadonlyMap<string, CellValue> {
  const sheet = model.sheets.find((candidate) => candidate.name === name);
  if (sheet === undefined) throw new Error(`there is no sheet ${name}`);
  return new Map(sheet.cells.map(({ row, column, value }) => [`${row} ${column}`, value]));
}

/** What a plan spills on a sheet: the rows below the header that begins in column A with `first`, up to a blank row. */
export function planRows(model: WorkbookModel, sheet: string, first: string): Rows {
  const cells = cellsOf(model, sheet);
  const at = (row: number, column: number): CellValue => cells.get(`${row} ${column}`) ?? null;
  let header = 0;
  while (at(header, 0) !== first) {
    header += 1;
    if (header > 200) throw new Error(`${sheet} has no header ${first}`);
  }
  const heads: string[] = [];
  for (let column = 0; typeof at(header, column) === "string"; column += 1)
    heads.push(String(at(header, column)));
  const rows: Readonly<Record<string, CellValue>>[] = [];
  for (let row = header + 1; ; row += 1) {
    const values = heads.map((_, column) => at(row, column));
    if (values.every((value) => value === null)) return rows;
    rows.push(Object.fromEntries(heads.map((head, column) => [head, values[column] ?? null])));
  }
}

/** The value beside a label of column A or B. */
export function beside(model: WorkbookModel, sheet: string, label: string): CellValue {
  const cells = cellsOf(model, sheet);
  for (const [place, value] of cells) {
    const [row = "", column = ""] = place.split(" ");
    if (value === label && Number(column) < 2) return cells.get(`${row} ${Number(column) + 1}`) ?? null;
  }
  throw new Error(`${sheet} has no ${label}`);
}

/** A cell of a table to type in: the row is the place of a row below its headings, from 1. */
export function typed(
  model: WorkbookModel,
  table: string,
  row: number,
  column: string,
  value: CellValue,
): CellChange {
  const found = model.tables.find(({ name }) => name === table);
  const across = found?.columns.indexOf(column) ?? -1;
  if (found === undefined || across < 0) throw new Error(`there is no ${table}[${column}]`);
  return {
    sheet: found.sheet,
    row: found.range.firstRow + row,
    column: found.range.firstColumn + across,
    value,
  };
}

/** Every filled row of a table to type in, by heading, with its place from 1. */
export function tableRows(
  model: WorkbookModel,
  table: string,
): readonly { readonly row: number; readonly cells: Readonly<Record<string, CellValue>> }[] {
  const found = model.tables.find(({ name }) => name === table);
  if (found === undefined) throw new Error(`there is no table ${table}`);
  const { range, columns, sheet } = found;
  const cells = cellsOf(model, model.sheets[sheet]?.name ?? "");
  return Array.from({ length: range.lastRow - range.firstRow }, (_, index) => ({
    row: index + 1,
    cells: Object.fromEntries(
      columns.map((head, across) => [
        head,
        cells.get(`${range.firstRow + 1 + index} ${range.firstColumn + across}`) ?? null,
      ]),
    ),
  })).filter(({ cells: row }) => Object.values(row).some((value) => value !== null));
}

/** The first row of a table without anything in it. */
export function blankRow(model: WorkbookModel, table: string): number {
  return Math.max(0, ...tableRows(model, table).map(({ row }) => row)) + 1;
}

/** The workbook after someone typed into it and it was computed again. */
export async function afterTyping(
  bytes: Uint8Array,
  changes: readonly CellChange[],
): Promise<{ readonly model: WorkbookModel; readonly result: RecalculatedWorkbook }> {
  const result = await recalculateWorkbook(openWorkbook(bytes).patched(changes), functions);
  return { model: openWorkbook(result.bytes).model, result };
}

/** Whether a cell shows an error. */
export const isError = (value: CellValue): boolean => typeof value === "object" && value !== null;
