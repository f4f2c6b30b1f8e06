import {
  cellAddress,
  type CellPosition,
  type CellRange,
  columnIndex,
  contains,
  parseCell,
  parseRange,
  rangeAddress,
} from "../formula/address";
import { checkContent, formulaMarkup, valueMarkup } from "./cell-markup";
import { argb, type StyleTable } from "./create-styles";
import { type CellFormula, type CellStyle, type CellValue, WorkbookError } from "./model";
import { NAMESPACES } from "./namespaces";
import { escapeAttribute, escapeText, PLAIN, XML_DECLARATION } from "./xml";

/** A cell to be written. A formula has no equals sign and carries its value with it. */
export interface NewCell {
  readonly value?: CellValue;
  readonly formula?: string | CellFormula;
  readonly style?: Partial<CellStyle>;
}

/** How a sheet prints. Without `fit` it prints at full size. */
export interface PageSetup {
  readonly orientation: "portrait" | "landscape";
  /** Pages across and down; 0 leaves that direction free. */
  readonly fit?: { readonly wide: number; readonly tall: number };
  /** Range such as `A1:F40`. */
  readonly printArea?: string;
  /** Rows such as `1:3` that every page repeats. */
  readonly repeatedRows?: string;
  /** Paper number: 9 is A4, 1 is US Letter. */
  readonly paper?: number;
}

/** A table (list object) over cells that the sheet describes; the texts of its first row name the columns. */
export interface NewTable {
  readonly name: string;
  readonly range: string;
  /** One of Excel's table styles, such as `TableStyleLight9`. */
  readonly style?: string;
}

/** A list from which a cell is chosen: fixed words, or a formula such as `Palettes!$A$2:$A$9`. */
export interface NewChoice {
  readonly range: string;
  readonly from: readonly string[] | string;
  /** Shown where another value is typed. Absent, any value may be typed. */
  readonly refusal?: string;
}

/** A sheet to be written; cells and notes by address, widths by column letters, heights by row number from 1. */
export interface SheetDescription {
  readonly name: string;
  readonly state?: "visible" | "hidden" | "veryHidden";
  readonly cells: Readonly<Record<string, NewCell>>;
  readonly columnWidths?: Readonly<Record<string, number>>;
  readonly rowHeights?: Readonly<Record<number, number>>;
  readonly merges?: readonly string[];
  readonly frozen?: { readonly rows: number; readonly columns: number };
  readonly tables?: readonly NewTable[];
  readonly notes?: Readonly<Record<string, string>>;
  /** `#rrggbb`. */
  readonly tabColor?: string;
  readonly choices?: readonly NewChoice[];
  readonly page?: PageSetup;
  readonly showGridLines?: boolean;
  readonly zoom?: number;
}

/** What a sheet's markup needs from the workbook around it. */
export interface SheetSurroundings {
  readonly styles: StyleTable;
  readonly dynamicMark: () => number;
  readonly stringIndex: (text: string) => number;
  readonly isFirst: boolean;
  /** Ids of the links to the notes' drawing and to the tables. */
  readonly drawingLink: string | undefined;
  readonly tableLinks: readonly string[];
}

interface PlacedCell extends CellPosition {
  readonly cell: NewCell;
}

/** The part of one sheet. Throws WorkbookError for addresses and contents that a sheet cannot hold. */
export function sheetMarkup(sheet: SheetDescription, around: SheetSurroundings): string {
  const cells = placeCells(sheet);
  const linked = (name: string, id: string): string => PLAIN.wrap(name, `r:id="${id}"`, "");
  const merges = (sheet.merges ?? []).map((merge) => {
    return PLAIN.wrap("mergeCell", `ref="${rangeAddress(rangeOnSheet(sheet, merge))}"`, "");
  });
  const choices = (sheet.choices ?? []).map((choice) => choiceMarkup(sheet, choice));
  const tables = around.tableLinks.map((id) => linked("tablePart", id));
  // The order is the schema's: Excel refuses any other.
  const content = [
    propertiesMarkup(sheet),
    PLAIN.wrap("dimension", `ref="${rangeAddress(usedRange(cells))}"`, ""),
    viewMarkup(sheet, around.isFirst),
    PLAIN.wrap("sheetFormatPr", 'defaultRowHeight="15"', ""),
    columnsMarkup(sheet),
    PLAIN.wrap("sheetData", "", rowsMarkup(sheet, cells, around)),
    listMarkup("mergeCells", merges),
    listMarkup("dataValidations", choices),
    PLAIN.wrap("pageMargins", 'left="0.5" right="0.5" top="0.6" bottom="0.6" header="0.3" footer="0.3"', ""),
    pageMarkup(sheet.page),
    around.drawingLink === undefined ? "" : linked("legacyDrawing", around.drawingLink),
    listMarkup("tableParts", tables),
  ];
  const namespaces = `xmlns="${NAMESPACES.main}" xmlns:r="${NAMESPACES.relationships}"`;
  return XML_DECLARATION + PLAIN.wrap("worksheet", namespaces, content.join(""));
}

