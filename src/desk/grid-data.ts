import type { ICellData, IStyleData, IWorkbookData, IWorksheetData } from "@univerjs/core";
import { BooleanNumber, CellValueType, LocaleType } from "@univerjs/core";
import { type CellRange, parseRange, splitSheet } from "../formula/address";
import { DEFAULT_HEIGHT, DEFAULT_WIDTH, heightPixels, widthPixels } from "../workbook/cell-sizes";
import { FilledRanges } from "../workbook/filled-ranges";
import { fittedRows } from "../workbook/fitted-rows";
import type { CellValue, SheetModel, WorkbookModel } from "../workbook/model";
import { HEADING_FILL, HEADING_INK, headingCells } from "../workbook/table-headings";
import { gridStyle, inkAndFill } from "./grid-style";

/** Empty rows and columns offered beyond what the sheet holds. */
const SPARE_ROWS = 200;
const SPARE_COLUMNS = 12;
const LEAST_COLUMNS = 26;

/** The id of a worksheet in the grid, by its position among the workbook's worksheets. */
export function sheetId(sheet: number): string {
  return `sheet-${sheet}`;
}

/** The position that `sheetId` was made from. */
export function sheetOf(id: string): number {
  return Number(id.slice("sheet-".length));
}

/** A value as a grid cell shows it. */
export function gridValue(value: CellValue): Pick<ICellData, "v" | "t"> {
  if (value === null) return { v: null, t: null };
  if (typeof value === "number") return { v: value, t: CellValueType.NUMBER };
  if (typeof value === "boolean") return { v: value ? 1 : 0, t: CellValueType.BOOLEAN };
  return { v: typeof value === "string" ? value : value.error, t: CellValueType.STRING };
}

/** A number format as Excel writes it: the grid's own date patterns have capital months. */
export function fileFormat(pattern: string): string {
  return pattern.replace(/"[^"]*"|\\.|\[[^\]]*\]|AM\/PM|A\/P|M+/gi, (part) =>
    /^M+$/.test(part) ? part.toLowerCase() : part,
  );
}

/** Cells that a formula elsewhere fills: their values belong to that formula. */
function filledBy(sheet: SheetModel): FilledRanges {
  const ranges: CellRange[] = [];
  for (const { formula } of sheet.cells)
    if (formula?.range !== undefined && formula.kind !== "normal") ranges.push(formula.range);
  return new FilledRanges(ranges);
}

