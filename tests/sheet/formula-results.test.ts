import { afterEach, describe, expect, it } from "vitest";
import type { EngineFunction, RecalculateOptions } from "../../src/sheet/engine";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { errorText, type TestCell, type TestSheets, workbookOf } from "./workbook-of";

const failing: EngineFunction = {
  name: "POP",
  text: "",
  parameters: [],
  call: () => ({ kind: "error", code: "#VALUE!", sentence: "count must be above 0" }),
};

let engine = new UniverEngine([failing]);
afterEach(() => {
  engine.dispose();
});

async function load(sheets: TestSheets, date1904 = false): Promise<void> {
  engine = new UniverEngine([failing]);
  await engine.load(workbookOf(sheets, { date1904 }));
}

const at = (row: number, column: number, sheet = 0): unknown =>
  errorText(engine.value({ sheet, row, column }));

/** What becomes of a formula in Z1: its value, and the reason where it is not ours. */
async function settled(
  cell: TestCell,
  cells: TestSheets[string] = {},
  options: RecalculateOptions = {},
  date1904 = false,
): Promise<{ readonly value: unknown; readonly why?: string; readonly ours?: unknown }> {
  await load({ S: { ...cells, Z1: cell } }, date1904);
  const { uncomputed, differing } = await engine.recalculate(options);
  const own = uncomputed.find(({ column }) => column === 25);
  const differs = differing.find(({ column }) => column === 25);
  return {
    value: at(0, 25),
    ...(own === undefined ? {} : { why: own.why }),
    ...(differs === undefined ? {} : { why: differs.why, ours: differs.ours }),
  };
}

describe("a formula that is not computed keeps its value and says why", () => {
  it.each([
    [{ f: "A1", v: 5, kind: "dataTable", range: "Z1:Z2" }, "it is a what-if table"],
    [{ f: "A1:B1", v: 5, kind: "array", range: "Z1:AA1048576" }, "it fills too many cells"],
    [{ f: "SUM(1,2)", v: 5, kind: "array", range: "Z1:AA1048576" }, "it fills too many cells"],
    [{ f: "NO.SUCH(1)", v: 5 }, "the function NO.SUCH is not known here"],
    [{ f: "IFERROR(NO.SUCH(1),7)", v: 5 }, "the function NO.SUCH is not known here"],
    [{ f: "IFERROR([1]Other!A1,5)", v: 5 }, "it refers to another workbook"],
  ] as readonly (readonly [TestCell, string])[])("%j", async (cell, why) => {
    expect(await settled(cell)).toEqual({ value: 5, why });
  });

  // Excel stored what an unknown name gives, so that ours is the same.
  it.each([
    [{ f: "NO.SUCH(1)", v: { error: "#NAME?" } }, "#NAME?"],
    [{ f: "IFERROR(NO.SUCH(1),5)", v: 5 }, 5],
    [{ f: "ISERROR(nobody)", v: true }, true],
  ] as readonly (readonly [TestCell, unknown])[])(
    "but not %j, whose name Excel does not know either",
    async (cell, value) => {
      expect(await settled(cell)).toEqual({ value });
    },
  );

  it("where dates count from 1904", async () => {
    expect(await settled({ f: "EDATE(A1,1)", v: 5 }, { A1: 1 }, {}, true)).toEqual({
      value: 5,
      why: "EDATE is not computed in a workbook whose dates count from 1904",
    });
    expect(await settled({ f: "A1+1", v: null }, { A1: 1 }, {}, true)).toEqual({ value: 2 });
  });

  it("where somebody holds it, whether it would be computed alone or with others", async () => {
    for (const f of ["A1+1", "_xlfn.LET(_xlpm.x,A1,_xlpm.x+1)", "IFERROR(NO.SUCH(1),0)"]) {
      await load({ S: { A1: 1, Z1: { f, v: 9 } } });
      engine.hold({ sheet: 0, row: 0, column: 25 }, "it ended the engine");
      const { uncomputed } = await engine.recalculate();
      expect([at(0, 25), uncomputed.map(({ why }) => why)]).toEqual([9, ["it ended the engine"]]);
    }
  });
});