/** The place of an address on a sheet to be written. Throws WorkbookError for a text that is none. */
export function placeIn(sheet: SheetDescription, address: string): CellPosition {
  const place = parseCell(address);
  if (place === undefined) throw new WorkbookError(`"${address}" on sheet "${sheet.name}" is no cell`);
  return place;
}

/** The range of a text on a sheet to be written. Throws WorkbookError for a text that is none. */
export function rangeOnSheet(sheet: SheetDescription, text: string): CellRange {
  const range = parseRange(text);
  if (range === undefined) throw new WorkbookError(`"${text}" on sheet "${sheet.name}" is no range`);
  return range;
}

function placeCells(sheet: SheetDescription): readonly PlacedCell[] {
  return Object.entries(sheet.cells)
    .map(([address, cell]) => ({ ...placeIn(sheet, address), cell }))
    .sort((a, b) => a.row - b.row || a.column - b.column);
}

function usedRange(cells: readonly PlacedCell[]): CellRange {
  const rows = cells.map((cell) => cell.row);
  const columns = cells.map((cell) => cell.column);
  const least = (values: readonly number[]): number =>
    values.reduce((a, b) => Math.min(a, b), values[0] ?? 0);
  const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), 0);
  return {
    firstRow: least(rows),
    firstColumn: least(columns),
    lastRow: most(rows),
    lastColumn: most(columns),
  };
}

function propertiesMarkup(sheet: SheetDescription): string {
  const content = [
    sheet.tabColor === undefined ? "" : PLAIN.wrap("tabColor", `rgb="${argb(sheet.tabColor)}"`, ""),
    sheet.page?.fit === undefined ? "" : PLAIN.wrap("pageSetUpPr", 'fitToPage="1"', ""),
  ].join("");
  return content === "" ? "" : PLAIN.wrap("sheetPr", "", content);
}

function viewMarkup(sheet: SheetDescription, isFirst: boolean): string {
  const attributes = [
    ...(sheet.showGridLines === false ? ['showGridLines="0"'] : []),
    ...(isFirst ? ['tabSelected="1"'] : []),
    ...(sheet.zoom === undefined ? [] : [`zoomScale="${String(sheet.zoom)}"`]),
    'workbookViewId="0"',
  ];
  const { rows = 0, columns = 0 } = sheet.frozen ?? {};
  const pane = columns === 0 ? "bottomLeft" : rows === 0 ? "topRight" : "bottomRight";
  const splits = [
    ...(columns === 0 ? [] : [`xSplit="${String(columns)}"`]),
    ...(rows === 0 ? [] : [`ySplit="${String(rows)}"`]),
    `topLeftCell="${cellAddress(rows, columns)}" activePane="${pane}" state="frozen"`,
  ];
  const frozen =
    rows + columns === 0
      ? ""
      : PLAIN.wrap("pane", splits.join(" "), "") + PLAIN.wrap("selection", `pane="${pane}"`, "");
  return PLAIN.wrap("sheetViews", "", PLAIN.wrap("sheetView", attributes.join(" "), frozen));
}

function columnsMarkup(sheet: SheetDescription): string {
  const columns = Object.entries(sheet.columnWidths ?? {}).map(([letters, width]) => {
    const column = columnIndex(letters);
    if (column === undefined) throw new WorkbookError(`"${letters}" on sheet "${sheet.name}" is no column`);
    return { number: String(column + 1), column, width };
  });
  const markup = columns
    .sort((a, b) => a.column - b.column)
    .map(({ number, width }) => {
      return PLAIN.wrap(
        "col",
        `min="${number}" max="${number}" width="${String(width)}" customWidth="1"`,
        "",
      );
    });
  return markup.length === 0 ? "" : PLAIN.wrap("cols", "", markup.join(""));
}

