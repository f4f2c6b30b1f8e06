import { oursTest } from "../formula/ours";
import { healedTypedFormula } from "../formula/heal";
import type { CellRange } from "../formula/address";
import { cellKey, type SheetArea, type SheetCell } from "../formula/scope";
import type { CellInput, CellRows, Outline, SheetHost } from "./sheet-host";

// One answer of Excel on the web is limited to 5 MB; formulas and values of so many cells stay well below.
const MOST_CELLS_AT_ONCE = 10_000;
const MOST_SPILLS_AT_ONCE = 200;

/** Tells how far a long piece of work is, 0 to 1. */
export type Progress = (share: number) => void;

/** A cell with a formula. */
export interface ReadFormula extends SheetCell {
  readonly formula: string;
  readonly value: CellInput;
  /** True where the formula uses a function of ours, by itself or through a name. */
  readonly isOurs: boolean;
}

interface SheetCells {
  readonly range: CellRange;
  readonly rows: CellInput[][];
}

/** Keeps an area such as `B:B` or `3:9` within what its sheet holds; one row or column of it stays. */
export function withinUsed(outline: Outline, { sheet, range }: SheetArea): SheetArea {
  const used = outline.sheets.find(({ name }) => name === sheet)?.used;
  const lastRow = Math.max(range.firstRow, Math.min(range.lastRow, used?.lastRow ?? 0));
  const lastColumn = Math.max(range.firstColumn, Math.min(range.lastColumn, used?.lastColumn ?? 0));
  return { sheet, range: { ...range, lastRow, lastColumn } };
}

/** All cells of a workbook as they were at one moment. */
export class Contents {
  constructor(
    readonly outline: Outline,
    private readonly sheets: ReadonlyMap<string, SheetCells>,
    /** Cells with formulas, sheet by sheet, row by row. */
    readonly formulas: readonly ReadFormula[],
    /** What a formula fills beyond its own cell, by the key of that cell. */
    readonly spills: ReadonlyMap<string, CellRange>,
  ) {}

  value({ sheet, row, column }: SheetCell): CellInput {
    const cells = this.sheets.get(sheet);
    return cells?.rows[row - cells.range.firstRow]?.[column - cells.range.firstColumn] ?? "";
  }

  rows({ sheet, range }: SheetArea): CellRows {
    return Array.from({ length: range.lastRow - range.firstRow + 1 }, (_, down) =>
      Array.from({ length: range.lastColumn - range.firstColumn + 1 }, (__, across) =>
        this.value({ sheet, row: range.firstRow + down, column: range.firstColumn + across }),
      ),
    );
  }

  get ours(): readonly ReadFormula[] {
    return this.formulas.filter(({ isOurs }) => isOurs);
  }

  /** What a formula of ours fills: its spill, else its own cell. */
  filled(cell: SheetCell): CellRange {
    const { row, column } = cell;
    return (
      this.spills.get(cellKey(cell)) ?? {
        firstRow: row,
        firstColumn: column,
        lastRow: row,
        lastColumn: column,
      }
    );
  }
}

/** True for a formula; text that only looks like one shows itself. */
export function isFormula(content: CellInput | undefined, value: CellInput | undefined): content is string {
  return typeof content === "string" && content.length > 1 && content.startsWith("=") && content !== value;
}

/** Cuts a rectangle into blocks of whole rows, or of parts of rows where one row is too long. */
export function blocksOf(range: CellRange, mostCells = MOST_CELLS_AT_ONCE): readonly CellRange[] {
  const width = Math.min(mostCells, range.lastColumn - range.firstColumn + 1);
  const height = Math.max(1, Math.floor(mostCells / width));
  const blocks: CellRange[] = [];
  for (let firstRow = range.firstRow; firstRow <= range.lastRow; firstRow += height) {
    const lastRow = Math.min(range.lastRow, firstRow + height - 1);
    for (let firstColumn = range.firstColumn; firstColumn <= range.lastColumn; firstColumn += width) {
      blocks.push({
        firstRow,
        firstColumn,
        lastRow,
        lastColumn: Math.min(range.lastColumn, firstColumn + width - 1),
      });
    }
  }
  return blocks;
}

/** Cuts a list into parts of at most so many entries. */
export function partsOf<Entry>(entries: readonly Entry[], most: number): readonly (readonly Entry[])[] {
  return Array.from({ length: Math.ceil(entries.length / most) }, (_, index) =>
    entries.slice(index * most, (index + 1) * most),
  );
}

/** Rejects with `signal.reason` once a person has stopped the work. */
export async function readContents(
  host: SheetHost,
  onProgress: Progress,
  signal?: AbortSignal,
): Promise<Contents> {
  const outline = await host.outline();
  const areas = outline.sheets.flatMap(({ name, used }) =>
    used === undefined ? [] : blocksOf(used).map((range): SheetArea => ({ sheet: name, range })),
  );
  const sheets = new Map<string, SheetCells>(
    outline.sheets.flatMap(({ name, used }) =>
      used === undefined ? [] : [[name, { range: used, rows: [] }]],
    ),
  );
  const usesOurs = oursTest(outline);
  const found: ReadFormula[] = [];
  // Block by block: one answer for a whole workbook is more than Excel gives.
  for (const [done, area] of areas.entries()) {
    signal?.throwIfAborted();
    const [block = { formulas: [], values: [] }] = await host.read([area]);
    const { formulas, values } = block;
    const cells = sheets.get(area.sheet);
    values.forEach((row, down) => {
      if (cells) (cells.rows[area.range.firstRow - cells.range.firstRow + down] ??= []).push(...row);
      row.forEach((value, across) => {
        const formula = formulas[down]?.[across];
        if (!isFormula(formula, value)) return;
        const place = {
          sheet: area.sheet,
          row: area.range.firstRow + down,
          column: area.range.firstColumn + across,
        };
        found.push({
          ...place,
          formula,
          value,
          isOurs: usesOurs(healedTypedFormula(formula.slice(1)), area.sheet),
        });
      });
    });
    onProgress((0.9 * (done + 1)) / areas.length);
  }
  // A formula with a # may fill cells from what ours fills.
  const filling = found.filter((cell) => cell.isOurs || cell.formula.includes("#"));
  const spills = new Map<string, CellRange>();
  const children = new Set<string>();
  for (const part of partsOf(filling, MOST_SPILLS_AT_ONCE)) {
    signal?.throwIfAborted();
    const ranges = await host.spills(part);
    part.forEach((cell, index) => {
      const range = ranges[index];
      if (range === undefined) children.add(cellKey(cell));
      else if (range.lastRow > range.firstRow || range.lastColumn > range.firstColumn)
        spills.set(cellKey(cell), range);
    });
  }
  onProgress(1);
  const formulas = found.filter((cell) => !children.has(cellKey(cell)));
  return new Contents(outline, sheets, formulas, spills);
}
