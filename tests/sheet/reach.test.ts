import { afterEach, expect, it } from "vitest";
import type { TypedInput } from "../../src/sheet/engine";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { parseCell } from "../../src/formula/address";
import { errorText, type TestSheets, workbookOf } from "./workbook-of";

let engine = new UniverEngine([]);
afterEach(() => {
  engine.dispose();
});

const SHEETS = ["S", "T"];

function placeOf(address: string): { readonly sheet: number; readonly row: number; readonly column: number } {
  const [first = "", second] = address.split("!");
  const cell = parseCell(second ?? first);
  if (cell === undefined) throw new Error(address);
  return { sheet: second === undefined ? 0 : SHEETS.indexOf(first), ...cell };
}

const valueAt = (address: string): unknown => errorText(engine.value(placeOf(address)));

async function load(sheets: TestSheets): Promise<void> {
  engine = new UniverEngine([]);
  const names = [
    { name: "Rate", text: "S!$A$1", isHidden: false },
    { name: "Local", text: "S!$A$1", isHidden: false, sheet: 1 },
  ];
  await engine.load(workbookOf({ S: {}, T: {}, ...sheets }, { names }));
}

/** Sets cells, and tells which formulas were computed for that. */
async function after(inputs: Readonly<Record<string, TypedInput>>): Promise<readonly string[]> {
  for (const [address, input] of Object.entries(inputs)) await engine.setCell(placeOf(address), input);
  const { computed } = await engine.recalculate();
  return computed
    .map(
      ({ sheet, row, column }) =>
        `${sheet === 0 ? "" : "T!"}${String.fromCharCode(65 + column)}${String(row + 1)}`,
    )
    .sort();
}

it("computes what a change reaches through other formulas and sheets, and nothing else", async () => {
  await load({
    S: {
      A1: 1,
      A9: 4,
      B1: { f: "A1+1" },
      B2: { f: "B1+1" },
      B3: { f: "B2+1" },
      B4: { f: "B3+1" },
      C2: { f: "B2*10" },
      C3: { f: "A9*10" },
      D1: { f: "SUM(B1:B4)" },
      E1: { f: "SUM(A2:A9)" },
      F1: { f: "T!A3" },
    },
    T: { A1: { f: "S!B4" }, A2: { f: "A1*2" }, A3: { f: "S!A9" }, B2: { f: "S!C2" } },
  });
  await engine.recalculate();
  const reached = ["B1", "B2", "B3", "B4", "C2", "D1", "T!A1", "T!A2", "T!B2"];
  expect(await after({ A1: 11 })).toEqual(reached);
  expect(["B4", "C2", "D1", "T!A2", "T!B2"].map(valueAt)).toEqual([15, 130, 54, 30, 130]);
  expect(await after({ A9: 5 })).toEqual(["C3", "E1", "F1", "T!A3"]);
  expect(["C3", "E1", "F1"].map(valueAt)).toEqual([50, 5, 5]);
  engine.prepare();
  expect(await after({ A1: 1, A9: 6 })).toEqual([...reached, "C3", "E1", "F1", "T!A3"].sort());
  expect(await after({})).toEqual([]);
});

it("reaches the readers of each of several cells that read one, below each other or not", async () => {
  const cells = {
    S: {
      A1: 1,
      G1: { f: "A1+0" },
      G2: { f: "A1+0" },
      G3: { f: "A1+0" },
      H4: { f: "A1+1" },
      G6: { f: "A1+2" },
      G7: { f: "A1+3" },
      J1: { f: "G1*1" },
      J2: { f: "G2*2" },
      J3: { f: "SUM(G3)" },
      J4: { f: "H4*1" },
      J5: { f: "G6*1" },
      J6: { f: "G7*1" },
    },
    T: { G8: { f: "S!A1+4" }, H9: { f: "G8*1" }, G2: { f: "S!A1+5" }, H2: { f: "G2*1" } },
  };
  await load(cells);
  await engine.recalculate();
  expect(await after({ A1: 10 })).toHaveLength(16);
  expect(["J1", "J2", "J3", "J4", "J5", "J6", "T!H9", "T!H2"].map(valueAt)).toEqual([
    10, 20, 10, 11, 12, 13, 14, 15,
  ]);
});

