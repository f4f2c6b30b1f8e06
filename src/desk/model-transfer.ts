import type { CellFormula, CellValue, SheetModel, WorkbookCell, WorkbookModel } from "../workbook/model";

// Copying hundreds of thousands of objects between the page and its worker holds both up for seconds; a few long arrays
// change hands at once.

/** Kinds of values in the order of their numbers. */
const KINDS = { blank: 0, number: 1, text: 2, yes: 3, no: 4, error: 5 } as const;

/** The cells of a sheet as columns of numbers. */
interface PackedCells {
  readonly rows: Int32Array<ArrayBuffer>;
  readonly columns: Int32Array<ArrayBuffer>;
  readonly styles: Int32Array<ArrayBuffer>;
  readonly kinds: Uint8Array<ArrayBuffer>;
  /** Numbers, and for texts and errors their places in `texts`. */
  readonly values: Float64Array<ArrayBuffer>;
  readonly texts: readonly string[];
  /** Places of the cells with formulas, and the formulas; one that is a text fills no range and is of the normal kind. */
  readonly formulaCells: Int32Array<ArrayBuffer>;
  readonly formulas: readonly (string | CellFormula)[];
  /** Places of the cells that are marked as filled. */
  readonly filled: Int32Array<ArrayBuffer>;
}

/** A workbook as it goes from the worker to the page. */
export interface PackedModel extends Omit<WorkbookModel, "sheets"> {
  readonly sheets: readonly (Omit<SheetModel, "cells"> & { readonly cells: PackedCells })[];
}

export function packModel(model: WorkbookModel): PackedModel {
  return { ...model, sheets: model.sheets.map((sheet) => ({ ...sheet, cells: packCells(sheet.cells) })) };
}

/** What of a packed workbook changes hands instead of being copied. */
export function transferred({ sheets }: PackedModel): readonly ArrayBuffer[] {
  return sheets.flatMap(({ cells }) =>
    [
      cells.rows,
      cells.columns,
      cells.styles,
      cells.kinds,
      cells.values,
      cells.formulaCells,
      cells.filled,
    ].map(({ buffer }) => buffer),
  );
}

export function unpackModel(model: PackedModel): WorkbookModel {
  return { ...model, sheets: model.sheets.map((sheet) => ({ ...sheet, cells: unpackCells(sheet.cells) })) };
}

function packCells(cells: readonly WorkbookCell[]): PackedCells {
  const { length } = cells;
  const rows = new Int32Array(length);
  const columns = new Int32Array(length);
  const styles = new Int32Array(length);
  const kinds = new Uint8Array(length);
  const values = new Float64Array(length);
  const places = new Map<string, number>();
  const placeOf = (text: string): number => {
    const known = places.get(text);
    if (known !== undefined) return known;
    places.set(text, places.size);
    return places.size - 1;
  };
  const formulaCells: number[] = [];
  const formulas: (string | CellFormula)[] = [];
  const filled: number[] = [];
  for (const [at, { row, column, style, value, formula, isFilled }] of cells.entries()) {
    rows[at] = row;
    columns[at] = column;
    styles[at] = style;
    kinds[at] = kindOf(value);
    if (typeof value === "number") values[at] = value;
    else if (typeof value === "string") values[at] = placeOf(value);
    else if (typeof value === "object" && value !== null) values[at] = placeOf(value.error);
    if (formula !== undefined) {
      formulaCells.push(at);
      const isPlain = formula.kind === "normal" && formula.range === undefined;
      formulas.push(isPlain ? formula.text : formula);
    }
    if (isFilled) filled.push(at);
  }
  return {
    rows,
    columns,
    styles,
    kinds,
    values,
    texts: [...places.keys()],
    formulaCells: Int32Array.from(formulaCells),
    formulas,
    filled: Int32Array.from(filled),
  };
}

function kindOf(value: CellValue): number {
  if (value === null) return KINDS.blank;
  if (typeof value === "number") return KINDS.number;
  if (typeof value === "string") return KINDS.text;
  if (typeof value === "boolean") return value ? KINDS.yes : KINDS.no;
  return KINDS.error;
}

function unpackCells(packed: PackedCells): readonly WorkbookCell[] {
  const { rows, columns, styles, kinds, values, texts, formulaCells, formulas, filled } = packed;
  const valueAt = (at: number): CellValue => {
    const number = values[at] ?? 0;
    switch (kinds[at]) {
      case KINDS.number:
        return number;
      case KINDS.text:
        return texts[number] ?? "";
      case KINDS.yes:
        return true;
      case KINDS.no:
        return false;
      case KINDS.error:
        return { error: texts[number] ?? "" };
      default:
        return null;
    }
  };
  const cells: WorkbookCell[] = [];
  for (let at = 0; at < rows.length; at++) {
    cells.push({
      row: rows[at] ?? 0,
      column: columns[at] ?? 0,
      value: valueAt(at),
      style: styles[at] ?? 0,
    });
  }
  const add = (at: number, more: Partial<WorkbookCell>): void => {
    const cell = cells[at];
    if (cell !== undefined) cells[at] = { ...cell, ...more };
  };
  for (const [index, at] of formulaCells.entries()) {
    const formula = formulas[index];
    if (formula === undefined) continue;
    add(at, { formula: typeof formula === "string" ? { text: formula, kind: "normal" } : formula });
  }
  for (const at of filled) add(at, { isFilled: true });
  return cells;
}
