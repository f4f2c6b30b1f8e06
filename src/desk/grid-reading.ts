import type { ICellData, IObjectMatrixPrimitiveType, IRange, Nullable, Workbook } from "@univerjs/core";
import { BooleanNumber, CellValueType, getPlainText, ObjectMatrix } from "@univerjs/core";
import type { CellRange } from "../formula/address";
import type { CellPlace } from "../sheet/engine";
import type { CellLook, LookChange } from "../workbook/cell-looks";
import { heightPoints, widthCharacters } from "../workbook/cell-sizes";
import { HEADING_FILL } from "../workbook/table-headings";
import type { LayoutChange } from "../workbook/sheet-layout";
import { fileFormat, sheetId, sheetOf } from "./grid-data";
import { lookOf, wholeStyle } from "./grid-style";
import type { WrittenCell } from "./grid-cells";
import type { Edit } from "./messages";
import type { TableSource } from "./table-view";

export type GridValue = number | string | boolean | null;
export type Matrix = IObjectMatrixPrimitiveType<Nullable<ICellData>>;

/** What a cell of the grid holds. */
export function valueOf({ p, v, t }: ICellData): GridValue {
  if (p) return getPlainText(p.body?.dataStream ?? "");
  if (v === undefined || v === null || v === "") return null;
  if (t === CellValueType.BOOLEAN) return v === 1 || v === "1" || v === true;
  return t === CellValueType.NUMBER ? Number(v) : String(v);
}

/** Reads what the grid's workbook holds in the file's terms. */
export class GridReading {
  constructor(
    private readonly workbook: Workbook,
    private readonly formulaAt: (row: number, column: number, subUnitId: string) => string | undefined,
  ) {}

  input(subUnitId: string, row: number, column: number): Edit["input"] {
    const cell = this.workbook.getSheetBySheetId(subUnitId)?.getCellRaw(row, column);
    if (!cell) return null;
    if (cell.f || cell.si) {
      const formula = this.formulaAt(row, column, subUnitId);
      if (formula) return { formula };
    }
    return valueOf(cell);
  }

  /** The cells that a change gives another content. */
  changedCells(subUnitId: string, changes: Matrix): readonly Edit[] {
    const edits: Edit[] = [];
    new ObjectMatrix(changes).forValue((row, column, change) => {
      const isFormatted =
        change?.s !== undefined && (typeof change.s !== "object" || !change.s || "n" in change.s);
      if (change && !isFormatted && !["v", "f", "si", "p"].some((key) => key in change)) return;
      const format = isFormatted ? this.formatOf(subUnitId, row, column) : undefined;
      const place = { sheet: sheetOf(subUnitId), row, column };
      const numberFormat = format !== undefined && { numberFormat: format };
      edits.push({ ...place, input: this.input(subUnitId, row, column), ...numberFormat });
    });
    return edits;
  }

  /** The cells of a range with their number format. */
  formattedCells(subUnitId: string, range: IRange): readonly Edit[] {
    return [...cellsOf(range)].map(([row, column]) => ({
      sheet: sheetOf(subUnitId),
      row,
      column,
      input: this.input(subUnitId, row, column),
      numberFormat: this.formatOf(subUnitId, row, column),
    }));
  }

  /** A cell's number format as the file writes it. */
  formatOf(subUnitId: string, row: number, column: number): string {
    return fileFormat(this.styleAt(subUnitId, row, column)?.n?.pattern ?? "General");
  }

  /** The looks of the cells that a change dresses; with `null` cells, of every cell of the change. */
  changedLooks(subUnitId: string, changes: Matrix): readonly LookChange[] {
    const looks: LookChange[] = [];
    new ObjectMatrix(changes).forValue((row, column, change) => {
      if (change && !("s" in change)) return;
      const { fill, ...look } = lookOf(this.styleAt(subUnitId, row, column));
      // The page draws headings of tables itself where the file leaves that to the table's style.
      const isOwnFill = fill !== undefined && fill !== HEADING_FILL;
      looks.push({ sheet: sheetOf(subUnitId), row, column, look: { ...look, ...(isOwnFill && { fill }) } });
    });
    return looks;
  }

