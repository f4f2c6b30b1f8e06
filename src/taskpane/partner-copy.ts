import type { SheetArea, SheetCell } from "../formula/scope";
import { tokenize } from "../formula/tokens";
import { cellAddress } from "../formula/address";
import {
  keptPart,
  keptRange,
  keptSheetRows,
  KEPT_NAMESPACE,
  KEPT_SHEET,
  KEPT_WIDTHS,
  readKeptPart,
  type KeptFormula,
  type KeptFormulas,
} from "../workbook/kept-formulas";
import { resolveReference } from "../formula/resolve";
import { cellKey, isFormula, partsOf, type Contents, type FormulaCell, type Progress } from "./contents";
import {
  HostError,
  type Block,
  type CellContent,
  type CellRows,
  type FormulaEntry,
  type SheetHost,
} from "./sheet-host";
import { isErrorCode, typedAnew } from "./workbook-check";

const MOST_AT_ONCE = 200;
/** Errors that say only that Excel has no result yet. */
const NO_RESULT_YET = new Set(["#NAME?", "#BUSY!", "#GETTING_DATA"]);

/** A cell that stays as it is, and why. */
export interface LeftCell extends SheetCell {
  readonly why: string;
}

/** What a copy or a putting back would do, before anything is done. */
export interface CopyPlan {
  readonly formulas: readonly KeptFormula[];
  readonly left: readonly LeftCell[];
}

/** A cell as a person names it, such as `Plan!B3`. */
export function labelOf({ sheet, row, column }: SheetCell): string {
  return `${sheet}!${cellAddress(row, column)}`;
}

/** Keys of the cells whose whole spill a formula refers to, such as `B3#`. */
function spillsUsed(cell: FormulaCell, contents: Contents): readonly string[] {
  if (!cell.formula.includes("#")) return [];
  const tokens = tokenize(cell.formula.slice(1));
  return tokens.flatMap((token, at) => {
    if (token.kind !== "spill") return [];
    const sheet = tokens[at - 2]?.kind === "sheet" ? (tokens[at - 2]?.text ?? "") : "";
    const area = resolveReference(contents.outline, sheet + (tokens[at - 1]?.text ?? ""), cell);
    return area === undefined
      ? []
      : [cellKey({ sheet: area.sheet, row: area.range.firstRow, column: area.range.firstColumn })];
  });
}

/** Formulas of ours, and those that take the spill of one: without its formula there is no spill to take. */
function cannotStay(contents: Contents): readonly FormulaCell[] {
  const gone = new Set(contents.ours.map(cellKey));
  const followers = contents.formulas
    .map((cell) => ({ key: cellKey(cell), spills: spillsUsed(cell, contents) }))
    .filter(({ spills }) => spills.length > 0);
  for (let before = -1; before < gone.size;) {
    before = gone.size;
    for (const { key, spills } of followers) if (spills.some((spill) => gone.has(spill))) gone.add(key);
  }
  return contents.formulas.filter((cell) => gone.has(cellKey(cell)));
}

function keptOf(cell: FormulaCell, contents: Contents): KeptFormula {
  const { sheet, row, column, formula } = cell;
  const spill = contents.spills.get(cellKey(cell));
  return {
    sheet,
    row,
    column,
    formula: typedAnew(formula),
    ...(spill && { kind: "dynamic" as const, range: spill }),
    values: contents.rows({ sheet, range: contents.filled(cell) }),
  };
}

/** What a partner copy would turn into values, and what it would leave alone. */
export function planCopy(contents: Contents): CopyPlan {
  const isProtected = new Set(
    contents.outline.sheets.flatMap((sheet) => (sheet.isProtected ? [sheet.name] : [])),
  );
  const formulas: KeptFormula[] = [];
  const left: LeftCell[] = [];
  for (const cell of cannotStay(contents)) {
    const { sheet, row, column, value } = cell;
    if (isProtected.has(sheet)) left.push({ sheet, row, column, why: "its sheet is protected" });
    else if (isErrorCode(value) && NO_RESULT_YET.has(value)) {
      left.push({ sheet, row, column, why: `it shows ${value}: repair it first` });
    } else formulas.push(keptOf(cell, contents));
  }
  return { formulas, left };
}

function sentenceOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

