import { healedTypedFormula } from "../formula/heal";
import { cellKey, labelOf, type SheetArea } from "../formula/scope";
import {
  keptPart,
  keptRange,
  KEPT_NAMESPACE,
  readKeptPart,
  type KeptFormula,
  type KeptFormulas,
} from "../partner/kept-formulas";
import { KEPT_SHEET, KEPT_WIDTHS, keptSheetRows, readKeptSheet } from "../partner/kept-sheet";
import {
  type Cells,
  type CopyPlan,
  isSameRows,
  type LeftCell,
  planCopy as planCopyOf,
  type Standing,
  whyLeft,
} from "../partner/rule";
import { isErrorCode } from "../workbook/cell-values";
import { blocksOf, isFormula, partsOf, type Contents, type Progress } from "./contents";
import { HostError, type Block, type CellRows, type FormulaEntry, type SheetHost } from "./sheet-host";
import { messageOf } from "../ui/message-of";

const MOST_AT_ONCE = 200;

/** A workbook in Excel as the rule for copies sees it. */
function excelCells(contents: Contents): Cells {
  const { outline } = contents;
  const isProtected = new Set(outline.sheets.flatMap((sheet) => (sheet.isProtected ? [sheet.name] : [])));
  return {
    scope: outline,
    formulas: contents.formulas.map(({ sheet, row, column, formula }) => {
      const range = contents.spills.get(cellKey({ sheet, row, column }));
      return {
        sheet,
        row,
        column,
        formula: formula.slice(1),
        ...(range && { kind: "dynamic" as const, range }),
      };
    }),
    values: (area) => contents.rows(area),
    isProtected: (sheet) => isProtected.has(sheet),
  };
}

/** What a partner copy would turn into values, and what it would leave alone. */
export function planWorkbookCopy(contents: Contents): CopyPlan {
  return planCopyOf(excelCells(contents));
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

/** Formulas in a block, without their equals signs. */
function formulasIn({ formulas, values }: Block): readonly string[] {
  return formulas.flatMap((row, down) =>
    row.flatMap((content, across) => {
      return isFormula(content, values[down]?.[across]) ? [content.slice(1)] : [];
    }),
  );
}

function standing(block: Block): Standing {
  return { formulas: formulasIn(block), values: block.values };
}

/** True where the first cell holds a kept formula, whatever spaces and capitals Excel wrote it with. */
function holdsFormula({ formulas }: Block, kept: KeptFormula): boolean {
  const plain = (text: string): string => healedTypedFormula(text.slice(1)).replace(/\s/g, "").toLowerCase();
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

/** What the readable sheet holds, where there is one. */
async function readSheet(host: SheetHost): Promise<KeptFormulas | undefined> {
  const { sheets } = await host.outline();
  const sheet = sheets.find(({ name }) => name.toLowerCase() === KEPT_SHEET.toLowerCase());
  if (sheet?.used === undefined) return undefined;
  const blocks: CellRows[] = [];
  for (const range of blocksOf(sheet.used)) {
    const [block] = await host.read([{ sheet: sheet.name, range }]);
    blocks.push(block?.values ?? []);
  }
  return readKeptSheet(blocks.flat());
}

/** The formulas that an earlier copy keeps in this workbook; rejects with a HostError where they are damaged. */
export async function readKept(host: SheetHost): Promise<KeptFormulas | undefined> {
  const xml = await host.readPart(KEPT_NAMESPACE);
  const kept = (xml === undefined ? undefined : readKeptPart(xml)) ?? (await readSheet(host));
  if (kept === undefined && xml !== undefined) {
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
      `${what} failed (${messageOf(error)}), and so did going back (${messageOf(second)}): ` +
        `every formula is on the sheet "${KEPT_SHEET}"`,
    );
  }
  throw new HostError(`${what} failed, the workbook is as it was: ${messageOf(error)}`);
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
      const isThere = holdsFormula(now, kept) && isSameRows(now.values, kept.values);
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
        const isValue = whyLeft(kept, standing(now)) === undefined;
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
      const why = whyLeft(formula, standing(now));
      if (why === undefined) formulas.push(formula);
      else leave(formula, why);
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
