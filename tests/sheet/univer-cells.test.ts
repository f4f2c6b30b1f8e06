import { expect, it } from "vitest";
import { type CellContent, CellSource } from "../../src/sheet/univer-cells";

const CELLS: Readonly<Record<string, CellContent>> = {
  "2/0/0": { value: 5 },
  "2/0/1": { value: 6, formula: "A1+1" },
  "2/1/0": { value: "" },
  "2/1/1": { value: "", formula: "REPT(1,0)" },
  "2/2/0": { value: null, formula: "Z9" },
  "2/2/1": { value: { error: "#N/A" } },
};
const source = new CellSource(2, (sheet, row, column) => CELLS[[sheet, row, column].join("/")]);

it("gives the engine each cell of its sheet, with the formula that stands in it", () => {
  expect(source.getValue(0, 0)).toMatchObject({ v: 5, own: 5 });
  expect(source.getValue(0, 0)).not.toHaveProperty("f");
  expect(source.getValue(0, 1)).toMatchObject({ v: 6, f: "=A1+1" });
  expect(source.getValue(2, 1)).toMatchObject({ v: "#N/A", own: { error: "#N/A" } });
  expect(source.getValue(9, 9)).toBeNull();
  expect(source.getValue(2, 0)).toBeNull();
});

it("tells an empty text from a blank cell", () => {
  expect(source.getValue(1, 0)).toMatchObject({ v: "", f: '=""' });
  expect(source.getValue(1, 1)).toMatchObject({ v: "", f: "=REPT(1,0)" });
});

it("gives cells by row and column too", () => {
  const rows = source.getMatrix() as readonly (readonly unknown[])[];
  expect(rows[0]?.[1]).toMatchObject({ v: 6, f: "=A1+1" });
  expect(rows[9]?.[9]).toBeUndefined();
});