describe("a stored value", () => {
  it("gives way to a function that is known to agree with Excel, not to another", async () => {
    expect(await settled({ f: "SUM(1,2)", v: 4 })).toEqual({ value: 3 });
    expect(await settled({ f: "_xlfn.LET(_xlpm.x,2,SUM(1,_xlpm.x))", v: 4 })).toEqual({ value: 3 });
    const other = { f: "GCD(6,4)", v: 3 };
    const kept = await settled(other);
    expect(kept).toEqual({ value: 3, ours: 2, why: "GCD may compute otherwise than Excel" });
    expect(await settled(other, {}, { differences: "accept" })).toEqual({ value: 2 });
    expect(await settled({ f: "GCD(6,4)", v: null })).toEqual({ value: 2 });
    expect(await settled({ f: "GCD(6,4)", v: 2 })).toEqual({ value: 2 });
  });

  it("gives way where something was typed that reaches it", async () => {
    await load({ S: { A1: 6, B1: { f: "GCD(A1,4)", v: 3 } } });
    await engine.recalculate();
    expect(at(0, 1)).toBe(3);
    await engine.setCell({ sheet: 0, row: 0, column: 0 }, 12);
    await engine.recalculate();
    expect(at(0, 1)).toBe(4);
  });

  it("gives way to an error that is in what is read, not to one that nothing explains", async () => {
    expect(await settled({ f: "A1+1", v: 3 }, { A1: { error: "#NAME?" } })).toEqual({ value: "#NAME?" });
    expect(
      await settled({ f: "_xlfn.LET(_xlpm.x,A1,_xlpm.x+1)", v: 3 }, { A1: { error: "#NAME?" } }),
    ).toEqual({
      value: "#NAME?",
    });
    // Page INDIRECT: #REF! where the text is no reference.
    expect(await settled({ f: 'INDIRECT("nobody")', v: 3 })).toEqual({ value: "#REF!" });
    expect(await settled({ f: "A1/B1", v: 3 }, { A1: 1, B1: 0 })).toEqual({ value: "#DIV/0!" });
    expect(await settled({ f: "SQRT(-1)", v: 3 })).toMatchObject({ value: 3, ours: { error: "#NUM!" } });
  });
});

describe("what a formula gives", () => {
  it("is 0 where it reads a blank cell", async () => {
    expect(await settled({ f: "A1", v: null })).toEqual({ value: 0 });
    expect(await settled({ f: "_xlfn.LET(_xlpm.x,A1,_xlpm.x)", v: null })).toEqual({ value: 0 });
  });

  // Microsoft support, Spilled range operator: A1# is all that the formula in A1 fills; #REF! where there is none.
  it("follows a spill on any sheet", async () => {
    const spill = { f: "_xlfn.SEQUENCE(3)", kind: "dynamic" } as const;
    await load({
      S: {
        B1: { f: "SUM(_xlfn.ANCHORARRAY(A1))" },
        A1: spill,
        B2: { f: "SUM(_xlfn.ANCHORARRAY(D1))" },
        D1: 5,
        B3: { f: "SUM(_xlfn.ANCHORARRAY(C1),1)" },
        C1: { f: "4*2" },
        B4: { f: "SUM(_xlfn.ANCHORARRAY(T!B2))" },
      },
      T: { B2: { f: "_xlfn.SEQUENCE(2,2)", kind: "dynamic" } },
    });
    await engine.recalculate();
    expect([0, 1, 2, 3].map((row) => at(row, 1))).toEqual([6, "#REF!", 9, 10]);
  });

  it("counts the blank cells of whole columns", async () => {
    for (const f of ['COUNTIF(A:A,"")', '_xlfn.LET(_xlpm.x,1,COUNTIF(A:A,""))']) {
      expect(await settled({ f, v: null }, { A1: 1, A3: "x" })).toEqual({ value: 1_048_576 - 2 });
    }
  });

  it("takes in what is typed far below", async () => {
    await load({
      S: { A1: 1, B1: { f: "SUM(A:A)" }, C1: { f: "_xlfn.LET(_xlpm.x,SUM(A:A),_xlpm.x)" }, D1: { f: "A1" } },
    });
    await engine.recalculate();
    expect([1, 2, 3].map((column) => at(0, column))).toEqual([1, 1, 1]);
    await engine.setCell({ sheet: 0, row: 5000, column: 0 }, 10);
    await engine.recalculate();
    expect([1, 2, 3].map((column) => at(0, column))).toEqual([11, 11, 1]);
    await engine.setCell({ sheet: 0, row: 127, column: 600 }, { formula: "=SUM(1:1)-12" });
    await engine.recalculate();
    expect(at(127, 600)).toBe(12);
  });

  it("says why a function of ours failed in it, also through a sum", async () => {
    for (const f of ["BLN.POP()", "BLN.POP()+1", "_xlfn.LET(_xlpm.x,BLN.POP(),_xlpm.x+1)"]) {
      await load({ S: { Z1: { f } } });
      const { computed } = await engine.recalculate();
      expect(computed).toMatchObject([{ value: { error: "#VALUE!" }, sentence: "count must be above 0" }]);
    }
    await load({ S: { Z1: { f: "IFERROR(BLN.POP(),4)" } } });
    const { computed } = await engine.recalculate();
    expect(computed[0]).toEqual({ sheet: 0, row: 0, column: 25, value: 4 });
  });
});
