import type { CellRange } from "../formula/address";
import { cellKey, type SheetCell } from "../formula/scope";
import { exportedSpills, healedTypedFormula } from "../formula/heal";
import { calledFunction } from "../formula/ours";
import { tokenize, type FormulaToken } from "../formula/tokens";
import { isErrorCode } from "../workbook/cell-values";
import { resolveReference } from "../formula/resolve";
import { type Contents, type ReadFormula, withinUsed } from "./contents";
import { planStatuses, type PlanStatus } from "../functions/plan-statuses";
import { evaluate, ourCalls, type ReadReference } from "./formula-calls";
import type { CellRows, FormulaEntry } from "./sheet-host";

/** Each level of functions of ours costs Excel about half a second, whatever they compute. */
const MOST_LEVELS = 3;

const SENTENCES: Readonly<Record<string, string>> = {
  "#NAME?": "Excel does not know the function: repair it, or wait until the add-in has started",
  "#BUSY!": "Excel still waits for the result",
  "#GETTING_DATA": "Excel still waits for the result",
  "#SPILL!": "the result has no room: clear the cells below and to the right",
  "#REF!": "a cell it refers to is gone",
  "#N/A": "a value it needs is not there",
};

/** A cell of ours that shows an error, with the reason as far as it can be told. */
export interface FailingFormula extends SheetCell {
  readonly code: string;
  readonly sentence: string;
}

/** A cell of ours that depends on others of ours over more levels than are good. */
export interface DeepChain extends SheetCell {
  readonly levels: number;
  readonly formula: string;
}

/** What there is to know about the cells of ours in a workbook. */
export interface Findings {
  readonly cells: number;
  readonly failures: readonly FailingFormula[];
  /** Rows of plans that are not ok, and verdicts that do not let the job go. */
  readonly statuses: readonly PlanStatus<string>[];
  /** Cells that re-entering mends. */
  readonly stuck: readonly FormulaEntry[];
  /** Cells that re-entering would mend, on sheets that are protected. */
  readonly locked: readonly SheetCell[];
  readonly chains: readonly DeepChain[];
}

/** Reads references out of contents already at hand. */
export function referenceReader(contents: Contents, at: SheetCell): ReadReference {
  return (reference) => {
    const isSpill = reference.endsWith("#");
    const area = resolveReference(contents.outline, isSpill ? reference.slice(0, -1) : reference, at);
    if (area === undefined) return undefined;
    const { sheet, range } = area;
    if (!isSpill) return contents.rows(withinUsed(contents.outline, area));
    const spill = contents.spills.get(cellKey({ sheet, row: range.firstRow, column: range.firstColumn }));
    return spill && contents.rows({ sheet, range: spill });
  };
}

function sentenceFor(cell: ReadFormula, contents: Contents): string {
  const code = String(cell.value);
  const own = code === "#VALUE!" || code === "#N/A" || code === "#NUM!";
  const read = referenceReader(contents, cell);
  for (const call of own ? [...ourCalls(cell.formula)].reverse() : []) {
    const outcome = evaluate(call, read);
    if (outcome?.kind === "error") return outcome.sentence;
  }
  return SENTENCES[code] ?? "the formula gives this error";
}

interface Dependency {
  /** Calls of ours around the reference, and so levels on top of what it refers to. */
  readonly levels: number;
  readonly sheet: string;
  readonly range: CellRange;
}

function referenceAt(tokens: readonly FormulaToken[], at: number): string | undefined {
  const token = tokens[at];
  const previous = tokens[at - 1];
  if (token?.kind === "reference") return (previous?.kind === "sheet" ? previous.text : "") + token.text;
  if (token?.kind === "structure") return (previous?.kind === "name" ? previous.text : "") + token.text;
  if (token?.kind === "name" && tokens[at + 1]?.kind !== "structure") {
    return (previous?.kind === "sheet" ? previous.text : "") + token.text;
  }
  return undefined;
}

function dependencies(
  cell: ReadFormula,
  contents: Contents,
): { readonly own: number; readonly on: readonly Dependency[] } {
  const tokens = tokenize(cell.formula.slice(1));
  const open: boolean[] = [];
  const on: Dependency[] = [];
  let own = 0;
  let levels = 0;
  tokens.forEach((token, at) => {
    if (token.kind === "open") {
      const caller = tokens[at - 1];
      const isOurs = caller !== undefined && calledFunction(caller) !== undefined;
      open.push(isOurs);
      if (isOurs) levels += 1;
      own = Math.max(own, levels);
    } else if (token.kind === "close") {
      if (open.pop() === true) levels -= 1;
    } else {
      const reference = referenceAt(tokens, at);
      const area = reference === undefined ? undefined : resolveReference(contents.outline, reference, cell);
      if (area !== undefined) on.push({ levels, ...withinUsed(contents.outline, area) });
    }
  });
  return { own, on };
}

/** Formula cells by sheet and column, so that those inside a rectangle are found without going through all of its cells. */
class FormulaIndex {
  private readonly columns = new Map<string, { readonly row: number; readonly cell: ReadFormula }[]>();
  private readonly found = new Map<string, readonly ReadFormula[]>();

  constructor(contents: Contents) {
    for (const cell of contents.formulas) {
      const { firstRow, lastRow, firstColumn, lastColumn } = contents.filled(cell);
      for (let column = firstColumn; column <= lastColumn; column++) {
        const key = `${cell.sheet}\n${column}`;
        const entries = this.columns.get(key) ?? [];
        for (let row = firstRow; row <= lastRow; row++) entries.push({ row, cell });
        this.columns.set(key, entries);
      }
    }
    for (const entries of this.columns.values()) entries.sort((a, b) => a.row - b.row);
  }