async function inParts(
  formulas: readonly KeptFormula[],
  onProgress: Progress,
  work: (part: readonly KeptFormula[]) => Promise<void>,
): Promise<void> {
  const parts = partsOf(formulas, MOST_AT_ONCE);
  for (const [done, part] of parts.entries()) {
    await work(part);
    onProgress((done + 1) / parts.length);
  }
}

/** Progress of one stretch of a longer piece of work. */
function stretch(onProgress: Progress, from: number, to: number): Progress {
  return (share) => {
    onProgress(from + share * (to - from));
  };
}

const ignore = (): void => undefined;

function areaOfKept(kept: KeptFormula): SheetArea {
  return { sheet: kept.sheet, range: keptRange(kept) };
}

function entryOf({ sheet, row, column, formula, range }: KeptFormula): FormulaEntry {
  return { sheet, row, column, formula, ...(range && { filled: range }) };
}

function isSameCell(a: CellContent, b: CellContent | undefined): boolean {
  // Excel keeps 15 digits; the ones behind them may differ from one reading to the next.
  if (typeof a === "number" && typeof b === "number") return Math.abs(a - b) <= 1e-14 * Math.abs(a);
  return a === b;
}

function isSame(a: CellRows, b: CellRows): boolean {
  return a.length === b.length && a.every((row, i) => row.every((cell, j) => isSameCell(cell, b[i]?.[j])));
}

function hasFormula({ formulas, values }: Block): boolean {
  return formulas.some((row, down) =>
    row.some((content, across) => isFormula(content, values[down]?.[across])),
  );
}

/** True where the first cell holds a kept formula, whatever spaces and capitals Excel wrote it with. */
function holdsFormula({ formulas }: Block, kept: KeptFormula): boolean {
  const plain = (formula: string): string => typedAnew(formula).replace(/\s/g, "").toLowerCase();
  const { row, column } = kept;
  const { firstRow, firstColumn } = keptRange(kept);
  const content = formulas[row - firstRow]?.[column - firstColumn];
  return typeof content === "string" && plain(content) === plain(kept.formula);
}

/** Each kept formula with what stands in its cells now. */
async function readEach(
  host: SheetHost,
  formulas: readonly KeptFormula[],
  take: (kept: KeptFormula, now: Block) => void,
): Promise<void> {
  const blocks = await host.read(formulas.map(areaOfKept));
  formulas.forEach((kept, index) => {
    const block = blocks[index];
    if (block !== undefined) take(kept, block);
  });
}

async function keep(host: SheetHost, kept: KeptFormulas | undefined): Promise<void> {
  if (kept === undefined || kept.formulas.length === 0) {
    await host.removeSheet(KEPT_SHEET);
    await host.writePart(KEPT_NAMESPACE, undefined);
    return;
  }
  await host.writePart(KEPT_NAMESPACE, keptPart(kept));
  await host.writeSheet(KEPT_SHEET, keptSheetRows(kept), KEPT_WIDTHS);
}

/** The formulas that an earlier copy keeps in this workbook; rejects with a HostError where they are damaged. */
export async function readKept(host: SheetHost): Promise<KeptFormulas | undefined> {
  const xml = await host.readPart(KEPT_NAMESPACE);
  if (xml === undefined) return undefined;
  const kept = readKeptPart(xml);
  if (kept === undefined) {
    throw new HostError(
      `the formulas that this workbook keeps are damaged: copy them from the sheet "${KEPT_SHEET}"`,
    );
  }
  return kept;
}

async function goBack(what: string, error: unknown, undo: () => Promise<void>): Promise<never> {
  try {
    await undo();
  } catch (second) {
    throw new HostError(
      `${what} failed (${sentenceOf(error)}), and so did going back (${sentenceOf(second)}): ` +
        `every formula is on the sheet "${KEPT_SHEET}"`,
    );
  }
  throw new HostError(`${what} failed, the workbook is as it was: ${sentenceOf(error)}`);
}

/**
 * Turns the formulas of a plan into their values and keeps them in the workbook. Rejects with the workbook as it was.
 *
 * @param taken ISO 8601
 */
