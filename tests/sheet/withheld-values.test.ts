import { afterEach, expect, it } from "vitest";
import type { EngineFunction } from "../../src/sheet/engine";
import { failingCells } from "../../src/sheet/failing-cells";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { workbookOf } from "./workbook-of";

const NOT_SOLD = "nobody sells 11 in Gold";
const goods: EngineFunction = {
  name: "GOODS",
  text: "",
  parameters: [],
  call: () => ({
    kind: "table",
    rows: [
      ["what", "each", "status"],
      ["red", 0.12, "ok"],
      ["gold", { error: "#N/A", sentence: NOT_SOLD }, "stop: not sold"],
    ],
  }),
};

let engine = new UniverEngine([goods]);
afterEach(() => {
  engine.dispose();
});
const valueAt = (row: number, column: number): unknown => engine.value({ sheet: 0, row, column });

it("holds an error in its cell of a spill and its sentence by cell; the rest of the table stands", async () => {
  engine = new UniverEngine([goods]);
  const table = { f: "BLN.GOODS()", kind: "dynamic" } as const;
  const cells = {
    A1: table,
    E1: "=SUM(B2:B3)",
    E2: "=AGGREGATE(9,6,B2:B3)",
    E3: "=B2*100",
    E4: "=IFERROR(B3,0)",
  };
  await engine.load(workbookOf({ S: cells }));
  const { computed, uncomputed } = await engine.recalculate();
  expect(uncomputed).toEqual([]);
  expect([valueAt(1, 1), valueAt(2, 1), valueAt(2, 2)]).toEqual([0.12, { error: "#N/A" }, "stop: not sold"]);
  expect([0, 1, 2, 3].map((row) => valueAt(row, 4))).toEqual([{ error: "#N/A" }, 0.12, 12, 0]);
  expect(failingCells(computed)).toEqual([
    { sheet: 0, row: 2, column: 1, value: { error: "#N/A" }, sentence: NOT_SOLD },
  ]);
  expect(computed.find(({ row, column }) => row === 0 && column === 0)?.sentence).toBeUndefined();
});

it("keeps the sentence with the cell where another function moves it", async () => {
  engine = new UniverEngine([goods]);
  const moved = { f: "_xlfn.TAKE(_xlfn.DROP(BLN.GOODS(),1),,2)", kind: "dynamic" } as const;
  await engine.load(workbookOf({ S: { C3: moved } }));
  const { computed } = await engine.recalculate();
  expect(failingCells(computed)).toEqual([
    { sheet: 0, row: 3, column: 3, value: { error: "#N/A" }, sentence: NOT_SOLD },
  ]);
});