  within({ sheet, range }: { readonly sheet: string; readonly range: CellRange }): readonly ReadFormula[] {
    const key = [sheet, range.firstRow, range.firstColumn, range.lastRow, range.lastColumn].join("\n");
    const known = this.found.get(key);
    if (known !== undefined) return known;
    const cells = new Set<ReadFormula>();
    for (let column = range.firstColumn; column <= range.lastColumn; column++) {
      const entries = this.columns.get(`${sheet}\n${column}`) ?? [];
      for (let at = firstFrom(entries, range.firstRow); at < entries.length; at++) {
        const entry = entries[at];
        if (entry === undefined || entry.row > range.lastRow) break;
        cells.add(entry.cell);
      }
    }
    const list = [...cells];
    this.found.set(key, list);
    return list;
  }
}

function firstFrom(entries: readonly { readonly row: number }[], row: number): number {
  let [low, high] = [0, entries.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((entries[middle]?.row ?? 0) < row) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Levels of functions of ours behind each formula cell, its own among them. Cells that depend on themselves count once. */
export function levelsOf(contents: Contents): ReadonlyMap<ReadFormula, number> {
  const index = new FormulaIndex(contents);
  const levels = new Map<ReadFormula, number>();
  const begun = new Set<ReadFormula>();
  // A stack of our own: a column of running totals is deeper than a browser's.
  for (const root of contents.formulas) {
    const stack = [root];
    while (stack.length > 0) {
      const cell = stack.at(-1);
      if (cell === undefined) break;
      if (levels.has(cell)) {
        stack.pop();
        continue;
      }
      const { own, on } = dependencies(cell, contents);
      const waiting = begun.has(cell)
        ? []
        : on.flatMap((area) => index.within(area)).filter((other) => !levels.has(other) && !begun.has(other));
      begun.add(cell);
      if (waiting.length > 0) {
        stack.push(...waiting);
        continue;
      }
      const behind = on.map((area) =>
        index.within(area).reduce((most, other) => Math.max(most, area.levels + (levels.get(other) ?? 0)), 0),
      );
      levels.set(cell, Math.max(own, ...behind));
      stack.pop();
    }
  }
  return levels;
}

/** A formula as Excel must be told it, with its equals sign. */
function healed(formula: string): string {
  return `=${healedTypedFormula(formula.slice(1))}`;
}

/** What formulas of ours fill on sheets that Google Sheets exported. */
function spillsOfExports({ formulas }: Contents): ReadonlyMap<ReadFormula, CellRange> {
  const bySheet = new Map<string, (SheetCell & { readonly cell: ReadFormula; readonly formula: string })[]>();
  for (const cell of formulas) {
    const { sheet, row, column } = cell;
    const cells = bySheet.get(sheet) ?? [];
    cells.push({ sheet, row, column, cell, formula: cell.formula.slice(1) });
    bySheet.set(sheet, cells);
  }
  const spills = [...bySheet.values()].flatMap((cells) => [...exportedSpills(cells)]);
  return new Map(spills.map(([{ cell }, { range }]) => [cell, range]));
}

/** Goes through every cell that uses our functions. */
export function checkWorkbook(contents: Contents): Findings {
  const { ours } = contents;
  const isProtected = new Set(
    contents.outline.sheets.flatMap((sheet) => (sheet.isProtected ? [sheet.name] : [])),
  );
  const spills = spillsOfExports(contents);
  const broken = ours.filter((cell) => cell.value === "#NAME?" || healed(cell.formula) !== cell.formula);
  const levels = levelsOf(contents);
  return {
    cells: ours.length,
    failures: ours
      .filter(({ value }) => isErrorCode(value))
      .map((cell) => ({ ...placeOf(cell), code: String(cell.value), sentence: sentenceFor(cell, contents) })),
    statuses: statusesOf(contents),
    stuck: broken
      .filter(({ sheet }) => !isProtected.has(sheet))
      .map((cell) => {
        const filled = spills.get(cell);
        return { ...placeOf(cell), formula: healed(cell.formula), ...(filled && { filled }) };
      }),
    locked: broken.filter(({ sheet }) => isProtected.has(sheet)).map(placeOf),
    chains: ours
      .map((cell) => ({ ...placeOf(cell), formula: cell.formula, levels: levels.get(cell) ?? 0 }))
      .filter((chain) => chain.levels > MOST_LEVELS)
      .sort((a, b) => b.levels - a.levels),
  };
}

function statusesOf(contents: Contents): readonly PlanStatus<string>[] {
  const spilled = contents.ours.flatMap((cell) => {
    const range = contents.spills.get(cellKey(cell));
    return range === undefined
      ? []
      : [{ ...placeOf(cell), spilled: contents.rows({ sheet: cell.sheet, range }) }];
  });
  const { statuses, notReady } = planStatuses(spilled);
  return [...notReady, ...statuses];
}

function placeOf({ sheet, row, column }: SheetCell): SheetCell {
  return { sheet, row, column };
}

/** Rows of cells where blank is null, as forms and the catalogue take it. */
export function withNulls(rows: CellRows): readonly (readonly (string | number | boolean | null)[])[] {
  return rows.map((row) => row.map((cell) => (cell === "" ? null : cell)));
}
