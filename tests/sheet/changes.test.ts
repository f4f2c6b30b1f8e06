import { describe, expect, it } from "vitest";
import { changesOf } from "../../src/sheet/changes";
import type { EngineFunction } from "../../src/sheet/engine";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { cellFinder } from "../../src/workbook/cell-finder";
import { workbookOf } from "./workbook-of";

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
});