function gridSheet(
  model: WorkbookModel,
  position: number,
  sheet: SheetModel,
  typed: (formula: string) => string,
): IWorksheetData {
  const cellData: Record<number, Record<number, ICellData>> = {};
  const filled = filledBy(sheet);
  const headers = headingCells(model.tables.filter((table) => table.sheet === position));
  const styles = model.styles.map((_, style) => String(style));
  let [rows, columns] = [0, 0];
  for (const { row, column, value, formula, style } of sheet.cells) {
    rows = Math.max(rows, row + 1);
    columns = Math.max(columns, column + 1);
    const isHeader =
      headers.size > 0 && headers.has(`${row},${column}`) && model.styles[style]?.fill === undefined;
    const isShown = value !== null && (formula !== undefined || !filled.has(row, column));
    const data: ICellData = isShown ? gridValue(value) : {};
    if (formula) data.f = `=${typed(formula.text)}`;
    data.s = isHeader ? `header-${style}` : (styles[style] ?? String(style));
    (cellData[row] ??= {})[column] = data;
  }
  const columnData: Record<number, { w?: number; hd?: BooleanNumber }> = {};
  for (const [column, width] of sheet.columnWidths) columnData[column] = { w: widthPixels(width) };
  for (const column of sheet.hiddenColumns)
    columnData[column] = { ...columnData[column], hd: BooleanNumber.TRUE };
  const rowData: Record<number, { h?: number; ia?: BooleanNumber; hd?: BooleanNumber }> = {};
  for (const [row, height] of sheet.rowHeights) {
    rowData[row] = { h: heightPixels(height), ia: BooleanNumber.FALSE };
  }
  for (const [row, height] of fittedRows(sheet, model.styles))
    rowData[row] = { h: height, ia: BooleanNumber.FALSE };
  for (const row of sheet.hiddenRows) rowData[row] = { ...rowData[row], hd: BooleanNumber.TRUE };
  return {
    id: sheetId(position),
    name: sheet.name,
    tabColor: "",
    hidden: sheet.state === "visible" ? BooleanNumber.FALSE : BooleanNumber.TRUE,
    freeze: {
      xSplit: sheet.frozenColumns,
      ySplit: sheet.frozenRows,
      startRow: sheet.frozenRows === 0 ? -1 : sheet.frozenRows,
      startColumn: sheet.frozenColumns === 0 ? -1 : sheet.frozenColumns,
    },
    rowCount: rows + SPARE_ROWS,
    columnCount: Math.max(columns + SPARE_COLUMNS, LEAST_COLUMNS),
    zoomRatio: 1,
    scrollTop: 0,
    scrollLeft: 0,
    defaultColumnWidth: DEFAULT_WIDTH,
    defaultRowHeight: DEFAULT_HEIGHT,
    mergeData: sheet.merges.map((range) => ({
      startRow: range.firstRow,
      endRow: range.lastRow,
      startColumn: range.firstColumn,
      endColumn: range.lastColumn,
    })),
    cellData,
    rowData,
    columnData,
    rowHeader: { width: 46 },
    columnHeader: { height: 20 },
    showGridlines: sheet.showGridLines ? BooleanNumber.TRUE : BooleanNumber.FALSE,
    rightToLeft: BooleanNumber.FALSE,
  };
}

/** The workbook's names, to jump to and to be offered while a formula is typed. */
function gridNames(model: WorkbookModel, typed: (formula: string) => string): Record<string, object> {
  const shown = model.names.filter(({ name, isHidden }) => !isHidden && !name.startsWith("_xlnm"));
  return Object.fromEntries(
    shown.map(({ name, text, sheet }, index) => {
      const id = `name-${index}`;
      const isReference = parseRange(splitSheet(text).rest) !== undefined;
      const localSheetId = sheet === undefined ? "AllDefaultWorkbook" : sheetId(sheet);
      return [id, { id, name, localSheetId, formulaOrRefString: isReference ? text : `=${typed(text)}` }];
    }),
  );
}

/** A workbook as the grid takes it; `typed` turns a formula of the file into what a person types. */
export function gridWorkbook(
  model: WorkbookModel,
  id: string,
  name: string,
  typed: (formula: string) => string,
): IWorkbookData {
  const styles: Record<string, IStyleData> = {};
  for (const [index, style] of model.styles.entries()) {
    const look = gridStyle(style);
    styles[String(index)] = look;
    styles[`header-${index}`] = {
      ...look,
      bl: BooleanNumber.TRUE,
      ...inkAndFill(HEADING_INK, HEADING_FILL),
    };
  }
  const [{ fontName, fontSize } = {}] = model.styles;
  const font = { ...(fontName !== undefined && { fontName }), ...(fontSize !== undefined && { fontSize }) };
  // A cell that the file does not have looks as one without a look of its own, as in Excel.
  const defaultStyle = gridStyle({ numberFormat: "General", ...font });
  const sheets = model.sheets.map((sheet, position) => ({
    ...gridSheet(model, position, sheet, typed),
    defaultStyle,
  }));
  return {
    id,
    name,
    appVersion: "0.25.1",
    locale: LocaleType.EN_US,
    styles,
    sheetOrder: sheets.map((sheet) => sheet.id),
    resources: [{ name: "SHEET_DEFINED_NAME_PLUGIN", data: JSON.stringify(gridNames(model, typed)) }],
    sheets: Object.fromEntries(sheets.map((sheet) => [sheet.id, sheet])),
  };
}