  /** Widths, heights, hidden rows and columns of a range, and the panes of its sheet. */
  layout(subUnitId: string, ranges: readonly IRange[], what: "width" | "height" | "panes"): LayoutChange {
    const sheet = sheetOf(subUnitId);
    const cells = this.workbook.getSheetBySheetId(subUnitId);
    if (!cells) return { sheet };
    if (what === "panes") {
      const { xSplit, ySplit } = cells.getFreeze();
      return { sheet, frozen: { rows: ySplit, columns: xSplit } };
    }
    const sizes = new Map<number, number>();
    const hidden = new Map<number, boolean>();
    for (const range of ranges) {
      const [first, last] =
        what === "width" ? [range.startColumn, range.endColumn] : [range.startRow, range.endRow];
      for (let index = first; index <= last; index++) {
        const info =
          what === "width" ? cells.getColumnManager().getColumn(index) : cells.getRowManager().getRow(index);
        const size = info && ("w" in info ? info.w : "h" in info ? info.h : undefined);
        if (size !== undefined && size !== null)
          sizes.set(index, what === "width" ? widthCharacters(size) : heightPoints(size));
        hidden.set(index, info?.hd === BooleanNumber.TRUE);
      }
    }
    return what === "width"
      ? { sheet, columnWidths: sizes, hiddenColumns: hidden }
      : { sheet, rowHeights: sizes, hiddenRows: hidden };
  }

  /** The text that a cell shows, in its number format and as wide as it is. */
  text({ sheet, row, column }: CellPlace): string {
    const shown = this.workbook.getSheetBySheetId(sheetId(sheet))?.getCell(row, column);
    if (!shown) return "";
    if (shown.t === CellValueType.BOOLEAN) return valueOf(shown) === true ? "TRUE" : "FALSE";
    return shown.p ? String(valueOf(shown)) : String(shown.v ?? "");
  }

  /** The values that a rectangle shows, cut to the rows and columns that the grid has. */
  values(sheet: number, range: CellRange, filled: FilledCells): readonly (readonly GridValue[])[] {
    const cells = this.workbook.getSheetBySheetId(sheetId(sheet));
    if (!cells) return [];
    const lastRow = Math.min(range.lastRow, cells.getRowCount() - 1);
    const lastColumn = Math.min(range.lastColumn, cells.getColumnCount() - 1);
    const rows: GridValue[][] = [];
    for (let row = range.firstRow; row <= lastRow; row++) {
      const values: GridValue[] = [];
      for (let column = range.firstColumn; column <= lastColumn; column++) {
        const shown = filled[sheetId(sheet)]?.[row]?.[column] ?? cells.getCellRaw(row, column);
        values.push(shown ? valueOf(shown) : null);
      }
      rows.push(values);
    }
    return rows;
  }

  /** What a rectangle holds, formulas as they are typed, and how it looks. */
  inputs(sheet: number, range: CellRange): readonly (readonly WrittenCell[])[] {
    const id = sheetId(sheet);
    const rows: WrittenCell[][] = [];
    for (let row = range.firstRow; row <= range.lastRow; row++) {
      const cells: WrittenCell[] = [];
      for (let column = range.firstColumn; column <= range.lastColumn; column++) {
        const input = this.input(id, row, column);
        const content =
          typeof input === "object" && input !== null
            ? "formula" in input
              ? input.formula
              : input.error
            : input;
        const style = wholeStyle(this.styleAt(id, row, column));
        cells.push({ content, numberFormat: this.formatOf(id, row, column), style });
      }
      rows.push(cells);
    }
    return rows;
  }

  /** A sheet as rows and columns of texts, what formulas fill included. */
  table(sheet: number, filled: FilledCells): TableSource | undefined {
    const cells = this.workbook.getSheetBySheetId(sheetId(sheet));
    if (!cells) return undefined;
    const spilled = Object.entries(filled[sheetId(sheet)] ?? {});
    const spilledRows = spilled.map(([row]) => Number(row) + 1);
    const spilledColumns = spilled.flatMap(([, row]) => Object.keys(row).map((column) => Number(column) + 1));
    const most = (first: number, others: readonly number[]): number =>
      others.reduce((a, b) => Math.max(a, b), first);
    return {
      name: cells.getName(),
      sheet,
      rows: most(cells.getLastRowWithContent() + 1, spilledRows),
      columns: most(cells.getLastColumnWithContent() + 1, spilledColumns),
      text: (place) => this.text(place),
    };
  }

  /** The look of a cell. */
  look({ sheet, row, column }: CellPlace): CellLook {
    return lookOf(this.styleAt(sheetId(sheet), row, column));
  }

  private styleAt(
    subUnitId: string,
    row: number,
    column: number,
  ): ReturnType<ReturnType<Workbook["getStyles"]>["getStyleByCell"]> {
    const cell = this.workbook.getSheetBySheetId(subUnitId)?.getCellRaw(row, column);
    return this.workbook.getStyles().getStyleByCell(cell);
  }
}

/** What spilled formulas show, by sheet, row and column. */
export type FilledCells = Record<string, Record<number, Record<number, ICellData>>>;

function* cellsOf(range: IRange): Iterable<readonly [row: number, column: number]> {
  for (let row = range.startRow; row <= range.endRow; row++) {
    for (let column = range.startColumn; column <= range.endColumn; column++) yield [row, column];
  }
}
