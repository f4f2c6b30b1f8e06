import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { afterEach, expect, it, vi } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import { searchSteps, withinSeconds } from "../../src/functions/search-steps";
import { engineFunctions } from "../../src/sheet/catalogue-functions";
import type { EngineFunction } from "../../src/sheet/engine";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { openWorkbook } from "../../src/workbook/read";
import { workbookOf } from "./workbook-of";

const loads = vi.hoisted(() => ({ count: 0 }));
vi.mock("../../src/sheet/univer-formulas", (importOriginal) => {
  loads.count++;
  return importOriginal();
});

let engine = new UniverEngine(engineFunctions(catalogue));
afterEach(() => {
  engine.dispose();
});

const SAMPLES = "sample-workbooks";

// In this order: once loaded, Univer stays.
it.each(readdirSync(SAMPLES).filter((name) => name.endsWith(".xlsx")))(
  "computes %s without loading Univer, also after a change",
  async (name) => {
    const { model } = openWorkbook(new Uint8Array(readFileSync(join(SAMPLES, name))));
    await engine.load(model);
    const { computed, uncomputed } = await engine.recalculate();
    expect(computed.length).toBeGreaterThan(30);
    expect(uncomputed).toEqual([]);
    await engine.setCell({ sheet: 0, row: 900, column: 0 }, "far away");
    await engine.recalculate();
    expect(loads.count).toBe(0);
  },
);

it("computes conditions, roundings and many decimals without loading Univer", async () => {
  const cells = {
    A1: "item 12",
    A2: '11"',
    A3: 11,
    A4: "11",
    B1: "=1/3+0.1",
    B2: "=ROUND(1.005,2)",
    B3: "=COUNTIF(A1:A4,11)",
    B4: '=COUNTIF(A1:A4,"<>11")',
    B5: '=SUMIFS(A1:A4,A1:A4,">5")',
    B6: "=IFERROR(CEILING(7,2)/0,MOD(-7,3))",
  };
  await engine.load(workbookOf({ S: cells }));
  const { uncomputed } = await engine.recalculate();
  expect(uncomputed).toEqual([]);
  const value = (row: number): unknown => engine.value({ sheet: 0, row, column: 1 });
  expect([0, 1, 2, 3, 4, 5].map(value)).toEqual([0.4333333333333333, 1.01, 2, 3, 11, 2]);
  expect(loads.count).toBe(0);
});

it("loads it for the one formula that needs it, and computes what waits for that", async () => {
  const foreign = '=TEXT(B1,"0.0")&"!"';
  await engine.load(workbookOf({ S: { A1: "=LEN(B2)", A2: "=A1+1", B1: "=B3*2", B2: foreign, B3: 3 } }));
  const progress: number[] = [];
  const { computed } = await engine.recalculate({ onProgress: (share) => progress.push(share) });
  expect(computed).toHaveLength(4);
  expect(progress.at(-1)).toBe(1);
  const places = [[0, 0], [1, 0], [0, 1], [1, 1]] as const; // prettier-ignore
  expect(places.map(([row, column]) => engine.value({ sheet: 0, row, column }))).toEqual([4, 5, 6, "6.0!"]);
  expect(loads.count).toBe(1);
});

it("loads it for a cell whose value turns out to be odd", async () => {
  await engine.load(workbookOf({ S: { A1: "50%", A2: "=A1+1", A3: "=COUNTIF(A1:A1,0.5)" } }));
  await engine.recalculate();
  expect([1, 2].map((row) => engine.value({ sheet: 0, row, column: 0 }))).toEqual([1.5, 1]);
});

it("evaluates what stands in no cell, in steps by its time", async () => {
  const steps: EngineFunction = {
    name: "STEPS",
    text: "",
    parameters: [],
    call: () => ({ kind: "value", value: searchSteps() }),
  };
  engine = new UniverEngine([steps]);
  await engine.load(workbookOf({ S: { A1: 2 } }));
  const place = { sheet: 0, row: 1, column: 0 };
  expect(await engine.evaluate(place, "A1*3")).toBe(6);
  expect(await engine.evaluate(place, "BLN_STEPS()")).toBe(withinSeconds(2, searchSteps));
});

it("gives up quietly where the workbook is gone before Univer came", async () => {
  await engine.load(workbookOf({ S: { A1: "=LEN(2)" } }));
  const evaluating = engine.evaluate({ sheet: 0, row: 1, column: 0 }, "LEN(22)");
  engine.dispose();
  await expect(evaluating).resolves.toBeDefined();
});
