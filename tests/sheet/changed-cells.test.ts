import { describe, expect, it } from "vitest";
import { parseCell, parseRange } from "../../src/formula/address";
import { changesOf } from "../../src/sheet/changes";
import type { ComputedCell } from "../../src/sheet/engine";
import { cellFinder } from "../../src/workbook/cell-finder";
import type { CellValue } from "../../src/workbook/model";
import { type TestSheets, workbookOf } from "./workbook-of";

function place(address: string): { readonly sheet: number; readonly row: number; readonly column: number } {
  const found = parseCell(address);
  if (found === undefined) throw new Error(address);
  return { sheet: 0, ...found };
}

function spilled(range: string, rows: readonly (readonly CellValue[])[]): ComputedCell {
  const spill = parseRange(range);
  if (spill === undefined) throw new Error(range);
  return {
    sheet: 0,
    row: spill.firstRow,
    column: spill.firstColumn,
    value: rows[0]?.[0] ?? null,
    spill,
    spilled: rows,
  };
}

/** What changes, as `A1 before -> after`, with the new range. */
function changed(
  cells: TestSheets[string],
  computed: readonly ComputedCell[],
  left: readonly string[] = [],
): readonly string[] {
  const ranges = left.map((range) => {
    const found = parseRange(range);
    if (found === undefined) throw new Error(range);
    return { sheet: 0, row: found.firstRow, column: found.firstColumn, range: found };
  });
  return changesOf(cellFinder(workbookOf({ S: cells })), computed, ranges).map(
    ({ row, column, before, value, range }) => {
      const end = range === undefined ? "" : ` to ${"ABCDEF".charAt(range.lastColumn)}${range.lastRow + 1}`;
      return `${"ABCDEF".charAt(column)}${row + 1} ${JSON.stringify(before)} -> ${JSON.stringify(value)}${end}`;
    },
  );
}

describe("changes of a file", () => {
  it("are values that are others", () => {
    const cells = { A1: { f: "X", v: 1 }, A2: { f: "Y", v: 2 } };
    const computed = [
      { ...place("A1"), value: 1 },
      { ...place("A2"), value: 3 },
      { ...place("A3"), value: 4 },
    ];
    expect(changed(cells, computed)).toEqual(["A2 2 -> 3", "A3 null -> 4"]);
  });

  it("are cells that a spill gains, in both directions", () => {
    const cells = { B2: { f: "X", v: 1, kind: "dynamic", range: "B2:B2" } } as const;
    const rows = [
      [1, 2],
      [3, 4],
    ];
    expect(changed(cells, [spilled("B2:C3", rows)])).toEqual([
      "B2 1 -> 1 to C3",
      "C2 null -> 2",
      "B3 null -> 3",
      "C3 null -> 4",
    ]);
  });

  it("are cells that a spill leaves, but none that has a formula by now", () => {
    const cells = {
      B2: { f: "X", v: 1, kind: "dynamic", range: "B2:C3" },
      C2: 2,
      B3: 3,
      C3: { f: "Y", v: 4 },
    } as const;
    expect(changed(cells, [{ ...place("B2"), value: 7 }])).toEqual([
      "C2 2 -> null",
      "B3 3 -> null",
      "B2 1 -> 7 to B2",
    ]);
    expect(changed(cells, [spilled("B2:C2", [[1, 2]])])).toEqual(["B3 3 -> null", "B2 1 -> 1 to C2"]);
    expect(changed(cells, [spilled("B2:B3", [[1], [3]])])).toEqual(["C2 2 -> null", "B2 1 -> 1 to B3"]);
  });

  it("are the same for an array formula, and none of a formula that fills one cell", () => {
    const array = { A1: { f: "X", v: 1, kind: "array", range: "A1:A2" }, A2: 2 } as const;
    expect(changed(array, [{ ...place("A1"), value: 1 }])).toEqual(["A2 2 -> null", "A1 1 -> 1 to A1"]);
    const normal = { A1: { f: "X", v: 1, range: "A1:A2" }, A2: 2 } as const;
    expect(changed(normal, [{ ...place("A1"), value: 1 }])).toEqual([]);
    expect(changed({ A1: { f: "X", v: 1, kind: "dynamic" }, A2: 2 }, [{ ...place("A1"), value: 1 }])).toEqual(
      [],
    );
  });

  it("clear first, so that one spill takes the place of another", () => {
    const cells = {
      A1: { f: "X", v: 1, kind: "dynamic", range: "A1:A3" },
      A2: 2,
      A3: 3,
      B3: { f: "Y", v: 5, kind: "dynamic", range: "B3:B3" },
    } as const;
    const computed = [spilled("B3:C3", [[5, 6]]), { ...place("A1"), value: 1 }];
    expect(changed({ ...cells, C3: 9 }, computed)).toEqual([
      "A2 2 -> null",
      "A3 3 -> null",
      "B3 5 -> 5 to C3",
      "C3 9 -> 6",
      "A1 1 -> 1 to A1",
    ]);
    // What another spill fills again with what stood there does not change.
    expect(changed(cells, [{ ...place("A1"), value: 1 }, { ...spilled("A2:A3", [[8], [3]]) }])).toEqual([
      "A2 2 -> 8",
      "A1 1 -> 1 to A1",
    ]);
  });

  it("clear what a formula filled that is gone", () => {
    const cells = { A1: 1, A2: 2, B1: 3, B2: { f: "Y", v: 4 } };
    expect(changed(cells, [], ["A1:B2"])).toEqual(["B1 3 -> null", "A2 2 -> null"]);
  });

  it("take a missing cell of a spill for a blank one", () => {
    const cells = { A1: { f: "X", v: 1, kind: "dynamic", range: "A1:A2" }, A2: 2 } as const;
    expect(changed(cells, [spilled("A1:A2", [[1]])])).toEqual(["A2 2 -> null"]);
  });
});
