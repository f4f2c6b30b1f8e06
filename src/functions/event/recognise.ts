import { shown } from "../../core/calc-error";
import type { Sort } from "../../core/event/job";
import type { Problem } from "../../core/problem";
import { likeness } from "../../core/palette/names";
import { isTitled, located, readHeading, titlesOf, type Heading, type Located } from "../headings";
import { holdsError, plainCell } from "../incoming";
import type { TableColumn } from "../param";
import { cellsOfRow, isEmptyRow, rangeRows } from "../read-range";
import { resultWith } from "../results";
import { isBlank } from "../read-scalar";
import { comparable } from "../read-text";
import { columnsOfSort, mayBeHeader, nearestSort, sortsOf } from "./sorts";

/** A filled row of a range with its number in it, from 1. */
export interface FilledRow {
  readonly row: number;
  readonly cells: readonly unknown[];
}

/** Something found about a range; `what` takes the name that sentences give to it. */
export interface Finding extends Pick<Problem, "weight" | "todo" | "reach"> {
  readonly what: (name: string) => string;
  readonly row?: number;
}

/** A range that is a table of a job. */
export interface Recognised {
  readonly sort: Sort;
  readonly spots: readonly Located[];
  readonly body: readonly FilledRow[];
  /** Headings that are no column of the sort. */
  readonly unread: readonly string[];
  readonly findings: readonly Finding[];
}

/** A range that is none; `failure` takes its name, such as `table 3`. */
export interface Unknown {
  readonly failure: (name: string) => string;
}

const MOST_ROWS = 20000;
const MOST_ROWS_ABOVE = 20;

/** Filled rows of the tables that every model goes through again and again: far more than a job has, and still seconds. */
const MOST_ROWS_OF: Readonly<Partial<Record<Sort, number>>> = {
  pieces: 500,
  palettes: 2000,
  goods: 300,
  work: 500,
  terms: 500,
  events: 100,
  vehicles: 100,
  names: 2000,
  past_jobs: 2000,
  delivery: 1000,
};

/** True for what no sheet holds and no host is known to send: an object without a value, or a kind such as a big integer. */
function isStrange(cell: unknown): boolean {
  if (typeof cell === "object" && cell !== null) {
    const plain = plainCell(cell);
    return typeof plain === "object" && plain !== null && !holdsError(plain);
  }
  return !["string", "number", "boolean", "undefined", "object"].includes(typeof cell);
}

/** A strange cell in words, so that the sentence about it can be read and nothing else has to know it. */
function told(cell: unknown): unknown {
  return isStrange(cell) ? shown(cell) : cell;
}

/** The filled rows of a range; rows beyond the most that a table may have are only counted. */
export function filledRows(range: unknown): { readonly rows: readonly FilledRow[]; readonly count: number } {
  const rows: FilledRow[] = [];
  let count = 0;
  const all = rangeRows(range);
  for (let index = 0; index < all.length; index += 1) {
    const cells = cellsOfRow(all[index]);
    if (isEmptyRow(cells, false)) continue;
    count += 1;
    if (count <= MOST_ROWS)
      rows.push({ row: index + 1, cells: cells.some(isStrange) ? cells.map(told) : cells });
  }
  return { rows, count };
}

const stop = (what: Finding["what"], todo: string, reach: Problem["reach"] = { of: "job" }): Finding => ({
  weight: "stop",
  what,
  todo,
  reach,
});

const check = (what: Finding["what"], todo: string): Finding => ({
  weight: "check",
  what,
  todo,
  reach: { of: "none" },
});

function written(headings: readonly Heading[]): string {
  const texts = headings.map(({ text }) => text).filter((text) => text !== "");
  return texts.length === 0 ? "no heading" : `the columns ${texts.slice(0, 12).join(", ")}`;
}

function unknown(rows: readonly FilledRow[]): Unknown {
  const headers = rows.slice(0, MOST_ROWS_ABOVE).map(({ cells }) => cells.map(readHeading));
  const named = headers.map((headings) => ({ headings, near: nearestSort(headings) }));
  const best = named.find(({ near }) => near !== undefined) ?? named[0];
  const near = best?.near;
  const needs = near?.missing.map((name) => `"${name}"`).join(", ") ?? "";
  const hint =
    near === undefined
      ? ""
      : needs === ""
        ? `; nearest is ${near.sort}`
        : `; nearest is ${near.sort}, which also needs ${needs}`;
  return {
    failure: (name) =>
      `${name} must be one of the job's tables, found ${written(best?.headings ?? [])}${hint}`,
  };
}

/** Where the columns of a sort stand; an exact name wins over another word for it. */
function placed(
  columns: readonly TableColumn[],
  headings: readonly Heading[],
): { readonly spots: readonly Located[]; readonly findings: readonly Finding[] } {
  const spots: Located[] = [];
  const findings: Finding[] = [];
  for (const column of columns) {
    const [name = "", ...aliases] = titlesOf(column);
    const at = (titles: readonly string[]): readonly number[] =>
      headings.flatMap((heading, index) => (isTitled(heading, titles) ? [index] : []));
    const exact = at([name]);
    const found = exact.length > 0 ? exact : at(aliases);
    const [index] = found;
    if (index === undefined) continue;
    spots.push(located(column, index, headings[index]));
    if (found.length > 1) {
      const what = (table: string): string =>
        `${table} must have one column "${column.name}", found ${found.length}`;
      findings.push(stop(what, "rename the columns that are not meant"));
    }
  }
  return { spots, findings };
}

