import { describe, expect, it } from "vitest";
import { catalogue, functionNamed } from "../../src/functions/catalogue";
import type { CatalogueFunction, ExampleArgument, Outcome } from "../../src/functions/definition";
import type { Param } from "../../src/functions/param";
import { faultOf, leastWorkOf, MOST_MILLISECONDS } from "./outcome-faults";

// Excel's own limits: rows of a sheet and characters of a cell.
const SHEET_ROWS = 1_048_576;
const CELL_CHARACTERS = 32_767;
const MOST_ROWS = 20_000;

const isTimed = process.env["FUZZ_CALLS"] !== undefined;
const isRange = (param: Param): boolean => param.kind === "list" || param.kind === "table";
const withRanges = catalogue.filter((fn) => fn.params.some(isRange) && fn.examples.length > 0);

/** The rows of an example's argument; a list that lies along a row is stood up. */
function rowsOf(param: Param, argument: ExampleArgument | undefined): readonly (readonly unknown[])[] {
  if (!Array.isArray(argument)) return [[argument ?? null]];
  const rows = (argument as readonly unknown[]).map((row): readonly unknown[] =>
    Array.isArray(row) ? row : [row],
  );
  return param.kind === "list" && rows.length === 1 ? (rows[0] ?? []).map((cell) => [cell]) : rows;
}

/** The first example's arguments with every given range replaced. */
function withLongRanges(
  fn: CatalogueFunction,
  lengthen: (rows: readonly (readonly unknown[])[]) => readonly (readonly unknown[])[],
): readonly unknown[] {
  return fn.params.map((param, index) => {
    const argument = fn.examples[0]?.args[index];
    return isRange(param) && Array.isArray(argument) ? lengthen(rowsOf(param, argument)) : (argument ?? null);
  });
}

/** The outcome, and the work of the best of three calls where times count, in milliseconds. */
function timed(fn: CatalogueFunction, args: readonly unknown[]): { outcome: Outcome; best: number } {
  const outcome = fn.call(args);
  return { outcome, best: isTimed ? leastWorkOf(() => fn.call(args)) : Infinity };
}

const upright = (outcome: Outcome): unknown =>
  outcome.kind === "table" && outcome.rows.length === 1
    ? { kind: "table", rows: outcome.rows[0]?.map((cell) => [cell]) }
    : outcome;

describe.each(withRanges.map((fn) => [fn.name, fn] as const))("%s", (_name, fn) => {
  it.each([null, ""])(
    "answers whole columns, blank below as %j, as it answers their filled rows",
    (blank) => {
      const args = withLongRanges(fn, (rows) => {
        // Not frozen, as hosts send it: frozen arrays are read five times slower.
        const empty = new Array<unknown>(rows[0]?.length ?? 1).fill(blank);
        return rows.concat(new Array<readonly unknown[]>(SHEET_ROWS - rows.length).fill(empty));
      });
      const { outcome, best } = timed(fn, args);
      // A list like an argument lies as it does, here down a column.
      const expected = fn.call(withLongRanges(fn, (rows) => rows));
      expect(upright(outcome)).toEqual(upright(expected));
      if (isTimed) expect(best, "milliseconds for whole columns").toBeLessThan(MOST_MILLISECONDS);
    },
  );

  it("survives as many filled rows as it takes, and one more", () => {
    for (const length of [MOST_ROWS, MOST_ROWS + 1]) {
      const args = withLongRanges(fn, (rows) =>
        Array.from(
          { length },
          (_, index) => rows[index < 1 ? 0 : 1 + ((index - 1) % (rows.length - 1 || 1))] ?? [],
        ),
      );
      const { outcome, best } = timed(fn, args);
      expect(faultOf(fn, outcome)).toBeUndefined();
      if (isTimed) expect(best, `milliseconds for ${length} rows`).toBeLessThan(2000);
    }
  });
});

// Shapes that make a careless pattern match go through every way to split them.
const LONGEST = [
  " ",
  "9",
  "1,",
  "1 ",
  "1/",
  "½",
  "-",
  "(",
  "'",
  "x",
  "x ",
  "€",
  "1h",
  "٣",
  "🎈",
  "\u0000",
].map((piece) => piece.repeat(CELL_CHARACTERS).slice(0, CELL_CHARACTERS - 1));

// Every kind of cell is read by one piece of code, so one parameter of each kind stands for all.
const ofEachKind = new Map(
  catalogue.flatMap((fn) => fn.params.map((param, index) => [param.kind, { fn, index }] as const)),
);

describe("a cell with as much text as Excel holds", () => {
  it.each([...ofEachKind])("is read or refused as %s", (_kind, { fn, index }) => {
    const name = fn.params[index]?.name ?? "";
    for (const text of LONGEST.flatMap((long) => [long, `${long}!`])) {
      const args: unknown[] = fn.params.map((_, at) => fn.examples[0]?.args[at] ?? null);
      args[index] = text;
      const { outcome, best } = timed(fn, args);
      const where = `${fn.name} ${name} ${JSON.stringify(text.slice(0, 4))}…`;
      expect(faultOf(fn, outcome), where).toBeUndefined();
      if (outcome.kind === "error") expect(outcome.sentence.length, where).toBeLessThan(500);
      if (isTimed) expect(best, `milliseconds for ${where}`).toBeLessThan(MOST_MILLISECONDS);
    }
  });
});

it("answers thousands of different names, none of which is on any other list", () => {
  const colour = (index: number): string => `colour ${(index * 7919).toString(36)}`;
  const numbers = Array.from({ length: 3000 }, (_, index) => index);
  const needs = [["printed", "colour", "with spares"], ...numbers.map((index) => [11, colour(index), 10])];
  const listed = numbers.map((index) => ["Town", 11, colour(index + 3000), 50, 9]);
  const stock = numbers.map((index) => [11, colour(index + 6000), 10]);
  const pieces = [
    ["name", "kind", "quantity", "balloons", "printed", "palette"],
    ...numbers.map((index) => ["Piece", "count", 1, 10, 11, `palette ${index}`]),
  ];
  const palettes = [
    ["palette", "colour", "share"],
    ...numbers.map((index) => [`palette ${index}`, colour(index), 1]),
  ];
  const calls: readonly (readonly [string, readonly unknown[]])[] = [
    ["NEEDS_PLAN", [pieces, palettes]],
    ["BUY_PLAN", [needs, [["supplier", "printed", "colour", "bag", "price"], ...listed], stock]],
    ["STOCK_AFTER", [stock, needs]],
    ["SIMILAR_PLAN", [numbers.map((index) => [colour(index)])]],
  ];
  for (const [name, args] of calls) {
    const fn = functionNamed(name);
    if (fn === undefined) throw new Error(`there is no function ${name}`);
    const { outcome, best } = timed(fn, args);
    expect(outcome.kind, name).toBe("table");
    if (isTimed) expect(best, `milliseconds for ${name}`).toBeLessThan(1000);
  }
});
