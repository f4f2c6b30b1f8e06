import { expect, it } from "vitest";
import { recalculationOf } from "../../src/sheet/cell-reports";
import { failingCells } from "../../src/sheet/failing-cells";
import { type FormulaCell, newCell, takeOutcome } from "../../src/sheet/sheet-cells";

function cellAt(row: number, column: number, outcome: Parameters<typeof takeOutcome>[1]): FormulaCell {
  const cell = newCell({ sheet: 1, row, column }, { text: `F${String(row)}`, kind: "normal" }, "old");
  takeOutcome(cell, outcome);
  if (outcome.area !== undefined) cell.area = outcome.area;
  return cell;
}

const AREA = { firstRow: 1, firstColumn: 2, lastRow: 2, lastColumn: 3 };
const FAILED = { error: "#VALUE!" };
const plain = cellAt(0, 0, { value: 5 });
const spilling = cellAt(1, 2, {
  value: 1,
  area: AREA,
  table: [
    [1, 2],
    [3, FAILED],
  ],
  sentences: [{ row: 2, column: 3, sentence: "size must be above 0" }],
});
const failing = cellAt(4, 0, {
  value: FAILED,
  sentences: [{ row: 4, column: 0, sentence: "count must be a number" }],
});
const held = cellAt(5, 0, { value: "old", why: "the name x is not defined" });
const differing = cellAt(6, 0, {
  value: "old",
  differs: { ours: "new", why: "PRICE may compute otherwise" },
});
const ALL = [plain, spilling, failing, held, differing];

it("tells of each formula what became of it", () => {
  const { computed, uncomputed, differing: found } = recalculationOf(ALL, ALL);
  expect(computed).toEqual([
    { sheet: 1, row: 0, column: 0, value: 5 },
    {
      sheet: 1,
      row: 1,
      column: 2,
      value: 1,
      spill: AREA,
      spilled: spilling.table,
      sentences: spilling.sentences,
    },
    {
      sheet: 1,
      row: 4,
      column: 0,
      value: FAILED,
      sentence: "count must be a number",
      sentences: failing.sentences,
    },
    { sheet: 1, row: 6, column: 0, value: "old" },
  ]);
  expect(uncomputed).toEqual([
    { sheet: 1, row: 5, column: 0, formula: "F5", why: "the name x is not defined" },
  ]);
  expect(found).toEqual([
    {
      sheet: 1,
      row: 6,
      column: 0,
      formula: "F6",
      stored: "old",
      ours: "new",
      why: "PRICE may compute otherwise",
    },
  ]);
});

it("tells a plain result without spill or sentences, and all that is withheld though nothing was computed", () => {
  expect(Object.keys(recalculationOf([plain], ALL).computed[0] ?? {})).toEqual([
    "sheet",
    "row",
    "column",
    "value",
  ]);
  const { computed, uncomputed, differing: found } = recalculationOf([], ALL);
  expect([computed.length, uncomputed.length, found.length]).toEqual([0, 1, 1]);
  // Two sentences in one row or column are each cell's own.
  const two = cellAt(1, 2, {
    value: FAILED,
    area: AREA,
    table: [[FAILED, FAILED]],
    sentences: [
      { row: 1, column: 3, sentence: "right" },
      { row: 2, column: 2, sentence: "below" },
      { row: 1, column: 2, sentence: "own" },
    ],
  });
  expect(recalculationOf([two], []).computed[0]?.sentence).toBe("own");
});

it("lists the cells that show errors of ours, each with its own value", () => {
  const { computed } = recalculationOf(ALL, ALL);
  expect(failingCells(computed)).toEqual([
    { sheet: 1, row: 2, column: 3, value: FAILED, sentence: "size must be above 0" },
    { sheet: 1, row: 4, column: 0, value: FAILED, sentence: "count must be a number" },
  ]);
  const [own, right, below] = ["#NUM!", "#N/A", "#VALUE!"].map((error) => ({ error }));
  const all = cellAt(1, 2, {
    value: own ?? null,
    area: AREA,
    table: [
      [own ?? null, right ?? null],
      [below ?? null, 2],
    ],
    sentences: [
      { row: 1, column: 2, sentence: "a" },
      { row: 1, column: 3, sentence: "b" },
      { row: 2, column: 2, sentence: "c" },
    ],
  });
  const values = failingCells(recalculationOf([all], []).computed).map(({ value }) => value);
  expect(values).toEqual([own, right, below]);
});
