import fc from "fast-check";
import { expect, it } from "vitest";
import type { CellPlace } from "../../../src/sheet/engine";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { randomWorkbook } from "../random-formulas";
import { workbookOf } from "../workbook-of";

const cellKey = ({ sheet, row, column }: CellPlace): string => [sheet, row, column].join();

async function reached(engine: UniverEngine, place: CellPlace, input: number): Promise<readonly string[]> {
  await engine.setCell(place, input);
  const { computed, uncomputed } = await engine.recalculate({ volatile: "keep" });
  return [...computed, ...uncomputed].map(cellKey).sort();
}

it(
  "marks exactly the formulas that read a changed cell, as asking each formula by itself does",
  { timeout: 120_000 },
  async () => {
    const place = fc.record({ sheet: fc.nat(2), row: fc.nat(15), column: fc.nat(9) });
    const books = fc.sample(fc.tuple(randomWorkbook, fc.array(place, { minLength: 12, maxLength: 12 })), {
      numRuns: 4,
      seed: 7,
    });
    for (const [{ model }, places] of books) {
      const engines = [new UniverEngine([]), new UniverEngine([], { fast: false })];
      for (const engine of engines) {
        await engine.load(model);
        await engine.recalculate();
      }
      for (const [turn, at] of places.entries()) {
        const [together, alone] = await Promise.all(engines.map((engine) => reached(engine, at, turn)));
        expect(together).toEqual(alone);
      }
      for (const engine of engines) engine.dispose();
    }
  },
);

it("reaches growing, crossing and moving ranges, whole columns and the row of a table", async () => {
  const cells = Object.fromEntries(
    Array.from({ length: 40 }, (_, index) => index + 1).flatMap((row): [string, string | number][] => [
      [`A${row}`, row],
      [`B${row}`, `=SUM(A$1:A${row})`],
      [`C${row}`, `=SUM(A$20:A${row})`],
      [`D${row}`, `=SUM(A${row}:A${row + 2})`],
      [`E${row}`, `=SUM(A:A)+$A$3`],
      [`F${row}`, `=SUM($A${row}:C$10)`],
    ]),
  );
  const engine = new UniverEngine([]);
  await engine.load(workbookOf({ S: cells }));
  await engine.recalculate();
  const rowsReached = async (row: number, column: number): Promise<readonly number[]> => {
    await engine.setCell({ sheet: 0, row: row - 1, column: 0 }, -row);
    const { computed } = await engine.recalculate();
    return computed.filter((cell) => cell.column === column).map((cell) => cell.row + 1);
  };
  const rows = (first: number, last: number): readonly number[] =>
    Array.from({ length: last - first + 1 }, (_, index) => first + index);
  const sorted = (numbers: readonly number[]): readonly number[] => [...numbers].sort((a, b) => a - b);
  expect(sorted(await rowsReached(30, 1))).toEqual(rows(30, 40));
  expect(sorted(await rowsReached(15, 2))).toEqual(rows(1, 15));
  expect(sorted(await rowsReached(25, 2))).toEqual(rows(25, 40));
  expect(sorted(await rowsReached(20, 2))).toEqual(rows(1, 40));
  expect(sorted(await rowsReached(12, 3))).toEqual([10, 11, 12]);
  expect(sorted(await rowsReached(40, 4))).toEqual(rows(1, 40));
  expect(sorted(await rowsReached(3, 5))).toEqual(rows(1, 40));
  expect(sorted(await rowsReached(35, 5))).toEqual(rows(35, 40));
  engine.dispose();
});

it("takes a cell from the spill that fills it before the spill is computed anew", async () => {
  const engine = new UniverEngine([]);
  await engine.load(
    workbookOf({
      S: {
        A1: { f: "SEQUENCE(3)", v: 1, kind: "dynamic", range: "A1:A3" },
        A2: 2,
        A3: 3,
        B1: "=SUM(A1:A3)",
        B2: "=A3*2",
      },
    }),
  );
  await engine.recalculate();
  const shown = (): unknown[] =>
    [
      [0, 0],
      [1, 0],
      [2, 0],
      [0, 1],
      [1, 1],
    ].map(([row = 0, column = 0]) => engine.value({ sheet: 0, row, column }));
  expect(shown()).toEqual([1, 2, 3, 6, 6]);
  await engine.setCell({ sheet: 0, row: 1, column: 0 }, 7);
  await engine.recalculate();
  expect(shown()).toEqual([{ error: "#SPILL!" }, 7, null, { error: "#SPILL!" }, 0]);
  await engine.setCell({ sheet: 0, row: 1, column: 0 }, null);
  await engine.recalculate();
  expect(shown()).toEqual([1, 2, 3, 6, 6]);
  engine.dispose();
});
