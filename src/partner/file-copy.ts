import { type CellPosition, type CellRange } from "../formula/address";
import { fileFormula } from "../formula/names";
import { addSheet } from "../workbook/add-sheet";
import { type CellFinder, cellFinder } from "../workbook/cell-finder";
import { customPart, setCustomPart } from "../workbook/custom-part";
import { healWorkbook } from "../workbook/heal";
import {
  type CellChange,
  type CellFormula,
  type CellValue,
  type SheetModel,
  type WorkbookCell,
  WorkbookError,
  type WorkbookModel,
} from "../workbook/model";
import { openWorkbook, type OpenWorkbook } from "../workbook/read";
import { removeSheet } from "../workbook/remove-sheet";
import { scopeOf } from "../workbook/scope";
import {
  KEPT_NAMESPACE,
  type KeptFormula,
  type KeptFormulas,
  keptPart,
  keptRange,
  type KeptValue,
  readKeptPart,
} from "./kept-formulas";
import { KEPT_SHEET, KEPT_WIDTHS, keptSheetRows, readKeptSheet } from "./kept-sheet";
import { type Cells, type LeftCell, planCopy, type Standing, type StandingFormula, whyLeft } from "./rule";

/** A file with values in place of formulas. */
export interface PartnerCopy {
  readonly bytes: Uint8Array;
  readonly formulas: number;
  /** Formulas that stay, and why. */
  readonly left: readonly LeftCell[];
}

/** A file whose formulas were put back. */
export interface PutBack {
  readonly bytes: Uint8Array;
  readonly formulas: number;
  /** Cells that stay values, and why. */
  readonly left: readonly LeftCell[];
  /** Formulas of ours that stand in the file and that another program had damaged. */
  readonly healed: number;
}

/**
 * A copy for a partner without these functions: their formulas become the values that they have, and each is kept, readable
 * on a sheet of its own and exactly in a part of the file. All other formulas stay, unless they take the spill of one that
 * goes. Throws WorkbookError for a file that is such a copy already.
 *
 * @param taken ISO 8601
 */
export function partnerCopy(bytes: Uint8Array, taken: string): PartnerCopy {
  const workbook = openWorkbook(bytes);
  if (readKept(workbook) !== undefined) {
    throw new WorkbookError("this workbook is a partner's copy already: put its formulas back first");
  }
  const { model, changes: healing } = healWorkbook(workbook.model);
  const { formulas, left } = planCopy(fileCells(model));
  if (formulas.length === 0) return { bytes, formulas: 0, left };
  if (model.sheets.some(({ name }) => name.toLowerCase() === KEPT_SHEET.toLowerCase())) {
    throw new WorkbookError(`the workbook has a sheet "${KEPT_SHEET}" already: rename it first`);
  }
  const positions = sheetPositions(model);
  const changes = formulas.flatMap(({ sheet, row, column }): CellChange[] => {
    const position = positions.get(sheet);
    return position === undefined ? [] : [{ sheet: position, row, column, formula: null }];
  });
  const values = workbook.patched([...healing, ...changes]);
  return { bytes: withKept(values, { taken, formulas }, model), formulas: formulas.length, left };
}

/**
 * The file with the formulas that a partner's copy kept put back where their cells hold the values of the copy still.
 * Values stay as they are until the file is computed. Throws WorkbookError for a file that keeps no formulas.
 */
export function putFormulasBack(bytes: Uint8Array): PutBack {
  const workbook = openWorkbook(bytes);
  const kept = readKept(workbook);
  if (kept === undefined)
    throw new WorkbookError("this workbook is not a partner's copy: it keeps no formulas");
  const { model, changes: healing, healed } = healWorkbook(workbook.model);
  const positions = sheetPositions(model);
  const standing = standingOf(model);
  const back: CellChange[] = [];
  const left: { readonly kept: KeptFormula; readonly cell: LeftCell }[] = [];
  for (const formula of kept.formulas) {
    const { sheet, row, column } = formula;
    const position = positions.get(sheet);
    const now = position === undefined ? undefined : standing(position, keptRange(formula));
    const why = now === undefined ? "its sheet is gone or has another name" : whyLeft(formula, now);
    if (now === undefined || position === undefined || why !== undefined) {
      left.push({ kept: formula, cell: { sheet, row, column, why: why ?? "" } });
    } else {
      // What another program wrote as formulas, such as TRUE(), would stand in the way of a spill.
      back.push(...now.cells.map((cell) => ({ sheet: position, ...cell, formula: null })));
      back.push({ sheet: position, row, column, formula: writtenFormula(formula) });
    }
  }
  const rest = { taken: kept.taken, formulas: left.map((stays) => stays.kept) };
  return {
    bytes: withKept(workbook.patched([...healing, ...back]), rest, model),
    formulas: kept.formulas.length - left.length,
    left: left.map(({ cell }) => cell),
    healed,
  };
}

