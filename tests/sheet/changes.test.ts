import { describe, expect, it } from "vitest";
import { type CellRange, parseRange, rangeAddress } from "../../src/formula/address";
import { changesOf, type LeftRange } from "../../src/sheet/changes";
import type { ComputedCell, EngineFunction } from "../../src/sheet/engine";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { cellFinder } from "../../src/workbook/cell-finder";
import { type TestSheets, workbookOf } from "./workbook-of";

const stairs: EngineFunction = {
  name: "STAIRS",
  text: "",
  parameters: [{ name: "rows", text: "", isOptional: false, takesRange: false }],
  call: ([rows]) => ({ kind: "table", rows: Array.from({ length: Number(rows) }, (_, row) => [row + 1]) }),
};

async function changesIn(workbook: ReturnType<typeof workbookOf>): Promise<readonly unknown[]> {
  const engine = new UniverEngine([stairs]);
  await engine.load(workbook);
  const { computed } = await engine.recalculate();
  engine.dispose();
  return changesOf(cellFinder(workbook), computed);
}

describe("changes", () => {
  it("are only the cells whose value became another one", async () => {
    const changes = await changesIn(
      workbookOf({
        S: { A1: 2, B1: { f: "A1*2", v: 4 }, B2: { f: "A1*3", v: 5 }, B3: { f: "0.1+0.2", v: 0.3 } },
      }),
    );
    expect(changes).toEqual([{ sheet: 0, row: 1, column: 1, before: 5, value: 6 }]);
  });

  it("write what a spill gains and clear what it leaves", async () => {
    const cells = (rows: number, range: string) => ({
      A1: rows,
      B1: { f: "BLN.STAIRS(A1)", v: 1, kind: "dynamic", range } as const,
      B2: 2,
    });
    expect(await changesIn(workbookOf({ S: cells(3, "B1:B2") }))).toEqual([
      {
        sheet: 0,
        row: 0,
        column: 1,
        before: 1,
        value: 1,
        range: { firstRow: 0, firstColumn: 1, lastRow: 2, lastColumn: 1 },
      },
      { sheet: 0, row: 2, column: 1, before: null, value: 3 },
    ]);
    expect(await changesIn(workbookOf({ S: cells(1, "B1:B2") }))).toEqual([
      { sheet: 0, row: 1, column: 1, before: 2, value: null },
      {
        sheet: 0,
        row: 0,
        column: 1,
        before: 1,
        value: 1,
        range: { firstRow: 0, firstColumn: 1, lastRow: 0, lastColumn: 1 },
      },
    ]);
    expect(await changesIn(workbookOf({ S: cells(2, "B1:B2") }))).toEqual([]);
  });

  it("leave an error alone that a file can only keep as #VALUE!", async () => {
    const blocked = { f: "BLN.STAIRS(2)", v: { error: "#VALUE!" }, kind: "dynamic", range: "A1" } as const;
    expect(await changesIn(workbookOf({ S: { A1: blocked, A2: "here" } }))).toEqual([]);
  });

  const range = (text: string): CellRange => {
    const found = parseRange(text);
    if (found === undefined) throw new Error(text);
    return found;
  };
  /** What a formula in B2 that filled B2:C3 changes: by address, in the notation of Excel. */
  const after = (
    cells: TestSheets[string],
    computed: readonly Omit<ComputedCell, "sheet">[],
    left: readonly Omit<LeftRange, "sheet">[] = [],
  ): Readonly<Record<string, unknown>> => {
    const found = changesOf(
      cellFinder(workbookOf({ S: cells })),
      computed.map((cell) => ({ sheet: 0, ...cell })),
      left.map((each) => ({ sheet: 0, ...each })),
    );
    return Object.fromEntries(
      found.map(({ row, column, value, range: filled }) => [
        `${String.fromCharCode(65 + column)}${String(row + 1)}`,
        filled === undefined ? value : { value, fills: rangeAddress(filled) },
      ]),
    );
  };
  const OLD: TestSheets[string] = {
    B2: { f: "X", v: 1, kind: "array", range: "B2:C3" },
    C2: 2,
    B3: 3,
    C3: 4,
  };

  it("tell what stands in each cell of a spill that moved its edges", () => {
    const spill = (text: string, spilled: ComputedCell["spilled"]) => ({
      row: 1,
      column: 1,
      value: 1,
      spill: range(text),
      ...(spilled && { spilled }),
    });
    expect(
      after(OLD, [
        spill("B2:C3", [
          [1, 2],
          [3, 4],
        ]),
      ]),
    ).toEqual({});
    expect(
      after(OLD, [
        spill("B2:C3", [
          [1, 9],
          [3, 4],
        ]),
      ]),
    ).toEqual({ C2: 9 });
    expect(after(OLD, [spill("B2:B4", [[1], [3], [5]])])).toEqual({
      B2: { value: 1, fills: "B2:B4" },
      C2: null,
      C3: null,
      B4: 5,
    });
    expect(
      after(OLD, [
        spill("B2:D3", [
          [1, 2, 7],
          [3, 4],
        ]),
      ]),
    ).toEqual({
      B2: { value: 1, fills: "B2:D3" },
      D2: 7,
    });
    expect(after(OLD, [{ row: 1, column: 1, value: 1 }])).toEqual({
      B2: { value: 1, fills: "B2" },
      C2: null,
      B3: null,
      C3: null,
    });
    // The text of a plain formula that began to spill.
    expect(after({ B2: { f: "X", v: 1 } }, [spill("B2:C2", [[1, 2]])])).toEqual({ C2: 2 });
    expect(after({ B2: { f: "X", v: 1 } }, [{ row: 1, column: 1, value: 2 }])).toEqual({ B2: 2 });
    expect(after({}, [{ row: 1, column: 1, value: 2 }])).toEqual({ B2: 2 });
  });

  it("leave a formula that stands where a spill was, and clear what a formula left that is gone", () => {
    const cells = { ...OLD, C3: { f: "Y", v: 4 } };
    expect(after(cells, [{ row: 1, column: 1, value: 1 }])).toEqual({
      B2: { value: 1, fills: "B2" },
      C2: null,
      B3: null,
    });
    const gone = { B2: 1, C2: 2, B3: 3, C3: 4 };
    expect(after(gone, [], [{ row: 1, column: 1, range: range("B2:C3") }])).toEqual({
      C2: null,
      B3: null,
      C3: null,
    });
    // Another spill takes the place.
    const taken = { row: 0, column: 2, value: 8, spill: range("C1:C2"), spilled: [[8], [2]] };
    expect(after(gone, [taken], [{ row: 1, column: 1, range: range("B2:C3") }])).toEqual({
      C1: 8,
      B3: null,
      C3: null,
    });
  });
});
