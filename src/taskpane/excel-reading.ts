import type { CellRange } from "../formula/address";
import type { NameInfo, SheetArea, SheetCell, TableInfo } from "../formula/scope";
import { cellIn, cornersOf, rangeOfArea } from "./excel-batch";
import type { Block, Outline } from "./sheet-host";

function nameInfo(item: Excel.NamedItem, sheet?: string): NameInfo {
  const { name, formula } = item;
  return { name, reference: String(formula).replace(/^=/, ""), ...(sheet !== undefined && { sheet }) };
}

/** The decimal mark of this Excel. */
export async function decimalMark(context: Excel.RequestContext): Promise<string> {
  const { application } = context.workbook;
  application.load("decimalSeparator");
  await context.sync();
  return application.decimalSeparator;
}

/** Sheets, tables and names of the workbook. */
export async function outline(context: Excel.RequestContext): Promise<Outline> {
  const { worksheets, tables, names } = context.workbook;
  worksheets.load("items/name");
  tables.load("items/name,items/showHeaders,items/showTotals");
  names.load("items/name,items/formula");
  await context.sync();
  const sheets = worksheets.items.map((sheet) => {
    const used = sheet.getUsedRangeOrNullObject(true);
    used.load("rowIndex,columnIndex,rowCount,columnCount");
    sheet.protection.load("protected");
    sheet.names.load("items/name,items/formula");
    return { sheet, used };
  });
  const ranges = tables.items.map((table) => {
    const range = table.getRange();
    range.load("rowIndex,columnIndex,rowCount,columnCount");
    table.worksheet.load("name");
    table.columns.load("items/name");
    return { table, range };
  });
  await context.sync();
  return {
    sheets: sheets.map(({ sheet, used }) => ({
      name: sheet.name,
      isProtected: sheet.protection.protected,
      ...(!used.isNullObject && { used: cornersOf(used) }),
    })),
    tables: ranges.map(({ table, range }): TableInfo => ({
      name: table.name,
      sheet: table.worksheet.name,
      range: cornersOf(range),
      columns: table.columns.items.map(({ name }) => name),
      headerRows: table.showHeaders ? 1 : 0,
      totalsRows: table.showTotals ? 1 : 0,
    })),
    names: [
      ...names.items.map((item) => nameInfo(item)),
      ...sheets.flatMap(({ sheet }) => sheet.names.items.map((item) => nameInfo(item, sheet.name))),
    ],
  };
}

/** Formulas and values of areas. */
export async function read(
  context: Excel.RequestContext,
  areas: readonly SheetArea[],
): Promise<readonly Block[]> {
  const ranges = areas.map((area) => {
    const range = rangeOfArea(context, area);
    range.load("formulas,values");
    return range;
  });
  await context.sync();
  return ranges.map(({ formulas, values }) => ({ formulas, values }) as Block);
}

/** Where the results of cells spill; undefined for a cell that another spills into. */
export async function spills(
  context: Excel.RequestContext,
  cells: readonly SheetCell[],
): Promise<readonly (CellRange | undefined)[]> {
  const found = cells.map((place) => {
    const cell = cellIn(context, place);
    const spill = cell.getSpillingToRangeOrNullObject();
    spill.load("rowIndex,columnIndex,rowCount,columnCount");
    const parent = cell.getSpillParentOrNullObject();
    parent.load("rowIndex,columnIndex,rowCount,columnCount");
    return { place, spill, parent };
  });
  await context.sync();
  return found.map(({ place: { row, column }, spill, parent }) => {
    if (!spill.isNullObject) return cornersOf(spill);
    const isOther = !parent.isNullObject && (parent.rowIndex !== row || parent.columnIndex !== column);
    return isOther ? undefined : { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
  });
}

/** The cells that are selected, the first area of several. */
export async function selection(context: Excel.RequestContext): Promise<SheetArea> {
  // Several areas may be selected; a plain getSelectedRange would then fail.
  const first = context.workbook.getSelectedRanges().areas.getItemAt(0);
  first.load("rowIndex,columnIndex,rowCount,columnCount");
  const sheet = context.workbook.worksheets.getActiveWorksheet();
  sheet.load("name");
  await context.sync();
  return { sheet: sheet.name, range: cornersOf(first) };
}

/** The filled cells around a cell. */
export async function surrounding(context: Excel.RequestContext, cell: SheetCell): Promise<CellRange> {
  const region = cellIn(context, cell).getSurroundingRegion();
  region.load("rowIndex,columnIndex,rowCount,columnCount");
  await context.sync();
  return cornersOf(region);
}

/** Fill colours of cells, row by row. */
export async function fillColours(
  context: Excel.RequestContext,
  area: SheetArea,
): Promise<readonly string[]> {
  const cells = rangeOfArea(context, area).getCellProperties({ format: { fill: { color: true } } });
  await context.sync();
  return cells.value.flat().map((cell) => cell.format?.fill?.color ?? "");
}

/** Why cells cannot be written one by one. */
export async function obstacles(context: Excel.RequestContext, area: SheetArea): Promise<readonly string[]> {
  const range = rangeOfArea(context, area);
  range.load("rowHidden");
  const merged = range.getMergedAreasOrNullObject();
  merged.load("address");
  await context.sync();
  // It is null where only some of the rows are hidden.
  const isHidden = (range.rowHidden as boolean | null) !== false;
  return [
    ...(isHidden ? ["some of its rows are hidden, by a filter or by hand: show all rows first"] : []),
    ...(merged.isNullObject ? [] : [`${merged.address} is merged: unmerge it first`]),
  ];
}
