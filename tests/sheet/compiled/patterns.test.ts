import { expect, it } from "vitest";
import { parseRange } from "../../../src/formula/address";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import type { TableModel } from "../../../src/workbook/model";
import { errorText, type TestCell, workbookOf } from "../workbook-of";

/** A sheet of formulas with what changes in it: which cells were computed anew, and the values of column D. */
class Sheet {
  private readonly engine = new UniverEngine([]);

  async load(cells: Readonly<Record<string, TestCell>>, tables: readonly TableModel[] = []): Promise<void> {
    await this.engine.load(workbookOf({ S: cells }, { tables }));
    await this.engine.recalculate();
  }

  async type(row: number, column: number, input: string | number | null): Promise<readonly string[]> {
    const place = { sheet: 0, row: row - 1, column };
    const isFormula = typeof input === "string" && input.startsWith("=");
    await this.engine.setCell(place, isFormula ? { formula: input } : input);
    const { computed, uncomputed } = await this.engine.recalculate();
    return [...computed, ...uncomputed]
      .map((cell) => `${"ABCDEF"[cell.column] ?? ""}${String(cell.row + 1)}`)
      .sort();
  }

  values(rows: number): readonly unknown[] {
    return Array.from({ length: rows }, (_, row) =>
      errorText(this.engine.value({ sheet: 0, row, column: 3 })),
    );
  }

  dispose(): void {
    this.engine.dispose();
  }
}

const filled = (rows: readonly number[], formula: (row: number) => string): Record<string, string> =>
  Object.fromEntries(rows.map((row) => [`D${row}`, formula(row)]));

it("computes only the formulas of a filled column that read what was typed", async () => {
  const sheet = new Sheet();
  await sheet.load({ A1: 1, A2: 2, A3: 3, A4: 4, ...filled([4, 2, 1, 3], (row) => `=A${row}*$B$1+1`) });
  expect(sheet.values(4)).toEqual([1, 1, 1, 1]);
  expect(await sheet.type(1, 1, 10)).toEqual(["D1", "D2", "D3", "D4"]);
  expect(await sheet.type(3, 0, 7)).toEqual(["D3"]);
  expect(sheet.values(4)).toEqual([11, 21, 71, 41]);
  // One formula is typed over: its pattern has it no more.
  expect(await sheet.type(2, 3, 5)).toEqual([]);
  expect(await sheet.type(2, 0, 9)).toEqual([]);
  expect(await sheet.type(2, 3, "=A2*$B$1+1")).toEqual(["D2"]);
  expect(await sheet.type(2, 0, 3)).toEqual(["D2"]);
  expect(sheet.values(4)).toEqual([11, 31, 71, 41]);
  sheet.dispose();
});

it("tells formulas that look alike apart", async () => {
  const sheet = new Sheet();
  await sheet.load({
    A1: 1, A2: 2, A3: 3, A4: 4, B1: 10, B2: 20,
    D1: "=A1+1", D2: "=A2+2", D3: "=A2+1", D4: "=$A4+1", D5: "=A$1+1", D6: "=SUM(A1:A4)", D7: "=SUM(A2:A5)", D8: "=SUM($A$1:A4)",
  }); // prettier-ignore
  expect(sheet.values(8)).toEqual([2, 4, 3, 5, 2, 10, 9, 10]);
  expect(await sheet.type(4, 0, 40)).toEqual(["D4", "D6", "D7", "D8"]);
  expect(sheet.values(8)).toEqual([2, 4, 3, 41, 2, 46, 45, 46]);
  sheet.dispose();
});

// Microsoft support, Using structured references: `[@Price]` is the cell of the formula's own row.
it("reads the row of a table in its rows, and fails beside its head and totals", async () => {
  const range = parseRange("A1:B4");
  if (range === undefined) throw new Error("no range");
  const table = { name: "Prices", sheet: 0, range, columns: ["Item", "Price"], headerRows: 1, totalsRows: 1 };
  const sheet = new Sheet();
  await sheet.load(
    { A1: "Item", B1: "Price", A2: "a", B2: 5, A3: "b", B3: 6, B4: 11, ...filled([1, 2, 3, 4, 5], () => "=Prices[@Price]*2") },
    [table],
  ); // prettier-ignore
  expect(sheet.values(5)).toEqual(["#VALUE!", 10, 12, "#VALUE!", "#VALUE!"]);
  expect(await sheet.type(3, 1, 7)).toEqual(["D3"]);
  expect(sheet.values(3)).toEqual(["#VALUE!", 10, 14]);
  sheet.dispose();
});

it("reaches what reads ranges of many columns, and crossing ones", async () => {
  const sheet = new Sheet();
  await sheet.load({
    A1: 1,
    A5: 5,
    D1: "=SUM(F1:ZZ1)",
    D2: "=SUM(F2:ZZ2)",
    D3: "=SUM($A$2:A5)",
    D4: "=SUM($A$2:A6)",
    D5: "=SUM(A$4:A1)",
    E6: "=C6",
    // So that the part in use does not grow.
    AAZ40: 1,
  });
  expect(await sheet.type(1, 700, 3)).toEqual(["D1"]);
  expect(await sheet.type(2, 5, 4)).toEqual(["D2"]);
  expect(await sheet.type(2, 4, 4)).toEqual([]);
  expect(await sheet.type(6, 0, 2)).toEqual(["D4"]);
  expect(await sheet.type(3, 0, 9)).toEqual(["D3", "D4", "D5"]);
  expect(await sheet.type(1, 0, 2)).toEqual(["D5"]);
  expect(await sheet.type(6, 2, 2)).toEqual(["E6"]);
  expect(sheet.values(5)).toEqual([3, 4, 14, 16, 11]);
  sheet.dispose();
});
