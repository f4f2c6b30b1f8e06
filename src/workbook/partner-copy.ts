import { parseCell, splitSheet } from "../formula/address";
import { addSheet } from "./add-sheet";
import { customPart, setCustomPart } from "./custom-part";
import {
  KEPT_NAMESPACE,
  KEPT_SHEET,
  KEPT_WIDTHS,
  type KeptFormula,
  type KeptFormulas,
  keptPart,
  keptRange,
  keptSheetRows,
  type KeptValue,
  readKeptPart,
} from "./kept-formulas";
import { type CellChange, type CellValue, WorkbookError, type WorkbookModel } from "./model";
import { openWorkbook } from "./read";
import { removeSheet } from "./remove-sheet";

/** Which formulas a partner cannot compute, and both ways to write a formula; neither has an equals sign. */
export interface FormulaWriting {
  readonly isOurs: (formula: string) => boolean;
  /** As a person types it. */
  readonly typed: (formula: string) => string;
  /** As a file stores it. */
  readonly stored: (formula: string) => string;
}

/** A file with values in place of formulas. */
export interface PartnerCopy {
  readonly bytes: Uint8Array;
  readonly formulas: number;
}

/** A file whose formulas were put back. */
export interface PutBack {
  readonly bytes: Uint8Array;
  readonly formulas: number;
  /** Formulas that stay values, because their sheet is gone or their cells hold something else now. */
  readonly left: readonly KeptFormula[];
}

const NEITHER_NAME = "[^\\p{L}\\p{N}_.\\\\]";

/** Formulas that use one of ours, through a name of the workbook too. */
function usesOurs(model: WorkbookModel, isOurs: (formula: string) => boolean): (formula: string) => boolean {
  const names = model.names
    .filter(({ text }) => isOurs(text))
    .map(({ name }) => name.replace(/[.\\?]/g, "\\$&"));
  const named = new RegExp(`(?:^|${NEITHER_NAME})(?:${names.join("|")})(?:$|${NEITHER_NAME})`, "iu");
  return (formula) =>
    isOurs(formula) || (names.length > 0 && named.test(formula.replace(/"(?:[^"]|"")*"/g, '""')));
}

const SPILL_REFERENCE = /ANCHORARRAY\(\s*((?:'(?:[^']|'')+'!|[^\s!'(),]+!)?\$?[A-Z]{1,3}\$?\d+)\s*\)/gi;

/** Cells that a formula takes the spill of, as `sheet/row/column`. */
function spillsUsed(model: WorkbookModel, sheet: number, formula: string): readonly string[] {
  return [...formula.matchAll(SPILL_REFERENCE)].flatMap(([, reference = ""]) => {
    const parts = splitSheet(reference);
    const position =
      parts.sheet === undefined
        ? sheet
        : model.sheets.findIndex(({ name }) => name.toLowerCase() === parts.sheet?.toLowerCase());
    const place = parseCell(parts.rest);
    return place === undefined ? [] : [`${String(position)}/${String(place.row)}/${String(place.column)}`];
  });
}

/** Formula cells that cannot stay, as `sheet/row/column`: ours, and those that take the spill of such a cell. */
function replaced(model: WorkbookModel, isOurs: (formula: string) => boolean): ReadonlySet<string> {
  const uses = usesOurs(model, isOurs);
  const formulas = model.sheets.flatMap((sheet, position) =>
    sheet.cells.flatMap(({ row, column, formula }) =>
      formula === undefined || formula.kind === "dataTable"
        ? []
        : [
            {
              key: `${String(position)}/${String(row)}/${String(column)}`,
              isOurs: uses(formula.text),
              spills: spillsUsed(model, position, formula.text),
            },
          ],
    ),
  );
  const found = new Set(formulas.filter((formula) => formula.isOurs).map(({ key }) => key));
  const followers = formulas.filter(({ spills }) => spills.length > 0);
  for (let before = -1; before < found.size;) {
    before = found.size;
    for (const { key, spills } of followers) if (spills.some((spill) => found.has(spill))) found.add(key);
  }
  return found;
}

function keptValue(value: CellValue): KeptValue {
  if (value === null) return "";
  return typeof value === "object" ? value.error : value;
}

