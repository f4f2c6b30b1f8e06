import { type CellRange, MAX_COLUMNS, MAX_ROWS } from "../formula/address";
import type { CellValue } from "../workbook/model";
import type { CellSentence } from "./engine";
import { cellCount, mapRange, type SheetRange } from "./rectangles";
import type { CellOutcome, FormulaCell, Rows } from "./sheet-cells";
import type { Evaluated } from "./univer-formulas";
import { intersected } from "./value-cells";

/** Functions that give arrays of their own making: where one value is wanted, it is the first. */
const ARRAY_MAKERS = new Set(
  `BYCOL BYROW CHOOSE CHOOSECOLS CHOOSEROWS DROP EXPAND FILTER FREQUENCY GROWTH HSTACK INDEX INDIRECT LINEST LOGEST
  MAKEARRAY MAP MINVERSE MMULT MODE.MULT MUNIT OFFSET RANDARRAY REDUCE SCAN SEQUENCE SORT SORTBY TAKE TEXTSPLIT TOCOL
  TOROW TRANSPOSE TREND UNIQUE VSTACK WRAPCOLS WRAPROWS XLOOKUP`.split(/\s+/),
);

/** What a formula's result becomes in its own cell and the cells around it. */
export function placed(
  cell: FormulaCell,
  reads: () => readonly SheetRange[],
  evaluated: Evaluated,
  text: string,
  isBlocked: (area: CellRange) => boolean,
): CellOutcome {
  const { rows } = evaluated;
  const { formula, row, column } = cell;
  const height = rows.length;
  const width = rows[0]?.length ?? 0;
  const [value] = rows[0] ?? [];
  if (formula.kind === "array" && formula.range !== undefined) {
    const { range } = formula;
    const table = mapRange(range, (r, c) => filled(rows, r - row, c - column));
    const first = table[0]?.[0] ?? 0;
    return cellCount(range) === 1
      ? { value: first, ...sentencesIn(cell, evaluated, range) }
      : { value: first, area: range, table, ...sentencesIn(cell, evaluated, range) };
  }
  const own = { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
  if (height === 1 && width === 1) return { value: value ?? 0, ...sentencesIn(cell, evaluated, own) };
  if (formula.kind === "normal") {
    const one = oneValue(cell, reads(), evaluated, text) ?? 0;
    const isFirst = one === value;
    return { value: one, ...(isFirst ? sentencesIn(cell, evaluated, own) : {}) };
  }
  if (height === 0 || width === 0) return { value: { error: "#CALC!" } };
  const area = { ...own, lastRow: row + height - 1, lastColumn: column + width - 1 };
  if (area.lastRow >= MAX_ROWS || area.lastColumn >= MAX_COLUMNS || isBlocked(area)) {
    return { value: { error: "#SPILL!" }, blocked: area };
  }
  return {
    value: value ?? 0,
    area,
    table: rows.map((line) => line.map((item) => item ?? 0)),
    ...sentencesIn(cell, evaluated, area),
  };
}

/** The sentences of a result, by the cells of a sheet that show the errors. */
function sentencesIn(
  { row, column }: FormulaCell,
  { sentences }: Evaluated,
  area: CellRange,
): { readonly sentences?: readonly CellSentence[] } {
  const shown = sentences
    .map((at) => ({ row: row + at.row, column: column + at.column, sentence: at.sentence }))
    .filter((at) => at.row <= area.lastRow && at.column <= area.lastColumn);
  return shown.length === 0 ? {} : { sentences: shown };
}

/** The single value of a formula that may not spill: what lies in the formula's row or column, else the first. */
function oneValue(
  cell: FormulaCell,
  reads: readonly SheetRange[],
  evaluated: Evaluated,
  text: string,
): CellValue {
  const { rows, reference, isSpread } = evaluated;
  const height = rows.length;
  const width = rows[0]?.length ?? 0;
  if (reference !== undefined) return intersected(rows, reference, cell);
  const maker = /^\+?([A-Z][A-Z0-9_.]*)\(/.exec(text)?.[1] ?? "";
  const isMade = ARRAY_MAKERS.has(maker) || (maker.startsWith("BLN_") && !isSpread);
  const source = reads.find((range) => {
    const isColumn = width === 1 && range.firstColumn === range.lastColumn;
    const isRow = height === 1 && range.firstRow === range.lastRow;
    return (
      (isColumn && range.lastRow - range.firstRow + 1 === height) ||
      (isRow && range.lastColumn - range.firstColumn + 1 === width)
    );
  });
  return intersected(rows, isMade ? undefined : source, cell);
}

/** A cell of an array formula's range: single rows and columns repeat, what the result lacks is `#N/A`. */
function filled(rows: Rows, row: number, column: number): CellValue {
  const line = rows.length === 1 ? rows[0] : rows[row];
  const value = line?.length === 1 ? line[0] : line?.[column];
  return value === undefined ? { error: "#N/A" } : (value ?? 0);
}
