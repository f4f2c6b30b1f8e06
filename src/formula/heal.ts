import { NAMESPACE } from "../functions/formula-style";
import type { CellPosition, CellRange } from "./address";
import { fileFormula, fileName, typedName } from "./names";
import { calledFunction } from "./ours";
import { type FormulaToken, tokenize, unquoted } from "./tokens";

// What other programs make of our formulas. A Google Sheets export keeps them as text beside their value, in
// IFERROR(__xludf.DUMMYFUNCTION("BLN_X(A1)"),106), and fills the cells of a spill with
// IFERROR(__xludf.DUMMYFUNCTION("""COMPUTED_VALUE"""),67), as files that it exported show. Excel beside other add-ins writes
// [1]!_xldudf_BLN_X(A1) (office-js issues 2568 and 3872), LibreOffice 7.4 _xldudf_bln_x, Gnumeric 1.12 _XLDUDF_BLN_X.

const EXPORTED = /^IFERROR\(__xludf\.DUMMYFUNCTION\(/i;
const MAY_BE_OURS = new RegExp(`${NAMESPACE}[._]`, "i");
const IN_SMALL_LETTERS = /_xl(?:fn|ws)\.[a-z]|#[a-z]/;
const COMPUTED_VALUE = '"COMPUTED_VALUE"';

/** The text that an export of Google Sheets keeps in place of a formula of its own; undefined for all other formulas. */
function exportedText(formula: string): string | undefined {
  if (!EXPORTED.test(formula)) return undefined;
  const inside = tokenize(formula)
    .filter(({ kind }) => kind !== "space")
    .slice(4);
  const end = inside.findIndex(({ kind }) => kind === "close");
  const pieces = inside.slice(0, end);
  // Text above 255 characters is cut and joined again with &.
  const isJoined = pieces.every(({ kind, text }, at) => (at % 2 === 0 ? kind === "text" : text === "&"));
  if (end < 1 || !isJoined) return undefined;
  return pieces
    .filter(({ kind }) => kind === "text")
    .map(({ text }) => unquoted(text))
    .join("");
}

/** The formula of ours in an export of Google Sheets; undefined where there is none. */
function exportedFormula(formula: string): string | undefined {
  const text = exportedText(formula);
  if (text === undefined || text === COMPUTED_VALUE) return undefined;
  return tokenize(text).some((token) => calledFunction(token) !== undefined)
    ? text.replace(/^=/, "")
    : undefined;
}

/** The words for parts of a table as Excel writes them. */
const TABLE_PARTS: Readonly<Record<string, string>> = {
  "#all": "#All",
  "#data": "#Data",
  "#headers": "#Headers",
  "#totals": "#Totals",
  "#this row": "#This Row",
};

/** Excel's later functions and parts of tables in its own spelling: LibreOffice writes `_xlfn.let` and `Prices[#all]`. */
function asExcelWrites({ kind, text }: FormulaToken): string {
  if (kind === "structure") {
    return text.replace(/(?<!')#[a-z ]+(?=\])/gi, (part) => TABLE_PARTS[part.toLowerCase()] ?? part);
  }
  const [, mark = "", name = ""] = (kind === "call" && /^((?:_xlfn\.|_xlws\.)+)(.*)$/i.exec(text)) || [];
  return name === "" ? text : mark.toLowerCase() + name.toUpperCase();
}

function withNames(
  formula: string,
  nameOf: (name: string) => string,
  spell: (token: FormulaToken) => string,
): string {
  if (!MAY_BE_OURS.test(formula) && !IN_SMALL_LETTERS.test(formula)) return formula;
  const tokens = tokenize(formula);
  const isOurs = (token: FormulaToken | undefined): boolean =>
    token !== undefined && calledFunction(token) !== undefined;
  return tokens
    .filter(({ kind }, at) => kind !== "sheet" || !isOurs(tokens[at + 1]))
    .map((token) => (isOurs(token) ? nameOf(token.text) : spell(token)))
    .join("");
}

const AS_EXCEL_WRITES = new RegExp(String.raw`_xldudf_${NAMESPACE}_[A-Z0-9_.]+\(`, "g");
const MAY_BE_DAMAGED = new RegExp(String.raw`${NAMESPACE}[._]|!\s*\(|DUMMYFUNCTION`, "i");

/** Whether a formula may be spelled otherwise than Excel does, told without cutting it into tokens; true where it is not clear. */
export function mayBeDamaged(formula: string): boolean {
  return IN_SMALL_LETTERS.test(formula) || MAY_BE_DAMAGED.test(formula.replace(AS_EXCEL_WRITES, "("));
}

/**
 * A formula as a file keeps it, with what other programs did mended: another program's wrapping of ours, a path before a
 * name that is exactly ours, another spelling of our names, of Excel's later functions and of parts of tables. All else stays.
 */
export function healedFileFormula(formula: string): string {
  const exported = exportedFormula(formula);
  return withNames(exported === undefined ? formula : fileFormula(exported), fileName, asExcelWrites);
}

/** A formula as Excel must be told it, ours mended in the same way; neither has an equals sign. */
export function healedTypedFormula(formula: string): string {
  const typed = exportedFormula(formula) ?? formula;
  const isOurs = tokenize(typed).some((token) => calledFunction(token) !== undefined);
  return isOurs ? withNames(typed, typedName, asExcelWrites) : typed;
}

/** A formula's cell; no equals sign. */
interface FormulaAt extends CellPosition {
  readonly formula: string;
}

/** What a formula of ours fills on a sheet that Google Sheets exported. */
export interface ExportedSpill<Cell> {
  readonly range: CellRange;
  /** The other cells of the range. */
  readonly filled: readonly Cell[];
}

/**
 * What each formula of ours fills on a sheet that Google Sheets exported: the formula's cell and the computed values to its
 * right and below. The file does not say it; a cell belongs to the first formula in reading order that reaches it.
 */
export function exportedSpills<Cell extends FormulaAt>(
  cells: readonly Cell[],
): ReadonlyMap<Cell, ExportedSpill<Cell>> {
  const key = (row: number, column: number): string => `${String(row)},${String(column)}`;
  const free = new Map<string, Cell>();
  const anchors: Cell[] = [];
  for (const cell of cells) {
    const text = exportedText(cell.formula);
    if (text === COMPUTED_VALUE) free.set(key(cell.row, cell.column), cell);
    else if (text !== undefined) anchors.push(cell);
  }
  anchors.sort((a, b) => a.row - b.row || a.column - b.column);
  const spills = new Map<Cell, ExportedSpill<Cell>>();
  for (const cell of anchors) {
    const { row, column } = cell;
    let lastColumn = column;
    while (free.has(key(row, lastColumn + 1))) lastColumn++;
    const rowOf = (at: number, first: number): readonly Cell[] =>
      Array.from({ length: lastColumn - first + 1 }, (_, i) => free.get(key(at, first + i))).filter(
        (found) => found !== undefined,
      );
    const filled = [...rowOf(row, column + 1)];
    let lastRow = row;
    for (;;) {
      const below = rowOf(lastRow + 1, column);
      if (below.length < lastColumn - column + 1) break;
      filled.push(...below);
      lastRow++;
    }
    for (const taken of filled) free.delete(key(taken.row, taken.column));
    if (exportedFormula(cell.formula) !== undefined)
      spills.set(cell, { range: { firstRow: row, firstColumn: column, lastRow, lastColumn }, filled });
  }
  return spills;
}
