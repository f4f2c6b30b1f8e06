import { afterEach, expect, it } from "vitest";
import type { EngineFunction, Recalculation, RecalculateOptions } from "../../src/sheet/engine";
import { TRUSTED_FUNCTIONS } from "../../src/sheet/trusted-functions";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { type TestSheets, workbookOf } from "./workbook-of";

const missing: EngineFunction = {
  name: "MISSING",
  text: "",
  parameters: [],
  call: () => ({ kind: "error", code: "#N/A", sentence: "price_list has no such row" }),
};

let engine = new UniverEngine([missing]);
afterEach(() => {
  engine.dispose();
});

async function calculate(
  cells: TestSheets[string],
  options: RecalculateOptions = {},
): Promise<Recalculation> {
  engine = new UniverEngine([missing]);
  await engine.load(workbookOf({ S: cells }));
  return engine.recalculate(options);
}

// Excel's own page gives another result than Univer for irregular bonds, and no file of ours vouches for it.
const UNTRUSTED = "ODDFPRICE";
const BOND = `${UNTRUSTED}(DATE(2008,11,11),DATE(2021,3,1),DATE(2008,10,15),DATE(2009,3,1),0.0785,0.0625,100,2,1)`;

it("trusts no function that the conformance table has against it", () => {
  expect(TRUSTED_FUNCTIONS.has(UNTRUSTED)).toBe(false);
  expect(
    ["SUM", "IF", "VLOOKUP", "XLOOKUP", "ROUNDUP", "SUMIFS", "LET", "FILTER"].every((name) =>
      TRUSTED_FUNCTIONS.has(name),
    ),
  ).toBe(true);
});

it("keeps a stored value that a function would replace which is not trusted, and goes on from it", async () => {
  const cells = { A1: { f: BOND, v: 42 }, A2: { f: "A1*2", v: 1 } };
  const result = await calculate(cells);
  expect(engine.value({ sheet: 0, row: 0, column: 0 })).toBe(42);
  expect(engine.value({ sheet: 0, row: 1, column: 0 })).toBe(84);
  expect(result.differing).toEqual([
    {
      sheet: 0,
      row: 0,
      column: 0,
      formula: BOND,
      stored: 42,
      ours: expect.any(Number) as number,
      why: `${UNTRUSTED} may compute otherwise than Excel`,
    },
  ]);
});

it("keeps what a later version of our functions stored, also where an error would be hidden", async () => {
  const unknown = "_xldudf_BLN_NO_SUCH(1)";
  const cells = {
    A1: { f: unknown, v: 42 },
    A2: { f: "A1*2", v: 1 },
    A3: { f: `IFERROR(${unknown},0)`, v: 42 },
    A4: { f: unknown },
  };
  const result = await calculate(cells);
  const values = [0, 1, 2, 3].map((row) => engine.value({ sheet: 0, row, column: 0 }));
  expect(values).toEqual([42, 84, 42, { error: "#NAME?" }]);
  expect(result.differing.map(({ row, why }) => [row, why])).toEqual([
    [0, "there is no function BLN.NO_SUCH"],
    [2, "it calls a function that is not known here"],
  ]);
});

it("takes ours where that is asked for, also after it was kept", async () => {
  await calculate({ A1: { f: BOND, v: 42 }, A2: { f: "A1*2", v: 1 } });
  const { differing } = await engine.recalculate({ differences: "accept" });
  expect(differing).toEqual([]);
  const value = Number(engine.value({ sheet: 0, row: 0, column: 0 }));
  expect(value).toBeGreaterThan(100);
  expect(engine.value({ sheet: 0, row: 1, column: 0 })).toBeCloseTo(2 * value, 9);
});

it("has nothing to keep where no value or the #NAME? of another program is stored", async () => {
  const result = await calculate({ A1: { f: BOND }, A2: { f: BOND, v: { error: "#NAME?" } } });
  expect(result.differing).toEqual([]);
  expect(engine.value({ sheet: 0, row: 1, column: 0 })).toBeGreaterThan(100);
});

it("computes anew what an edit reaches, whatever its functions", async () => {
  const cells = { A1: 0.0785, B1: { f: BOND.replace("0.0785", "A1"), v: 42 }, C1: { f: "B1*2", v: 84 } };
  engine = new UniverEngine([missing]);
  await engine.load(workbookOf({ S: cells }));
  // Also before anything was computed.
  await engine.setCell({ sheet: 0, row: 0, column: 0 }, 0.09);
  const result = await engine.recalculate();
  expect(result.differing).toEqual([]);
  expect(engine.value({ sheet: 0, row: 0, column: 1 })).toBeGreaterThan(100);
});

it("recomputes freely with trusted functions", async () => {
  const result = await calculate({ A1: 2, A2: 3, B1: { f: "SUM(A1:A2)", v: 99 }, B2: { f: "A1*A2", v: 99 } });
  expect(result.differing).toEqual([]);
  expect([0, 1].map((row) => engine.value({ sheet: 0, row, column: 1 }))).toEqual([5, 6]);
});

it.each([
  // A function of ours is the cause.
  ["BLN.MISSING()", true],
  ["IF(TRUE,BLN.MISSING())", true],
  // An input is: an error, a key that is gone, a 0 to divide by, a text to add, a spill in the way.
  ["A1+1", true],
  ['VLOOKUP("lilac",A2:B3,2,FALSE)', true],
  ["1/A4", true],
  ["A2+1", true],
  ["INDEX(A2:A3,A5)", true],
  // Nothing that it reads is.
  ["1/0", false],
  ['VALUE("x")', false],
  ["A5&#REF!", false],
])("%s may replace a value by its error: %s", async (formula, isTaken) => {
  const result = await calculate({
    A1: { f: "NA()", v: { error: "#N/A" } },
    A2: "red",
    A3: "blue",
    A4: 0,
    A5: 9,
    B2: 1,
    B3: 2,
    D1: { f: formula, v: 7 },
  });
  expect(typeof engine.value({ sheet: 0, row: 0, column: 3 }) === "object").toBe(isTaken);
  expect(result.differing.map(({ why }) => why)).toEqual(isTaken ? [] : ["no input explains the error"]);
});

it("keeps a whole stored spill", async () => {
  const stored = { f: `_xlfn.SEQUENCE(2)*${BOND}`, v: 1, kind: "dynamic", range: "A1:A2" } as const;
  const result = await calculate({ A1: stored, A2: 2, C1: { f: "SUM(A1:A2)", v: 0 } });
  expect(result.differing).toHaveLength(1);
  expect(engine.value({ sheet: 0, row: 1, column: 0 })).toBe(2);
  expect(engine.value({ sheet: 0, row: 0, column: 2 })).toBe(3);
});
