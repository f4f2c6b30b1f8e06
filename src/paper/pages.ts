import type { CellRange } from "../formula/address";
import { cellFinder } from "../workbook/cell-finder";
import { DEFAULT_HEIGHT, DEFAULT_WIDTH, heightPixels, widthPixels } from "../workbook/cell-sizes";
import { FilledRanges } from "../workbook/filled-ranges";
import { fittedRows } from "../workbook/fitted-rows";
import { type SheetModel, type WorkbookCell, WorkbookError, type WorkbookModel } from "../workbook/model";
import type { PrintSetup } from "../workbook/print-setup";

/** Cells of one paper, beyond which nobody means to print them. */
const MOST_CELLS = 200_000;
/** Rows that texts may still push apart when they are laid out, as a share of what was reckoned. */
const SPARE_HEIGHT = 0.97;

/** Cells that follow each other, with the rows and columns that every page of them repeats. */
export interface PrintedBlock {
  readonly headRows: readonly number[];
  readonly rows: readonly number[];
  readonly columns: readonly number[];
  /** Whether it begins on a page of its own. */
  readonly beginsPage: boolean;
}

/** A sheet cut into what follows on paper. */
export interface SheetPages {
  readonly blocks: readonly PrintedBlock[];
  /** Share of the full size. */
  readonly scale: number;
  /** Pixels at full size; rows without a height of their own are fitted to their texts. */
  width(column: number): number;
  height(row: number): number;
  cell(row: number, column: number): WorkbookCell | undefined;
}

function numbers(first: number, last: number): readonly number[] {
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
}

/** From A1 to the last cell that shows something. */
function filledRange({ cells, merges }: SheetModel, styles: WorkbookModel["styles"]): CellRange | undefined {
  let [lastRow, lastColumn] = [-1, -1];
  const merged = new FilledRanges(merges);
  for (const { row, column, value, style } of cells) {
    const look = styles[style];
    if ((value === null || value === "") && look?.fill === undefined && look?.borders === undefined) continue;
    const merge = merged
      .over(row, column)
      .find((range) => range.firstRow === row && range.firstColumn === column);
    lastRow = Math.max(lastRow, merge?.lastRow ?? row);
    lastColumn = Math.max(lastColumn, merge?.lastColumn ?? column);
  }
  return lastRow < 0 ? undefined : { firstRow: 0, firstColumn: 0, lastRow, lastColumn };
}

/** Cuts a list where one of the breaks begins anew, and where it would grow beyond `most`. */
function groups(
  list: readonly number[],
  breaks: readonly number[],
  size: (item: number) => number,
  most: number,
): readonly (readonly number[])[] {
  const found: number[][] = [];
  let used = 0;
  for (const [at, item] of list.entries()) {
    const before = list[at - 1];
    const isBroken = before !== undefined && breaks.some((start) => start > before && start <= item);
    if (at === 0 || isBroken || used + size(item) > most) {
      found.push([]);
      used = 0;
    }
    found.at(-1)?.push(item);
    used += size(item);
  }
  return found;
}

