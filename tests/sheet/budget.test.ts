import { afterEach, expect, it } from "vitest";
import { searchSteps, withinSeconds } from "../../src/functions/search-steps";
import { interrupt } from "../../src/recalc/interrupt";
import type { EngineFunction } from "../../src/sheet/engine";
import { UniverEngine } from "../../src/sheet/univer-engine";
// Loaded before any test begins, as its time is no formula's.
import "../../src/sheet/univer-formulas";
import { wildcardTest } from "../../src/sheet/wildcards";
import { workbookOf } from "./workbook-of";

let engine = new UniverEngine([]);
afterEach(() => {
  engine.dispose();
});

const endless: EngineFunction = {
  name: "ENDLESS",
  text: "",
  parameters: [],
  call() {
    // No step of the engine lies in here.
    for (let at = 0; at >= 0; at = (at + 1) % 1000);
    return { kind: "value", value: 1 };
  },
};

const at = (row: number) => ({ sheet: 0, row, column: 0 });

it("ends a formula between two of its steps once its time is over; it keeps its value and is named", async () => {
  const slow = "SUM(_xlfn.MAP(_xlfn.SEQUENCE(900,900),_xlfn.LAMBDA(_xlpm.x,_xlpm.x*_xlpm.x+_xlpm.x)))";
  await engine.load(workbookOf({ S: { A1: { f: slow, v: 7 }, A2: "=A1+1", A3: "=2*3" } }));
  const begin = performance.now();
  const result = await engine.recalculate({ budget: 50 });
  expect(performance.now() - begin).toBeLessThan(1500);
  expect(result.uncomputed.map(({ row, why }) => [row, why])).toEqual([[0, "it takes longer than 0.05 s"]]);
  expect([0, 1, 2].map((row) => engine.value(at(row)))).toEqual([7, 8, 6]);
});

it("is interrupted from outside where a step never ends, and the rest is computed", async () => {
  engine = new UniverEngine([endless]);
  await engine.load(workbookOf({ S: { A1: { f: "BLN.ENDLESS()", v: 7 }, A2: "=A1+1", A3: "=SUM(A1:A2)" } }));
  const result = await engine.recalculate({ budget: 100, interrupt });
  expect(result.uncomputed.map(({ row, why }) => [row, why])).toEqual([[0, "it takes longer than 0.1 s"]]);
  expect([1, 2].map((row) => engine.value(at(row)))).toEqual([8, 15]);
});

const steps: EngineFunction = {
  name: "STEPS",
  text: "",
  parameters: [],
  call: () => ({ kind: "value", value: searchSteps() }),
};

it("gives the searches of our functions steps by the time that a formula may take", async () => {
  engine = new UniverEngine([steps]);
  await engine.load(workbookOf({ S: { A1: "=BLN.STEPS()" } }));
  await engine.recalculate({ budget: 500 });
  expect(engine.value(at(0))).toBe(withinSeconds(0.5, searchSteps));
  await engine.setCell(at(0), { formula: "BLN.STEPS()" });
  await engine.recalculate({ budget: 1000 });
  expect(engine.value(at(0))).toBe(withinSeconds(1, searchSteps));
});

it("tells what it begins to compute, and leaves out what is held", async () => {
  engine = new UniverEngine([endless]);
  await engine.load(workbookOf({ S: { A1: { f: "BLN.ENDLESS()", v: 7 }, A2: "=A1+1" } }));
  engine.hold(at(0), "it never ended");
  const begun: number[] = [];
  const result = await engine.recalculate({ onFormula: ({ row }) => begun.push(row) });
  expect(begun).toContain(1);
  expect(result.uncomputed.map(({ why }) => why)).toEqual(["it never ended"]);
  expect(engine.value(at(1))).toBe(8);
});

it("matches wildcards in a time that does not grow with their number", async () => {
  const text = `${"a".repeat(30_000)}`;
  const cells = {
    A1: text,
    A2: '=COUNTIF(A1,"*a*a*a*a*b")',
    A3: '=COUNTIF(A1,"*a*a*a*a")',
    A4: '=SEARCH("a*a*a*b",A1)',
  };
  await engine.load(workbookOf({ S: cells }));
  const result = await engine.recalculate({ budget: 1000 });
  expect(result.uncomputed).toEqual([]);
  expect([1, 2].map((row) => engine.value(at(row)))).toEqual([0, 1]);
  expect(engine.value(at(3))).toEqual({ error: "#VALUE!" });
});

it.each([
  ["red*", "red foil", true],
  ["*foil", "red foil", true],
  ["r*f*l", "red foil", true],
  ["*e*e*", "red", false],
  ["r?d", "red", true],
  ["r?d", "rd", false],
  ["*", "", true],
  ["?*", "", false],
  ["~*", "*", true],
  ["a~?b", "a?b", true],
  ["ab*ba", "aba", false],
  ["*a?c", "aabc", true],
])("%s fits %s: %s", (pattern, text, fits) => {
  expect(wildcardTest(pattern)(text)).toBe(fits);
});
