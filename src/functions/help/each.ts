import type { CalcError } from "../../core/calc-error";
import { invalid } from "../../core/calc-error";
import { withheld } from "../../core/withheld";
import { define } from "../define";
import type { CatalogueFunction, Cell, Outcome } from "../definition";
import { BLANK } from "../result-rows";
import { NAMESPACE } from "../formula-style";
import type { TableParam } from "../param";
import { cellsOfRow, isEmptyRow, MOST_ROWS, rangeRows } from "../read-range";

const MOST_RANGES = 12;
const GUIDE = "one cell for all rows, a column, or several columns for several arguments.";

const ranges: readonly TableParam[] = Array.from({ length: MOST_RANGES }, (_, index) => ({
  name: `range_${index + 1}`,
  text: index === 0 ? `Its first argument: ${GUIDE}` : "Its next argument, likewise.",
  kind: "table",
  columns: [],
  raw: true,
  ...(index > 0 && { optional: true as const }),
}));

interface Block {
  readonly name: string;
  readonly rows: readonly unknown[];
}

/** True for a function that takes single cells and gives one value. */
function isForRows({ params, result }: CatalogueFunction): boolean {
  const isSingle = params.every(({ kind }) => kind !== "list" && kind !== "table");
  return result.kind === "value" && params.length > 0 && isSingle;
}

