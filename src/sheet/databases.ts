import type { CellValue } from "../workbook/model";
import { type Criterion, criterionOf, type ReadNumber } from "./criteria";
import { CellError, cellsOf, isCells, type PlainArgument, textOf } from "./plain-functions";
import { STATISTICS } from "./statistics";

type Rows = readonly (readonly CellValue[])[];

function rowsIn(argument: PlainArgument): Rows {
  return isCells(argument) ? argument : [[argument]];
}

function isHeader(header: CellValue, name: CellValue): boolean {
  return textOf(header).toLowerCase() === textOf(name).toLowerCase();
}

function columnOf(table: Rows, field: CellValue): number | undefined {
  if (field === null) return undefined;
  const at =
    typeof field === "number"
      ? Math.trunc(field) - 1
      : (table[0] ?? []).findIndex((header) => isHeader(header, field));
  if (at < 0 || at >= (table[0]?.length ?? 0)) throw new CellError("#VALUE!");
  return at;
}

/** The condition of one cell; a text without sign also takes what only begins with it. */
function conditionOf(value: CellValue, readNumber: ReadNumber): Criterion {
  const isBeginning =
    typeof value === "string" &&
    !/^[<>=]/.test(value) &&
    readNumber(value) === undefined &&
    !/[*?]$/.test(value);
  return criterionOf(isBeginning ? `${value}*` : value, readNumber);
}

/** Rows that fulfil every condition of one row of the criteria, whichever that is. */
function found(table: Rows, criteria: Rows, readNumber: ReadNumber): Rows {
  const [headers = [], ...choices] = criteria;
  const [columns = [], ...records] = table;
  const tests = choices.map((choice) =>
    choice.flatMap((value, at): [number, Criterion][] => {
      if (value === null) return [];
      const column = columns.findIndex((header) => isHeader(header, headers[at] ?? null));
      // A text under no header is a formula's result that is not true.
      if (headers[at] === null && typeof value === "string") return [[0, () => false]];
      return column < 0 ? [] : [[column, conditionOf(value, readNumber)]];
    }),
  );
  return records.filter((record) =>
    tests.some((conditions) => conditions.every(([column, test]) => test(record[column] ?? null))),
  );
}

type Summary = (values: readonly CellValue[]) => CellValue;

const numbers = (values: readonly CellValue[]): readonly number[] =>
  values.filter((value) => typeof value === "number");
const statistic =
  (name: string): Summary =>
  (values) =>
    STATISTICS.get(name)?.([values]) ?? null;

const SUMMARIES: Readonly<Record<string, Summary>> = {
  DSUM: (values) => numbers(values).reduce((sum, value) => sum + value, 0),
  DPRODUCT: (values) =>
    numbers(values).length === 0 ? 0 : numbers(values).reduce((product, value) => product * value, 1),
  DCOUNT: (values) => numbers(values).length,
  DCOUNTA: (values) => values.filter((value) => value !== null).length,
  DMAX: (values) => (numbers(values).length === 0 ? 0 : Math.max(...numbers(values))),
  DMIN: (values) => (numbers(values).length === 0 ? 0 : Math.min(...numbers(values))),
  DAVERAGE: statistic("AVERAGEA"),
  DSTDEV: statistic("STDEV"),
  DSTDEVP: statistic("STDEVP"),
  DVAR: statistic("VAR"),
  DVARP: statistic("VARP"),
  DGET(values) {
    if (values.length === 0) throw new CellError("#VALUE!");
    if (values.length > 1) throw new CellError("#NUM!");
    return values[0] ?? null;
  },
};

/** Functions of a table with headers and rows of conditions. */
export function databaseFunctions(
  readNumber: ReadNumber,
): ReadonlyMap<string, (...args: PlainArgument[]) => CellValue> {
  return new Map(
    Object.entries(SUMMARIES).map(([name, summary]) => [
      name,
      (table: PlainArgument = null, field: PlainArgument = null, criteria: PlainArgument = null) => {
        const rows = rowsIn(table);
        if (rows.length < 2 || cellsOf(field).length > 1) throw new CellError("#VALUE!");
        const column = columnOf(rows, cellsOf(field)[0] ?? null);
        const records = found(rows, rowsIn(criteria), readNumber);
        // Without a field the records themselves are counted.
        if (column === undefined && /^DCOUNT/.test(name)) return records.length;
        const values = records.map((record) => record[column ?? 0] ?? null);
        return summary(name === "DAVERAGE" ? numbers(values) : values);
      },
    ]),
  );
}