export async function makeCopy(
  host: SheetHost,
  plan: CopyPlan,
  taken: string,
  onProgress: Progress,
): Promise<void> {
  const { formulas } = plan;
  if ((await readKept(host)) !== undefined) {
    throw new HostError("this workbook is a partner copy already: put its formulas back first");
  }
  const { sheets } = await host.outline();
  if (sheets.some(({ name }) => name.toLowerCase() === KEPT_SHEET.toLowerCase())) {
    throw new HostError(`the workbook has a sheet "${KEPT_SHEET}" already: rename it first`);
  }
  await inParts(formulas, stretch(onProgress, 0, 0.2), (part) =>
    readEach(host, part, (kept, now) => {
      const isThere = holdsFormula(now, kept) && isSame(now.values, kept.values);
      if (!isThere) throw new HostError(`${labelOf(kept)} has changed since the preview: look again`);
    }),
  );
  const touched: KeptFormula[] = [];
  try {
    // Kept first: whatever happens later, nothing is lost.
    await keep(host, { taken, formulas });
    await inParts(formulas, stretch(onProgress, 0.2, 0.7), async (part) => {
      touched.push(...part);
      await host.freeze(part.map(areaOfKept));
    });
    await inParts(formulas, stretch(onProgress, 0.7, 1), (part) =>
      readEach(host, part, (kept, now) => {
        const isValue = !hasFormula(now) && isSame(now.values, kept.values);
        if (!isValue) throw new HostError(`${labelOf(kept)} did not keep its value`);
      }),
    );
  } catch (error) {
    await goBack("the partner copy", error, async () => {
      await inParts(touched, ignore, (part) => host.enter(part.map(entryOf)));
      await keep(host, undefined);
    });
  }
}

/** What putting back would do: a cell that no longer holds the value it was given stays as it is. */
export async function planPutBack(
  host: SheetHost,
  kept: KeptFormulas,
  onProgress: Progress,
): Promise<CopyPlan> {
  const { sheets } = await host.outline();
  const formulas: KeptFormula[] = [];
  const left: LeftCell[] = [];
  const leave = ({ sheet, row, column }: KeptFormula, why: string): void => {
    left.push({ sheet, row, column, why });
  };
  const present = kept.formulas.filter((formula) => {
    const sheet = sheets.find(({ name }) => name === formula.sheet);
    if (sheet === undefined) leave(formula, "its sheet is gone or has another name");
    else if (sheet.isProtected) leave(formula, "its sheet is protected");
    return sheet?.isProtected === false;
  });
  await inParts(present, onProgress, (part) =>
    readEach(host, part, (formula, now) => {
      if (hasFormula(now)) leave(formula, "another formula stands there now");
      else if (!isSame(now.values, formula.values))
        leave(formula, "it holds another value now, or rows have moved");
      else formulas.push(formula);
    }),
  );
  return { formulas, left };
}

/** Text is told to be text, so that `1/2` or `007` stay what they were. */
function asTyped(rows: CellRows): CellRows {
  return rows.map((row) =>
    row.map((cell) => (typeof cell === "string" && cell !== "" && !isErrorCode(cell) ? `'${cell}` : cell)),
  );
}

/** Puts formulas back where they stood. What a plan leaves stays kept. Rejects with the workbook as it was. */
export async function putBack(
  host: SheetHost,
  kept: KeptFormulas,
  plan: CopyPlan,
  onProgress: Progress,
): Promise<void> {
  const { formulas } = plan;
  const isLeft = new Set(plan.left.map(cellKey));
  const touched: KeptFormula[] = [];
  try {
    await inParts(formulas, stretch(onProgress, 0, 0.7), async (part) => {
      touched.push(...part);
      await host.enter(part.map(entryOf));
    });
    await inParts(formulas, stretch(onProgress, 0.7, 1), (part) =>
      readEach(host, part, (formula, now) => {
        if (!holdsFormula(now, formula)) throw new HostError(`${labelOf(formula)} did not take its formula`);
      }),
    );
    await keep(host, { ...kept, formulas: kept.formulas.filter((formula) => isLeft.has(cellKey(formula))) });
  } catch (error) {
    await goBack("putting back", error, async () => {
      await inParts(touched, ignore, (part) =>
        host.write(part.map((formula) => ({ ...areaOfKept(formula), contents: asTyped(formula.values) }))),
      );
      await keep(host, kept);
    });
  }
}