/** What of a sheet goes on paper, by its print settings. Throws WorkbookError for a sheet with nothing or too much to print. */
export function sheetPages(model: WorkbookModel, position: number, setup: PrintSetup): SheetPages {
  const sheet = model.sheets[position];
  const filled = sheet && filledRange(sheet, model.styles);
  if (!sheet || !filled) throw new WorkbookError(`the sheet "${sheet?.name ?? ""}" has nothing to print`);
  const cellAt = cellFinder(model);
  const fitted = fittedRows(sheet, model.styles);
  const width = (column: number): number => {
    const characters = sheet.columnWidths.get(column);
    return characters === undefined ? DEFAULT_WIDTH : widthPixels(characters);
  };
  const height = (row: number): number => {
    const points = sheet.rowHeights.get(row);
    return points === undefined ? (fitted.get(row) ?? DEFAULT_HEIGHT) : heightPixels(points);
  };
  const shown = {
    rows: (list: readonly number[]) => list.filter((row) => !sheet.hiddenRows.has(row)),
    columns: (list: readonly number[]) => list.filter((column) => !sheet.hiddenColumns.has(column)),
  };
  const areas = (setup.areas.length > 0 ? setup.areas : [filled]).map((area) => ({
    rows: shown.rows(numbers(area.firstRow, Math.min(area.lastRow, Math.max(filled.lastRow, area.firstRow)))),
    columns: shown.columns(
      numbers(area.firstColumn, Math.min(area.lastColumn, Math.max(filled.lastColumn, area.firstColumn))),
    ),
  }));
  if (areas.reduce((sum, { rows, columns }) => sum + rows.length * columns.length, 0) > MOST_CELLS)
    throw new WorkbookError(
      `the sheet "${sheet.name}" has more than ${String(MOST_CELLS)} cells to print; set a print area`,
    );
  const titles = {
    rows: shown.rows(
      setup.repeatedRows ? numbers(setup.repeatedRows.firstRow, setup.repeatedRows.lastRow) : [],
    ),
    columns: shown.columns(
      setup.repeatedColumns
        ? numbers(setup.repeatedColumns.firstColumn, setup.repeatedColumns.lastColumn)
        : [],
    ),
  };
  const sum = (list: readonly number[], size: (item: number) => number): number =>
    list.reduce((total, item) => total + size(item), 0);
  const room = pageRoom(setup);
  const scale = Math.min(
    ...areas.map(({ rows, columns }) => scaleOf(setup, room, sum(columns, width), sum(rows, height))),
  );
  // What has to fit goes before breaks.
  const isFitted = { wide: (setup.fit?.wide ?? 0) > 0, tall: (setup.fit?.tall ?? 0) > 0 };
  const blocks = areas.flatMap(({ rows, columns }) => {
    const total = sum(columns, width);
    // A pixel more, since shares are rounded.
    const most = room.width / scale + 1;
    const own = groups(
      columns,
      isFitted.wide ? [] : setup.columnBreaks,
      width,
      total <= most ? most : most - sum(titles.columns, width),
    );
    const runs = groups(rows, isFitted.tall ? [] : setup.rowBreaks, height, Infinity);
    return own.flatMap((group) => {
      const [first = 0] = group;
      const repeated = titles.columns.filter((column) => column < first && !group.includes(column));
      return runs.flatMap((run) => blocksOf(run, titles.rows, [...repeated, ...group]));
    });
  });
  return { blocks, scale, width, height, cell: (row, column) => cellAt(position, row, column) };
}

/** A run of rows that begins a page, in two blocks where the rows to repeat stand inside it. */
function blocksOf(
  run: readonly number[],
  titles: readonly number[],
  columns: readonly number[],
): readonly PrintedBlock[] {
  const [first = 0] = run;
  const [title = first] = titles;
  const before = run.filter((row) => row < title);
  if (before.length === run.length) return [{ headRows: [], rows: run, columns, beginsPage: true }];
  const rows = run.filter((row) => row >= title && !titles.includes(row));
  // On its first page a title stands where it is.
  const body = { headRows: titles, rows, columns, beginsPage: before.length === 0 };
  return before.length === 0 ? [body] : [{ headRows: [], rows: before, columns, beginsPage: true }, body];
}

/** Pixels that a page has for its cells. */
function pageRoom({ paper, margins }: PrintSetup): { readonly width: number; readonly height: number } {
  const pixels = (millimetres: number, inches: number): number => (millimetres / 25.4 - inches) * 96;
  return {
    width: Math.max(96, pixels(paper[0], margins.left + margins.right)),
    height: Math.max(96, pixels(paper[1], margins.top + margins.bottom)),
  };
}

function scaleOf(
  { fit, scale, leastScale }: PrintSetup,
  room: { readonly width: number; readonly height: number },
  width: number,
  height: number,
): number {
  if (!fit) return scale;
  const across = fit.wide === 0 ? 1 : (fit.wide * room.width) / width;
  const down = fit.tall === 0 ? 1 : (fit.tall * room.height * SPARE_HEIGHT) / height;
  return Math.max(leastScale, Math.min(1, across, down));
}