function unreadFindings(
  sort: Sort,
  headings: readonly Heading[],
  spots: readonly Located[],
  body: readonly FilledRow[],
): readonly Finding[] {
  const taken = new Set(spots.map(({ index }) => index));
  const absent = columnsOfSort(sort)
    .filter((column) => !spots.some((spot) => spot.column === column))
    .map(({ name }) => name);
  const hasNumbers = (index: number): boolean =>
    body.some(({ cells }) => {
      const cell = plainCell(cells[index]);
      return typeof cell === "number" && cell !== 0;
    });
  const hasCells = (index: number): boolean =>
    body.some(({ cells }) => !isBlank(plainCell(cells[index])) && plainCell(cells[index]) !== 0);
  const width = Math.max(headings.length, ...body.map(({ cells }) => cells.length));
  const findings: Finding[] = [];
  for (let index = 0; index < width; index += 1) {
    if (taken.has(index)) continue;
    const { text = "", title = "" } = headings[index] ?? {};
    const like =
      title === "" ? undefined : absent.find((name) => likeness(comparable(name), title) !== undefined);
    const column = text === "" ? `column ${index + 1} without a heading` : `column "${text}"`;
    const isCounted = hasNumbers(index);
    const meant = like === undefined ? "" : `; did you mean "${like}"`;
    const rename =
      text === ""
        ? "type its heading, or leave it out of the range"
        : like === undefined
          ? "rename it, or delete it"
          : `write "${like}"`;
    if (isCounted && sort === "pieces" && absent.includes("quantity"))
      findings.push(
        stop(
          (table) =>
            `${table}: ${column} holds numbers that are not read, and no column says "quantity"${meant}`,
          'name the column "quantity" if it says how many, or add a column "quantity"',
        ),
      );
    else if (isCounted)
      findings.push(check((table) => `${table}: ${column} holds numbers that are not read${meant}`, rename));
    else if (like !== undefined || (text === "" && hasCells(index)))
      findings.push(check((table) => `${table}: ${column} is not read${meant}`, rename));
  }
  return findings;
}

function missingFindings(sort: Sort, spots: readonly Located[]): readonly Finding[] {
  return columnsOfSort(sort)
    .filter((column) => column.optional !== true && column.default === undefined && sort !== "events")
    .filter((column) => !spots.some((spot) => spot.column === column))
    .map(({ name }) =>
      stop((table) => `${table} must have a column "${name}"`, `add a column "${name}"`, { of: "tables" }),
    );
}

/** Tells what table a range is, by the first of its first rows that carries the sign of one. */
export function recognise(rows: readonly FilledRow[], count: number): Recognised | Unknown {
  if (count > rows.length)
    return { failure: (name) => `${name} must have at most ${MOST_ROWS} filled rows, found ${count}` };
  for (const [at, { cells }] of rows.slice(0, MOST_ROWS_ABOVE).entries()) {
    const result = resultWith(cells);
    if (result !== undefined)
      return { failure: (name) => `${name} must be a table of your own, found the result of ${result}` };
    const headings = cells.map(readHeading);
    const sorts = sortsOf(headings);
    const [sort, other] = sorts;
    if (sort === undefined) continue;
    const most = MOST_ROWS_OF[sort] ?? MOST_ROWS;
    if (rows.length - at - 1 > most)
      return {
        failure: (name) =>
          `${name} must have at most ${most} filled rows of ${sort}, found ${rows.length - at - 1}`,
      };
    if (other !== undefined)
      return { failure: (name) => `${name} must be one table, found the headings of ${sorts.join(" and ")}` };
    return table(sort, headings, rows.slice(at + 1));
  }
  return unknown(rows);
}

function table(sort: Sort, headings: readonly Heading[], below: readonly FilledRow[]): Recognised {
  const again = below.findIndex(({ cells }) => isHeader(cells));
  const body = again < 0 ? below : below.slice(0, again);
  const second = below[again];
  const { spots, findings } = placed(columnsOfSort(sort), headings);
  const taken = new Set(spots.map(({ index }) => index));
  const repeated: readonly Finding[] =
    second === undefined
      ? []
      : [
          {
            ...stop(
              (name) => `${name} row ${second.row} must not be a second header: one table for each range`,
              "give the tables as two ranges",
            ),
            row: second.row,
          },
        ];
  return {
    sort,
    spots,
    body,
    unread: headings.filter(({ text }, index) => text !== "" && !taken.has(index)).map(({ text }) => text),
    findings: [
      ...missingFindings(sort, spots),
      ...findings,
      ...repeated,
      ...unreadFindings(sort, headings, spots, body),
    ],
  };
}

/** Letters that a heading has at most; a longer text is none, and reading it as one takes time. */
const LONGEST_HEADING = 255;

/** True where a row of cells is the header of a table of a job. */
export function isHeader(cells: readonly unknown[]): boolean {
  const texts = cells.map((cell) => (typeof cell === "string" && cell.length <= LONGEST_HEADING ? cell : ""));
  if (texts.filter((text) => text !== "").length < 2) return false;
  const headings = texts.map(readHeading);
  return mayBeHeader(headings) && sortsOf(headings).length > 0;
}
