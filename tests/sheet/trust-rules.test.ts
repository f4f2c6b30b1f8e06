import { describe, expect, it } from "vitest";
import { codeOf, differences, isSameResult, objection, untrusted } from "../../src/sheet/trust";
import type { CellValue } from "../../src/workbook/model";

const NA = { error: "#N/A" };
const VALUE = { error: "#VALUE!" };

describe("two results", () => {
  it.each<readonly [CellValue, CellValue, boolean]>([
    [1, 1 + 1e-10, true],
    [1, 1 + 1e-8, false],
    [1e12, 1e12 + 100, true],
    [1e12, 1e12 + 10_000, false],
    [-1e12, -1e12 - 100, true],
    [0, 1e-10, true],
    [0, 1e-8, false],
    [1e-3, 0, false],
    [0, 1e-9, true],
    [1, "x", false],
    ["x", 1, false],
    [5, NA, false],
    [NA, 5, false],
    [null, 0, true],
    [0, null, true],
    [null, "", true],
    ["", null, true],
    [null, null, true],
    [null, 1, false],
    [false, null, false],
    [null, NA, false],
    ["a", "a", true],
    ["a", "A", false],
    ["1", 1, false],
    [true, 1, false],
    [true, true, true],
    [NA, NA, true],
    [NA, { error: "#N/A" }, true],
    [NA, VALUE, false],
    [NA, "#N/A", false],
    ["#N/A", NA, false],
  ])("%j and %j are one: %s", (before, now, isSame) => {
    expect(isSameResult(before, now)).toBe(isSame);
  });

  it("of different size differ where they do not lie over each other", () => {
    expect(differences({ value: 1 }, { value: 1 })).toEqual([]);
    expect(differences({ value: 1 }, { value: 2 })).toEqual([[1, 2]]);
    const wide = { value: 1, table: [[1, 2]] };
    const tall = { value: 1, table: [[1], [3]] };
    expect(differences(wide, tall)).toEqual([
      [2, null],
      [null, 3],
    ]);
    expect(differences({ value: 1 }, wide)).toEqual([[null, 2]]);
    expect(differences(tall, { value: 1 })).toEqual([[3, null]]);
  });

  it("have a code where they are errors", () => {
    expect(codeOf(NA)).toBe("#N/A");
    expect([null, 0, "#N/A", true].map(codeOf)).toEqual(Array(4).fill(undefined));
  });
});

describe("functions", () => {
  it("are trusted that are ours, that cannot be had twice, or that agree with Excel", () => {
    const calls = new Set(["SUM", "BLN_METRES", "NOW", "ODDFPRICE", "CUBEVALUE", ":"]);
    expect(untrusted({ calls })).toEqual(["ODDFPRICE", "CUBEVALUE"]);
  });
});