/** The file keeping these formulas and no others, or without the part and the sheet where none are left. */
function withKept(bytes: Uint8Array, kept: KeptFormulas, model: WorkbookModel): Uint8Array {
  const old = model.sheets.find(({ name }) => isKeptSheet(name))?.name;
  const withoutSheet = old === undefined ? bytes : removeSheet(bytes, old);
  if (kept.formulas.length === 0) return setCustomPart(withoutSheet, KEPT_NAMESPACE, undefined);
  const sheet = { name: KEPT_SHEET, rows: keptSheetRows(kept), columnWidths: KEPT_WIDTHS };
  return setCustomPart(addSheet(withoutSheet, sheet), KEPT_NAMESPACE, keptPart(kept));
}

function writtenFormula(kept: KeptFormula): CellFormula {
  const text = kept.stored ?? fileFormula(kept.formula.slice(1));
  return kept.kind === undefined
    ? { text, kind: "normal" }
    : { text, kind: kept.kind, range: keptRange(kept) };
}

/** What a file keeps: exactly in its part, or, where another program dropped that, on the readable sheet. */
function readKept({ model, parts }: OpenWorkbook): KeptFormulas | undefined {
  const part = customPart(parts, KEPT_NAMESPACE);
  const sheet = model.sheets.find(({ name }) => isKeptSheet(name));
  const kept =
    (part === undefined ? undefined : readKeptPart(part)) ?? (sheet && readKeptSheet(rowsOf(sheet)));
  if (kept === undefined && part !== undefined)
    throw new WorkbookError("the formulas that this workbook keeps are damaged");
  return kept;
}

function isKeptSheet(name: string): boolean {
  return name.toLowerCase() === KEPT_SHEET.toLowerCase();
}

function rowsOf({ cells }: SheetModel): readonly (readonly KeptValue[])[] {
  const rows: KeptValue[][] = [];
  for (const { row, column, value } of cells) {
    const cellsOfRow = (rows[row] ??= []);
    while (cellsOfRow.length < column) cellsOfRow.push("");
    cellsOfRow[column] = keptValue(value);
  }
  return Array.from(rows, (row) => row ?? []);
}

function keptValue(value: CellValue): KeptValue {
  if (value === null) return "";
  return typeof value === "object" ? value.error : value;
}

function sheetPositions({ sheets }: WorkbookModel): ReadonlyMap<string, number> {
  return new Map(sheets.map(({ name }, position) => [name, position]));
}

function cellsIn(
  find: CellFinder,
  sheet: number,
  range: CellRange,
): readonly (readonly (WorkbookCell | undefined)[])[] {
  return Array.from({ length: range.lastRow - range.firstRow + 1 }, (_, down) =>
    Array.from({ length: range.lastColumn - range.firstColumn + 1 }, (__, across) =>
      find(sheet, range.firstRow + down, range.firstColumn + across),
    ),
  );
}

/** A file as the rule sees it; its cells can be written whatever protection says. */
function fileCells(model: WorkbookModel): Cells {
  const find = cellFinder(model);
  const positions = sheetPositions(model);
  return {
    scope: scopeOf(model),
    formulas: model.sheets.flatMap(({ name, cells }) =>
      cells.flatMap(({ row, column, formula }): readonly StandingFormula[] => {
        if (formula === undefined || formula.kind === "dataTable") return [];
        const { text, kind, range } = formula;
        return [
          {
            sheet: name,
            row,
            column,
            formula: text,
            stored: text,
            ...(kind !== "normal" && { kind }),
            ...(range && { range }),
          },
        ];
      }),
    ),
    values: ({ sheet, range }) =>
      cellsIn(find, positions.get(sheet) ?? -1, range).map((row) =>
        row.map((cell) => keptValue(cell?.value ?? null)),
      ),
    isProtected: () => false,
  };
}

function standingOf(
  model: WorkbookModel,
): (sheet: number, range: CellRange) => Standing & { readonly cells: readonly CellPosition[] } {
  const find = cellFinder(model);
  return (sheet, range) => {
    const rows = cellsIn(find, sheet, range);
    const written = rows.flat().flatMap((cell) => (cell?.formula === undefined ? [] : [cell]));
    return {
      formulas: written.map(({ formula }) => formula?.text ?? ""),
      cells: written.map(({ row, column }) => ({ row, column })),
      values: rows.map((row) => row.map((cell) => keptValue(cell?.value ?? null))),
    };
  };
}