it("reaches what reads a cell that a formula fills, also one that it fills no more", async () => {
  await load({
    S: {
      C1: 3,
      A1: { f: "_xlfn.SEQUENCE(C1)", kind: "dynamic" },
      E1: { f: "A3*10" },
      E2: { f: "SUM(A1:A9)" },
      E3: { f: "B1" },
    },
  });
  await engine.recalculate();
  expect(["E1", "E2"].map(valueAt)).toEqual([30, 6]);
  await after({ C1: 2 });
  expect(["A3", "E1", "E2"].map(valueAt)).toEqual([null, 0, 3]);
  await after({ C1: 4 });
  expect(["A4", "E1", "E2"].map(valueAt)).toEqual([4, 30, 10]);
  // A value in its way, and the way free again.
  await after({ A2: "here" });
  expect(["A1", "A3", "E1"].map(valueAt)).toEqual(["#SPILL!", null, 0]);
  await after({ A2: null });
  expect(["A1", "A3", "E1"].map(valueAt)).toEqual([1, 3, 30]);
  await after({ A1: 7 });
  expect(["A1", "A3", "E1", "E2"].map(valueAt)).toEqual([7, null, 0, 7]);
});

it("computes what finds its cells itself after every change", async () => {
  await load({
    S: { A1: 1, A2: 2, C1: { f: "SUM(OFFSET(A1,0,0,2))" }, C2: { f: 'INDIRECT("A"&B1)' }, B1: 2 },
  });
  await engine.recalculate();
  expect(["C1", "C2"].map(valueAt)).toEqual([3, 2]);
  await after({ A2: 5 });
  expect(["C1", "C2"].map(valueAt)).toEqual([6, 5]);
});

it("takes ours for a stored value only where something typed reaches it", async () => {
  const stored = (f: string) => ({ f, v: 3 });
  await load({
    S: {
      A1: 6,
      A2: 6,
      B1: { f: "A1" },
      C1: stored("GCD(B1,4)"),
      C2: stored("GCD(A2,4)"),
      D2: stored("GCD(C2,9)"),
    },
  });
  await engine.recalculate();
  expect(["C1", "C2", "D2"].map(valueAt)).toEqual([3, 3, 3]);
  await after({ A1: 8 });
  expect(["C1", "C2", "D2"].map(valueAt)).toEqual([4, 3, 3]);
  await after({ A2: 9 });
  expect(["C1", "C2", "D2"].map(valueAt)).toEqual([4, 1, 1]);
});

it("forgets what a formula read that is typed over", async () => {
  await load({ S: { A1: 1, B1: { f: "A1*2" }, C1: { f: "B1+1" } } });
  await engine.recalculate();
  expect(await after({ B1: 50 })).toEqual(["C1"]);
  expect(await after({ A1: 9 })).toEqual([]);
  expect(["B1", "C1"].map(valueAt)).toEqual([50, 51]);
  expect(await after({ B1: { formula: "=A2+1" } })).toEqual(["B1", "C1"]);
  expect(await after({ A2: 4 })).toEqual(["B1", "C1"]);
  expect(["B1", "C1"].map(valueAt)).toEqual([5, 6]);
});

// Pages INDIRECT and FORMULATEXT: a name is a reference too; a cell without a formula is #N/A.
it("gives functions the names and the formulas of the workbook", async () => {
  await load({
    S: {
      A1: 7,
      B1: { f: "_xlfn.XLOOKUP(1,A1,A1,2)" },
      C1: { f: 'INDIRECT("Rate")' },
      C2: { f: "_xlfn.FORMULATEXT(B1)" },
      C3: { f: "_xlfn.FORMULATEXT(A1)" },
      C4: { f: 'INDIRECT("T!A1")' },
    },
    T: { A1: 8 },
  });
  await engine.recalculate();
  expect(["C1", "C2", "C3", "C4"].map(valueAt)).toEqual([7, "=XLOOKUP(1,A1,A1,2)", "#N/A", 8]);
});