function valuesOf(
  model: WorkbookModel,
  sheet: number,
): (kept: Pick<KeptFormula, "row" | "column" | "range">) => KeptFormula["values"] {
  const cells = new Map(
    model.sheets[sheet]?.cells.map(({ row, column, value }) => [`${String(row)}/${String(column)}`, value]),
  );
  return ({ row, column, range }) => {
    const { firstRow, firstColumn, lastRow, lastColumn } = range ?? {
      firstRow: row,
      firstColumn: column,
      lastRow: row,
      lastColumn: column,
    };
    return Array.from({ length: lastRow - firstRow + 1 }, (_, down) =>
      Array.from({ length: lastColumn - firstColumn + 1 }, (_, across) =>
        keptValue(cells.get(`${String(firstRow + down)}/${String(firstColumn + across)}`) ?? null),
      ),
    );
  };
}

/**
 * A copy for a partner without these functions: their formulas become the values that they have, and each is kept, readable
 * on a sheet of its own and exactly in a part of the file. All other formulas stay, unless they take the spill of one that
 * goes. Throws WorkbookError for a file that is such a copy already.
 */
export function partnerCopy(bytes: Uint8Array, writing: FormulaWriting, taken: string): PartnerCopy {
  const { model, parts, patched } = openWorkbook(bytes);
  if (customPart(parts, KEPT_NAMESPACE) !== undefined) {
    throw new WorkbookError("this workbook is a partner's copy already: put its formulas back first");
  }
  const gone = replaced(model, writing.isOurs);
  const formulas: KeptFormula[] = [];
  const changes: CellChange[] = [];
  for (const [position, sheet] of model.sheets.entries()) {
    const values = valuesOf(model, position);
    for (const { row, column, formula } of sheet.cells) {
      if (formula === undefined || !gone.has(`${String(position)}/${String(row)}/${String(column)}`))
        continue;
      const place = { row, column, ...(formula.range && { range: formula.range }) };
      changes.push({ sheet: position, row, column, formula: null });
      formulas.push({
        sheet: sheet.name,
        ...place,
        formula: `=${writing.typed(formula.text)}`,
        stored: formula.text,
        ...((formula.kind === "array" || formula.kind === "dynamic") && { kind: formula.kind }),
        values: values(place),
      });
    }
  }
  if (formulas.length === 0) return { bytes, formulas: 0 };
  if (model.sheets.some(({ name }) => name.toLowerCase() === KEPT_SHEET.toLowerCase())) {
    throw new WorkbookError(`the workbook has a sheet "${KEPT_SHEET}" already: rename it first`);
  }
  const kept: KeptFormulas = { taken, formulas };
  const withSheet = addSheet(patched(changes), {
    name: KEPT_SHEET,
    rows: keptSheetRows(kept),
    columnWidths: KEPT_WIDTHS,
  });
  return { bytes: setCustomPart(withSheet, KEPT_NAMESPACE, keptPart(kept)), formulas: formulas.length };
}

function isSame(a: KeptFormula["values"], b: KeptFormula["values"]): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/**
 * The file with the formulas that a partner's copy kept put back where their cells hold the values of the copy still.
 * Values stay as they are until the file is computed. Throws WorkbookError for a file that keeps no formulas.
 */
export function putFormulasBack(bytes: Uint8Array, writing: Pick<FormulaWriting, "stored">): PutBack {
  const { model, parts, patched } = openWorkbook(bytes);
  const part = customPart(parts, KEPT_NAMESPACE);
  if (part === undefined)
    throw new WorkbookError("this workbook is not a partner's copy: it keeps no formulas");
  const kept = readKeptPart(part);
  if (kept === undefined) throw new WorkbookError("the formulas that this workbook keeps are damaged");
  const left: KeptFormula[] = [];
  const changes = kept.formulas.flatMap((formula): CellChange[] => {
    const sheet = model.sheets.findIndex(({ name }) => name === formula.sheet);
    if (sheet < 0 || !isSame(valuesOf(model, sheet)(formula), formula.values)) {
      left.push(formula);
      return [];
    }
    const { row, column, kind } = formula;
    const text = formula.stored ?? writing.stored(formula.formula.slice(1));
    const written =
      kind === undefined ? { text, kind: "normal" as const } : { text, kind, range: keptRange(formula) };
    return [{ sheet, row, column, formula: written }];
  });
  const withFormulas = patched(changes);
  if (left.length > 0) {
    const rest = keptPart({ taken: kept.taken, formulas: left });
    return { bytes: setCustomPart(withFormulas, KEPT_NAMESPACE, rest), formulas: changes.length, left };
  }
  const withoutPart = setCustomPart(withFormulas, KEPT_NAMESPACE, undefined);
  const hasSheet = model.sheets.some(({ name }) => name === KEPT_SHEET);
  return {
    bytes: hasSheet ? removeSheet(withoutPart, KEPT_SHEET) : withoutPart,
    formulas: changes.length,
    left,
  };
}