function rowsMarkup(
  sheet: SheetDescription,
  cells: readonly PlacedCell[],
  around: SheetSurroundings,
): string {
  const heights = new Map(
    Object.entries(sheet.rowHeights ?? {}).map(([row, height]) => [Number(row) - 1, height]),
  );
  const arrays = cells.flatMap(({ cell }) => {
    return typeof cell.formula === "object" && cell.formula.range !== undefined ? [cell.formula.range] : [];
  });
  const byRow = new Map<number, string>([...heights.keys()].map((row) => [row, ""]));
  for (const placed of cells) {
    const isSpilled = arrays.some((range) => contains(range, placed.row, placed.column));
    const markup = cellMarkup(sheet, placed, isSpilled, around);
    byRow.set(placed.row, (byRow.get(placed.row) ?? "") + markup);
  }
  return [...byRow]
    .sort(([a], [b]) => a - b)
    .map(([row, content]) => {
      const height = heights.get(row);
      const tall = height === undefined ? "" : ` ht="${String(height)}" customHeight="1"`;
      return PLAIN.wrap("row", `r="${String(row + 1)}"${tall}`, content);
    })
    .join("");
}

function cellMarkup(
  sheet: SheetDescription,
  { cell, ...place }: PlacedCell,
  isSpilled: boolean,
  around: SheetSurroundings,
): string {
  const value = cell.value ?? null;
  const formula: CellFormula | undefined =
    typeof cell.formula === "string" ? { text: cell.formula, kind: "normal" } : cell.formula;
  checkContent(sheet.name, place, { value, ...(formula === undefined ? {} : { formula }) });
  const style = around.styles.add(cell.style ?? {});
  const isConstantText = typeof value === "string" && formula === undefined && !isSpilled;
  const { type, markup } = isConstantText
    ? { type: "s", markup: PLAIN.wrap("v", "", String(around.stringIndex(value))) }
    : valueMarkup(PLAIN, value, true);
  const attributes = [
    `r="${cellAddress(place.row, place.column)}"`,
    ...(style === 0 ? [] : [`s="${String(style)}"`]),
    ...(type === null ? [] : [`t="${type}"`]),
    ...(formula?.kind === "dynamic" ? [`cm="${String(around.dynamicMark())}"`] : []),
  ];
  return PLAIN.wrap("c", attributes.join(" "), formulaMarkup(PLAIN, place, formula) + markup);
}

function choiceMarkup(sheet: SheetDescription, choice: NewChoice): string {
  const words = typeof choice.from === "string" ? undefined : choice.from;
  if (words?.some((word) => word.includes(",")) === true || (words?.join(",").length ?? 0) > 255) {
    throw new WorkbookError(`the choices for ${choice.range} of sheet "${sheet.name}" do not fit in a list`);
  }
  const source = words === undefined ? String(choice.from) : `"${words.join(",").replaceAll('"', '""')}"`;
  const refusal =
    choice.refusal === undefined ? "" : ` showErrorMessage="1" error="${escapeAttribute(choice.refusal)}"`;
  const attributes = `type="list" allowBlank="1"${refusal} sqref="${rangeAddress(rangeOnSheet(sheet, choice.range))}"`;
  return PLAIN.wrap("dataValidation", attributes, PLAIN.wrap("formula1", "", escapeText(source)));
}

function pageMarkup(page: PageSetup | undefined): string {
  if (page === undefined) return "";
  const { fit, orientation, paper } = page;
  const attributes = [
    ...(paper === undefined ? [] : [`paperSize="${String(paper)}"`]),
    ...(fit === undefined ? [] : [`fitToWidth="${String(fit.wide)}" fitToHeight="${String(fit.tall)}"`]),
    `orientation="${orientation}"`,
  ];
  return PLAIN.wrap("pageSetup", attributes.join(" "), "");
}

function listMarkup(name: string, items: readonly string[]): string {
  return items.length === 0 ? "" : PLAIN.wrap(name, `count="${String(items.length)}"`, items.join(""));
}
