import { catalogue } from "../functions/catalogue";
import type { CatalogueFunction } from "../functions/definition";
import { readJob } from "../functions/event/read-job";
import { argumentsAt } from "../formula/call-arguments";
import { cellAddress } from "../formula/address";
import { calledFunction } from "../formula/ours";
import { resolveReference } from "../formula/resolve";
import type { Scope } from "../formula/scope";
import { type FormulaToken, tokenize, unquoted } from "../formula/tokens";
import { mapRange } from "../sheet/rectangles";
import { type CellFinder, cellFinder } from "../workbook/cell-finder";
import { createWorkbook } from "../workbook/create";
import type { NewCell } from "../workbook/create-sheet";
import type { CellValue, TableModel, WorkbookModel } from "../workbook/model";
import { scopeOf } from "../workbook/scope";
import { CommandError } from "./file-fault";

const PLAN = "PAPER_PLAN";
/** Tables that one call takes. */
const MOST_TABLES = 14;

/** A sheet that holds a paper. */
interface PaperSheet {
  readonly sheet: number;
  readonly paper: string;
  readonly event: string;
}

const plan = catalogue.find(({ name }) => name === PLAN) as CatalogueFunction;

/** The papers that there are. */
export const PAPER_NAMES: readonly string[] = plan.params.flatMap((param) =>
  param.name === "paper" && param.kind === "choice" ? param.options : [],
);

const same = (one: string, other: string): boolean => one.trim().toLowerCase() === other.trim().toLowerCase();

/** What an argument says: a text in quotes, or the text of the cell that it names. */
function textOf(
  tokens: readonly FormulaToken[],
  at: { readonly sheet: string; readonly row: number; readonly column: number },
  scope: Scope,
  cellAt: CellFinder,
): string {
  const [first, ...more] = tokens.filter(({ kind }) => kind !== "space");
  if (!first) return "";
  if (first.kind === "text" && more.length === 0) return unquoted(first.text);
  const area = resolveReference(scope, tokens.map(({ text }) => text).join(""), at);
  if (!area) return "";
  const sheet = scope.sheets.findIndex(({ name }) => name === area.sheet);
  const value = cellAt(sheet, area.range.firstRow, area.range.firstColumn)?.value ?? "";
  return typeof value === "object" ? "" : String(value);
}

function paperSheets(model: WorkbookModel): readonly PaperSheet[] {
  const scope = scopeOf(model);
  const cellAt = cellFinder(model);
  return model.sheets.flatMap(({ name, cells }, sheet) =>
    cells.flatMap(({ row, column, formula }): readonly PaperSheet[] => {
      if (!formula?.text.includes(PLAN)) return [];
      const tokens = tokenize(formula.text);
      const call = tokens.findIndex((token) => calledFunction(token)?.name === PLAN);
      if (call < 0) return [];
      const [paper = [], event = []] = argumentsAt(tokens, call + 1);
      const at = { sheet: name, row, column };
      return [{ sheet, paper: textOf(paper, at, scope, cellAt), event: textOf(event, at, scope, cellAt) }];
    }),
  );
}

/**
 * The sheet of a workbook that holds a paper, for one event where the workbook has several; undefined where no sheet does.
 * Throws CommandError where it cannot be told which of several is meant.
 */
export function sheetOfPaper(model: WorkbookModel, paper: string, event: string): number | undefined {
  const found = paperSheets(model).filter((one) => same(one.paper, paper));
  if (event === "") {
    const [first, ...more] = found;
    if (more.length > 0)
      throw new CommandError(
        `event must be one of ${found.map((one) => `"${one.event}"`).join(", ")}, found nothing`,
      );
    return first?.sheet;
  }
  return found.find((one) => same(one.event, event))?.sheet;
}

const valuesOf = ({ sheet, range }: TableModel, cellAt: CellFinder): CellValue[][] =>
  mapRange(range, (row, column) => cellAt(sheet, row, column)?.value ?? null);

/** What a sheet made of a computed paper looks like. */
const WIDTHS = { A: 18, B: 44, C: 11, D: 14, E: 34, F: 26 };
const HEADING = { bold: true, borders: { bottom: { style: "thin" } } } as const;
const LINE = { wrap: true, vertical: "top" } as const;
/** Fixed, so that the same workbook always gives the same paper. */
const MADE = { author: "", generator: "Balloon decor functions", date: "2026-01-01T00:00:00Z" };

/**
 * A workbook with one sheet: a paper computed from the tables of a job. Throws CommandError with the sentence of the function
 * where the tables do not make one.
 */
export function computedPaper(model: WorkbookModel, paper: string, event: string): Uint8Array {
  const cellAt = cellFinder(model);
  const tables = model.tables
    .map((table) => valuesOf(table, cellAt))
    .filter((values) => readJob([values]).given.size > 0);
  if (tables.length === 0)
    throw new CommandError(
      `the workbook has no sheet with ${PLAN}("${paper}") and no table of a job, such as pieces or prices`,
    );
  if (tables.length > MOST_TABLES)
    throw new CommandError(
      `the workbook has ${String(tables.length)} tables of a job, more than one paper takes; put ${PLAN}("${paper}", ...) on a sheet`,
    );
  const outcome = plan.call([paper, event === "" ? null : event, ...tables]);
  if (outcome.kind === "error") throw new CommandError(`there is no paper: ${outcome.sentence}`);
  const rows = outcome.kind === "table" ? outcome.rows : [[outcome.value]];
  const cells = rows.flatMap((row, at) =>
    row.map((value, column): [string, NewCell] => [
      cellAddress(at + 2, column),
      { value: valueOf(value), style: at === 0 ? HEADING : LINE },
    ]),
  );
  const title = paper.charAt(0).toUpperCase() + paper.slice(1);
  return createWorkbook({
    ...MADE,
    sheets: [
      {
        name: title,
        columnWidths: WIDTHS,
        cells: {
          A1: { value: event === "" ? title : `${title}: ${event}`, style: { bold: true, fontSize: 16 } },
          ...Object.fromEntries(cells),
        },
        page: {
          orientation: paper === "offer" ? "portrait" : "landscape",
          fit: { wide: 1, tall: paper === "offer" ? 1 : 0 },
          repeatedRows: "3:3",
          paper: 9,
        },
      },
    ],
  });
}

function valueOf(cell: unknown): CellValue {
  if (typeof cell === "number" || typeof cell === "string" || typeof cell === "boolean") return cell;
  return typeof cell === "object" && cell !== null && "error" in cell ? { error: String(cell.error) } : null;
}