describe("a result that differs from what is stored", () => {
  const READS = [{ sheet: 0, firstRow: 0, lastRow: 0, firstColumn: 0, lastColumn: 0 }];
  const judge = (
    stored: CellValue,
    now: CellValue,
    calls: readonly string[],
    inputs: readonly CellValue[] | null = [1],
    ours?: string,
  ): string | undefined =>
    objection(
      { stored: { value: stored } },
      { calls: new Set(calls), reads: inputs === null ? [] : READS },
      { value: now },
      { isOurs: (code) => code === ours, reads: (test) => (inputs ?? []).some(test) },
    );
  const UNEXPLAINED = "no input explains the error";

  it("stands where nothing is stored, or what a program without these functions stores", () => {
    expect(judge(null, NA, ["ODDFPRICE"])).toBeUndefined();
    expect(judge({ error: "#NAME?" }, 5, ["ODDFPRICE"])).toBeUndefined();
    expect(judge(5, 5, ["ODDFPRICE"])).toBeUndefined();
  });

  it("is doubted by name where a function is not trusted", () => {
    expect(judge(5, 6, ["ODDFPRICE", "SUM", "CUBEVALUE"])).toBe(
      "ODDFPRICE, CUBEVALUE may compute otherwise than Excel",
    );
    expect(judge(5, 6, ["SUM"])).toBeUndefined();
  });

  it.each<
    readonly [
      what: string,
      stored: CellValue,
      code: string,
      calls: readonly string[],
      inputs: readonly CellValue[] | null,
      isTaken: boolean,
    ]
  >([
    ["an error that was there", VALUE, "#N/A", ["SUM"], [1], true],
    ["an error that an input has", 5, "#REF!", ["SUM"], [1, { error: "#REF!" }], true],
    ["another error than an input has", 5, "#REF!", ["SUM"], [VALUE], false],
    ["a spill in the way", 5, "#SPILL!", ["SUM"], null, true],
    ["nothing that is read", 5, "#DIV/0!", ["SUM"], null, false],
    ["what is read by a reference that is made", 5, "#DIV/0!", ["INDIRECT"], null, true],
    ["a division by 0", 5, "#DIV/0!", [], [0], true],
    ["a key that is gone", 5, "#N/A", ["MATCH"], [1], true],
    ["a number out of range", 5, "#NUM!", ["SQRT"], [-1], true],
    ["nothing to filter", 5, "#CALC!", ["FILTER"], [1], true],
    ["a text to add", 5, "#VALUE!", [], [1, "x"], true],
    ["no text to add", 5, "#VALUE!", [], [1, true], false],
    ["a place that is made", 5, "#VALUE!", ["OFFSET"], [1], true],
    ["a place beyond the sheet", 5, "#REF!", ["OFFSET"], [1], true],
    ["a place that is not made", 5, "#REF!", ["SUM"], [1], false],
    ["a place of a lookup", 5, "#REF!", ["VLOOKUP"], [1], true],
    ["a column of a lookup across", 5, "#REF!", ["HLOOKUP"], [1], true],
    ["a choice", 5, "#VALUE!", ["CHOOSE"], [1], true],
    ["a place in a list", 5, "#REF!", ["INDEX"], [1], true],
    ["a name that is not known", 5, "#NULL!", ["SUM"], [1], false],
  ])("is taken for %s", (_what, stored, code, calls, inputs, isTaken) => {
    const known = calls.filter((name) => !untrusted({ calls: new Set([name]) }).includes(name));
    expect(known).toEqual(calls);
    expect(judge(stored, { error: code }, calls, inputs)).toBe(isTaken ? undefined : UNEXPLAINED);
  });

  it("is taken where a function of ours failed so", () => {
    expect(judge(5, NA, ["BLN_METRES"], null, "#N/A")).toBeUndefined();
    expect(judge(5, NA, ["BLN_METRES"], null, "#VALUE!")).toBe(UNEXPLAINED);
  });

  it("is judged by every cell of a spill", () => {
    const spill = (last: CellValue) => ({ value: 1, table: [[1], [last]] });
    const evidence = { isOurs: () => false, reads: () => false };
    const verdict = objection(
      { stored: spill(2) },
      { calls: new Set(["SUM"]), reads: READS },
      spill(VALUE),
      evidence,
    );
    expect(verdict).toBe(UNEXPLAINED);
  });

  it("is taken where the cells of a spill are others, and only its errors need a cause", () => {
    const of = (rows: readonly (readonly CellValue[])[]) => ({ value: rows[0]?.[0] ?? null, table: rows });
    const verdict = (before: readonly CellValue[], now: readonly CellValue[]): string | undefined =>
      objection({ stored: of([before]) }, { calls: new Set(["SUM"]), reads: READS }, of([now]), {
        isOurs: () => false,
        reads: () => false,
      });
    expect(verdict([1, 2], [3, 4])).toBeUndefined();
    expect(verdict([1, NA], [3, VALUE])).toBeUndefined();
    expect(verdict([1, 2], [3, VALUE])).toBe(UNEXPLAINED);
    expect(verdict([1, NA], [VALUE, VALUE])).toBe(UNEXPLAINED);
  });
});
