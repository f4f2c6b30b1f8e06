import fc from "fast-check";
import { afterEach, describe, expect, it } from "vitest";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { type TestCell, workbookOf } from "./workbook-of";

let engine = new UniverEngine([]);
afterEach(() => {
  engine.dispose();
});

const REFERS_TO_ITSELF = "it refers to itself, directly or through others";

/** Rows of one sheet, each made of its number. */
async function load(rows: number, rowOf: (row: number) => Readonly<Record<string, TestCell>>): Promise<void> {
  engine = new UniverEngine([]);
  const cells = Array.from({ length: rows }, (_, at) => rowOf(at + 1));
  await engine.load(workbookOf({ S: Object.assign({}, ...cells) as Record<string, TestCell> }));
}

const valueAt = (row: number, column: number): unknown => engine.value({ sheet: 0, row: row - 1, column });

describe("a formula that needs the neighbour that the one before needed", () => {
  it("is computed once, and not halfway before", async () => {
    await load(100, (row) => ({
      [`A${row}`]: { f: row === 1 ? "SUM(C1:C100)" : "1" },
      [`B${row}`]: row,
      [`C${row}`]: { f: `D${row}*B${row}` },
      [`D${row}`]: { f: `B${row}+1` },
    }));
    const begun: string[] = [];
    await engine.recalculate({
      onFormula: ({ row, column }) => begun.push(`${String(column)}/${String(row)}`),
    });
    // The sum over n (n + 1) up to 100 is 100 x 101 x 102 / 3.
    expect(valueAt(1, 0)).toBe(343_400);
    // Only the first of column C finds out what it needs by trying, and the total waits for all of them.
    expect(begun.length - new Set(begun).size).toBeLessThanOrEqual(2);
  });

  it("does not wait for it where it takes another branch, though that one needs it", async () => {
    await load(40, (row) => ({
      [`A${row}`]: { f: `IF(D${row}=1,B${row},7)` },
      [`B${row}`]: { f: `IF(D${row}=1,5,A${row}+1)` },
      [`D${row}`]: row % 3 === 0 ? 1 : 0,
    }));
    expect((await engine.recalculate()).uncomputed).toEqual([]);
    for (let row = 1; row <= 40; row++)
      expect([valueAt(row, 0), valueAt(row, 1)]).toEqual(row % 3 === 0 ? [5, 5] : [7, 8]);
  });

  it("is named where it and the neighbour refer to each other, row by row", async () => {
    await load(4, (row) => ({
      [`A${row}`]: { f: `B${row}+1`, v: 1 },
      [`B${row}`]: { f: row === 2 ? "10" : `A${row}+1`, v: 2 },
    }));
    const { uncomputed } = await engine.recalculate({ differences: "accept" });
    const named = uncomputed.map(({ row, column, why }) => [row + 1, column, why]);
    const rings = [1, 3, 4].flatMap((row) => [0, 1].map((column) => [row, column, REFERS_TO_ITSELF]));
    expect(named).toEqual(expect.arrayContaining(rings));
    expect(named).toHaveLength(rings.length);
    expect([valueAt(2, 0), valueAt(2, 1)]).toEqual([11, 10]);
  });

  it("does not draw those that need it into its own reference to itself", async () => {
    await load(6, (row) => ({
      [`A${row}`]: { f: `IF(D${row}=1,B${row},IF(D${row}=2,A${row},1))`, v: 30 },
      [`B${row}`]: { f: row % 2 === 0 ? `C${row}+1` : "5", v: 0 },
      [`C${row}`]: { f: row % 2 === 0 ? `A${row}+1` : "5", v: 0 },
      [`D${row}`]: row % 2 === 0 ? 2 : 1,
    }));
    const { uncomputed } = await engine.recalculate({ differences: "accept" });
    expect(uncomputed.map(({ row, column, why }) => [row + 1, column, why])).toEqual(
      [2, 4, 6].map((row) => [row, 0, REFERS_TO_ITSELF]),
    );
    for (const row of [2, 4, 6])
      expect([valueAt(row, 0), valueAt(row, 2), valueAt(row, 1)]).toEqual([30, 31, 32]);
  });

  it("gives what each formula gives by itself, and names exactly those that go round in circles", async () => {
    const COLUMNS = "BCD";
    const ROWS = 8;
    // The block lies in the middle of blank cells, so that every neighbour exists.
    const FIRST = 4;
    const way = fc.record({
      rows: fc.integer({ min: -2, max: 2 }),
      columns: fc.integer({ min: -1, max: 1 }),
    });
    const block = fc.record({
      ways: fc.array(fc.tuple(way, way), { minLength: COLUMNS.length, maxLength: COLUMNS.length }),
      turns: fc.array(fc.boolean(), { minLength: ROWS, maxLength: ROWS }),
    });
    await fc.assert(
      fc.asyncProperty(block, async ({ ways, turns }) => {
        const places = turns.flatMap((_, row) => ways.map((__, column) => ({ row, column })));
        const keyAt = (row: number, column: number): string => `${String(row)}/${String(column)}`;
        const stored = (row: number, column: number): number => 1000 * (row + 1) + 100 * column;
        const next = (row: number, column: number): { readonly row: number; readonly column: number } => {
          const [first, second] = ways[column] ?? [];
          const taken = turns[row] === true ? first : second;
          return { row: row + (taken?.rows ?? 0), column: column + (taken?.columns ?? 0) };
        };
        const inBlock = (row: number, column: number): boolean =>
          row >= 0 && row < ROWS && column >= 0 && column < COLUMNS.length;
        /** Each formula has one way to go on, so that it is in a circle if it comes back to itself. */
        const isCircular = (row: number, column: number): boolean => {
          let at = next(row, column);
          for (let step = 0; step <= places.length && inBlock(at.row, at.column); step++) {
            if (at.row === row && at.column === column) return true;
            at = next(at.row, at.column);
          }
          return false;
        };
        const valueOf = (row: number, column: number): number => {
          if (!inBlock(row, column)) return 0;
          if (isCircular(row, column)) return stored(row, column);
          const to = next(row, column);
          return valueOf(to.row, to.column) + 1;
        };
        const address = (row: number, column: number): string =>
          `${String.fromCharCode(66 + column)}${String(row + FIRST)}`;
        await load(ROWS, (number) => {
          const row = number - 1;
          const formulas = ways.map(([first, second], column) => {
            const to = (one: typeof first): string => address(row + one.rows, column + one.columns);
            const f = `IF($H${String(row + FIRST)},${to(first)},${to(second)})+1`;
            return [address(row, column), { f, v: stored(row, column) }] as const;
          });
          return Object.fromEntries([...formulas, [`H${String(row + FIRST)}`, turns[row] === true]]);
        });
        const { uncomputed } = await engine.recalculate({ differences: "accept" });
        const named = uncomputed.map(({ row, column }) => keyAt(row - FIRST + 1, column - 1));
        const circular = places.filter(({ row, column }) => isCircular(row, column));
        expect(named.sort()).toEqual(circular.map(({ row, column }) => keyAt(row, column)).sort());
        for (const { row, column } of places)
          expect(valueAt(row + FIRST, column + 1)).toBe(valueOf(row, column));
        engine.dispose();
      }),
      { numRuns: 500 },
    );
  });
});
