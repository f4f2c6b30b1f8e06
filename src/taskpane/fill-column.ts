import type { SheetArea } from "../formula/scope";
import type { CatalogueFunction } from "../functions/definition";
import { NAMESPACE } from "../functions/formula-style";
import { isOptional, isQuantity, limitsOf, type Param, type ScalarParam } from "../functions/param";
import { readScalar } from "../functions/read-scalar";
import { comparable } from "../functions/read-text";
import { cellAddress, type CellRange, contains } from "../formula/address";
import { escapedTitle } from "../formula/resolve";
import type { CellRows, Outline, SheetHost } from "./sheet-host";

/** A list with titles in its first row: a table of Excel's, or a filled rectangle. */
export interface TitledList extends SheetArea {
  /** Name of the table, where it is one. */
  readonly table?: string;
  readonly titles: readonly string[];
  /** Rows below the titles, totals left out. */
  readonly firstRow: number;
  readonly lastRow: number;
  /** The column to fill: position among the titles; one past the last is a new column. */
  readonly target: number;
}

/** Where an argument of each row comes from: a column by its position, or a text of the formula that is the same in every row. */
export type ArgumentSource = { readonly column: number } | { readonly text: string };

const PROBES = [1, 5, 20, 100, 500];

function words(title: string): readonly string[] {
  return comparable(title.replace(/[()[\]_,:]/g, " "))
    .split(/\s+/)
    .filter((word) => word !== "");
}

/** True where the parameter reads `word` as a unit behind a number. */
function isUnitOf(param: ScalarParam, word: string): boolean {
  return PROBES.some((number) => {
    try {
      readScalar(param.name, param, `${number} ${word}`);
      return true;
    } catch {
      return false;
    }
  });
}

/** A unit at the end of a title that differs from the one a bare number has. */
function foreignUnit(param: Param, title: string): string | undefined {
  const last = words(title).at(-1);
  if (last === undefined || param.kind === "list" || param.kind === "table" || !isQuantity(param))
    return undefined;
  return words(title).length > 1 && last !== limitsOf(param).unit?.toLowerCase() && isUnitOf(param, last)
    ? last
    : undefined;
}

function isNamed(param: Param, title: string): boolean {
  const wanted = words(param.name);
  const found = words(title);
  const rest = found.slice(wanted.length);
  const isScalar = param.kind !== "list" && param.kind !== "table";
  return (
    wanted.every((word, index) => found[index] === word) &&
    (rest.length === 0 || (rest.length === 1 && isScalar && isUnitOf(param, rest[0] ?? "")))
  );
}

/** The column whose title names a parameter, a unit behind it or not. */
export function columnFor(param: Param, titles: readonly string[], target: number): number | undefined {
  const index = titles.findIndex((title, position) => position !== target && isNamed(param, title));
  return index < 0 ? undefined : index;
}

/** Why a function cannot fill a column, or undefined where it can. */
export function fillFault(fn: CatalogueFunction): string | undefined {
  return fn.result.kind === "value"
    ? undefined
    : `${fn.name} gives a table: put it in one cell with room below and to the right`;
}

function cellText(list: TitledList, column: number, row: number): string {
  if (list.table !== undefined) return `[@[${escapedTitle(list.titles[column] ?? "")}]]`;
  return cellAddress(row, list.range.firstColumn + column);
}

function argumentText(param: Param, source: ArgumentSource, list: TitledList, row: number): string {
  if ("text" in source) return source.text;
  const cell = cellText(list, source.column, row);
  const unit = foreignUnit(param, list.titles[source.column] ?? "");
  return unit === undefined ? cell : `${cell}&" ${unit}"`;
}

/** The formulas of a column, one for each row. */
export function columnFormulas(
  fn: CatalogueFunction,
  sources: readonly ArgumentSource[],
  list: TitledList,
): CellRows {
  return Array.from({ length: list.lastRow - list.firstRow + 1 }, (_, down) => {
    const args = fn.params.map((param, index) =>
      argumentText(param, sources[index] ?? { text: "" }, list, list.firstRow + down),
    );
    while (args.at(-1) === "") args.pop();
    return [`=${NAMESPACE}.${fn.name}(${args.join(", ")})`];
  });
}

/** Names of required parameters that no column and no text gives. */
export function missingSources(fn: CatalogueFunction, sources: readonly ArgumentSource[]): readonly string[] {
  return fn.params.flatMap((param, index) => {
    const source = sources[index];
    const isGiven = source !== undefined && ("column" in source || source.text !== "");
    return isGiven || isOptional(param) ? [] : [param.name.replaceAll("_", " ")];
  });
}

/** The cells that a filled column takes. */
export function targetRange(list: TitledList): SheetArea {
  const column = list.range.firstColumn + list.target;
  return {
    sheet: list.sheet,
    range: { firstRow: list.firstRow, lastRow: list.lastRow, firstColumn: column, lastColumn: column },
  };
}

function isTitleRow(titles: readonly unknown[]): titles is readonly string[] {
  return titles.every((title) => typeof title === "string") && titles.some((title) => title !== "");
}

/** The list that holds the selected cell, or begins left of it; undefined where there is none. */
export async function listAtSelection(host: SheetHost, outline: Outline): Promise<TitledList | undefined> {
  const { sheet, range } = await host.selection();
  const { firstRow: row, firstColumn: column } = range;
  const touches = (area: CellRange): boolean =>
    contains(area, row, column) || contains(area, row, Math.max(0, column - 1));
  const table = outline.tables.find((candidate) => candidate.sheet === sheet && touches(candidate.range));
  if (table !== undefined) {
    return {
      sheet,
      table: table.name,
      range: table.range,
      titles: table.columns,
      firstRow: table.range.firstRow + table.headerRows,
      lastRow: table.range.lastRow - table.totalsRows,
      target: column - table.range.firstColumn,
    };
  }
  const inside = await host.surrounding({ sheet, row, column });
  const left = column > 0 ? await host.surrounding({ sheet, row, column: column - 1 }) : inside;
  const around = inside.lastRow > inside.firstRow ? inside : left;
  if (around.lastRow === around.firstRow || !touches(around)) return undefined;
  const titleRow = { ...around, lastRow: around.firstRow };
  const [block] = await host.read([{ sheet, range: titleRow }]);
  const [titles = []] = block?.values ?? [];
  if (!isTitleRow(titles)) return undefined;
  return {
    sheet,
    range: around,
    titles,
    firstRow: around.firstRow + 1,
    lastRow: around.lastRow,
    target: column - around.firstColumn,
  };
}