/** The function that a name stands for, with or without namespace; undefined for one that takes no rows. */
export function functionForRows(
  functions: readonly CatalogueFunction[],
  name: unknown,
): CatalogueFunction | undefined {
  const plain = String(name)
    .trim()
    .replace(new RegExp(`^=?(?:${NAMESPACE}[._])?`, "i"), "")
    .replace(/\(.*$/, "");
  const wanted = plain.trim().replaceAll(" ", "_").toUpperCase();
  return functions.find((fn) => fn.name === wanted && isForRows(fn));
}

/** The ranges that are given; those that are left out at the end are dropped, others keep their place. */
function blocksOf(args: readonly unknown[]): readonly Block[] {
  const blocks = args.map((value, index) => ({ name: `range_${index + 1}`, rows: rangeRows(value) }));
  const isGiven = ({ rows }: Block): boolean => rows.length > 1 || !isEmptyRow(cellsOfRow(rows[0]), true);
  return blocks.slice(0, blocks.findLastIndex(isGiven) + 1);
}

/** Those blocks that have a row of their own for each call. */
function longBlocks(blocks: readonly Block[]): readonly Block[] {
  const long = blocks.filter(({ rows }) => rows.length > 1);
  const [first] = long;
  const other = long.find(({ rows }) => rows.length !== first?.rows.length);
  if (first !== undefined && other !== undefined) {
    const expectation = `have ${first.rows.length} rows as ${first.name} has, or one`;
    throw invalid(other.name, expectation, { written: `${other.rows.length}` });
  }
  return long;
}

function cellOf(outcome: Outcome): Cell {
  if (outcome.kind === "value") return outcome.value;
  return withheld(outcome.kind === "error" ? outcome.sentence : "a table has no place in one cell");
}

function callRows(fn: CatalogueFunction, blocks: readonly Block[]): readonly Cell[] {
  const long = longBlocks(blocks);
  const widths = blocks.map(({ rows }) => cellsOfRow(rows[0]).length);
  const width = widths.reduce((sum, columns) => sum + columns, 0);
  const most = fn.params.length;
  if (width > most) {
    const last = blocks.at(-1)?.name ?? "range_1";
    throw invalid(last, `end with argument ${most} of ${fn.name}`, { written: `${width} columns in all` });
  }
  const call = (row: number): Outcome =>
    fn.call(blocks.flatMap(({ rows }) => cellsOfRow(rows.length > 1 ? rows[row] : rows[0])));
  const isEmpty = (row: number, zerosCount: boolean): boolean =>
    long.every(({ rows }) => isEmptyRow(cellsOfRow(rows[row]), zerosCount));
  if (long.length === 0) return [cellOf(call(0))];
  const height = long[0]?.rows.length ?? 0;
  let filled = height;
  while (filled > 0 && isEmpty(filled - 1, false)) filled -= 1;
  // A closing 0 is a value where the function takes it; elsewhere it is a host's stand-in for a blank end.
  if (height <= MOST_ROWS)
    while (filled < height && !isEmpty(filled, true) && call(filled).kind === "value") filled += 1;
  if (filled > MOST_ROWS)
    throw invalid("range_1", `have at most ${MOST_ROWS} filled rows`, { written: String(filled) });
  if (filled === 0) throw invalid(long[0]?.name ?? "range_1", "be given", undefined);
  return Array.from({ length: filled }, (_, row) => (isEmpty(row, true) ? BLANK : cellOf(call(row))));
}

/**
 * Makes the function that calls one of `functions` for each row of its ranges: one call of the sheet in place of hundreds.
 * A row that fails fails alone.
 */
export function eachRow(functions: readonly CatalogueFunction[]): CatalogueFunction {
  return define({
    name: "EACH",
    category: "Help for sheets",
    text: "Calls a function for each row of its ranges and gives a column of results; a row that is wrong is wrong alone.",
    asks: ["a whole column at once", "count every row of a list", "one formula for all rows", "array form"],
    params: [
      {
        name: "function_name",
        kind: "text",
        text: 'A function that takes single cells and gives one value, such as "COUNT_COLUMN".',
      },
      ...ranges,
    ],
    result: {
      kind: "list",
      measure: "number",
      like: "range_1",
      text: "A column with one result for each row, in the unit of the function; blank rows stay blank.",
    },
    source: "The function named, once for each row",
    limits:
      "An Excel that sends 0 for blank cells needs ranges without blank rows in between. Dates need a date format. Functions that take a whole list or table have no row form.",
    examples: [
      {
        args: [
          "COUNT_COLUMN",
          [
            [1.8, 10],
            ["6 ft", 9],
          ],
        ],
        gives: [[40], [48]],
        working: "the two examples of COUNT_COLUMN, one below the other",
        source: "common practice, no source: two clusters of four to the foot",
      },
      {
        args: ["METRES", [["6 ft"], [null], ["28 cm"]]],
        gives: [[1.8288], [BLANK], [0.28]],
        within: 1e-12,
        working: "6 x 0.3048 m; a blank row; 28/100 m",
        source: "NIST SP 811: 1 ft = 0.3048 m exactly",
      },
    ],
    failures: [
      {
        args: ["COUNT_CLOUD", [[1], [2]]],
        gives: "#VALUE!",
        when: "there is no such function",
        says: "function_name must be the name of a function",
      },
      {
        args: ["BAG_PLAN", [[1], [2]]],
        gives: "#VALUE!",
        when: "the function gives a table",
        says: "function_name must be one that takes single cells",
      },
      {
        args: ["COUNT_COLUMN", [[1.8], [2], [3]], [[10], [11]]],
        gives: "#VALUE!",
        when: "the ranges have other numbers of rows",
        says: "range_2 must have 3 rows as range_1 has, or one, found 2",
      },
      {
        args: ["METRES", [[1, 2]]],
        gives: "#VALUE!",
        when: "the function has fewer arguments",
        says: "range_1 must end with argument 1 of METRES, found 2 columns in all",
      },
    ],
    compute: (name: string, ...args: readonly unknown[]) => {
      const blocks = blocksOf(args);
      const fn = functionForRows(functions, name);
      if (fn === undefined) throw refusedName(functions, name);
      if (blocks.length === 0) throw invalid("range_1", "be given", undefined);
      return callRows(fn, blocks);
    },
  });
}

function refusedName(functions: readonly CatalogueFunction[], name: string): CalcError {
  const expectation = functions.some((fn) => fn.name === name.trim().toUpperCase())
    ? "be one that takes single cells and gives one value"
    : 'be the name of a function, such as "COUNT_COLUMN"';
  return invalid("function_name", expectation, name);
}
