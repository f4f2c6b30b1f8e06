import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, it } from "vitest";
import { packModel, transferred, unpackModel } from "../../src/desk/model-transfer";
import type { CellFormula, CellValue, WorkbookCell, WorkbookModel } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import { quoteWorkbook } from "./desk-page";

/** A workbook as it comes out on the other side of a message. */
function moved(model: WorkbookModel): WorkbookModel {
  const packed = packModel(model);
  return unpackModel(structuredClone(packed, { transfer: [...transferred(packed)] }));
}

const VALUE: fc.Arbitrary<CellValue> = fc.oneof(
  fc.constantFrom<CellValue>(null, true, false, "", "text", "#N/A", { error: "#N/A" }, { error: "" }),
  fc.double({ noNaN: true }),
  fc.string(),
);
const RANGE = { firstRow: 1, firstColumn: 2, lastRow: 3, lastColumn: 4 };
const FORMULA: fc.Arbitrary<CellFormula> = fc.oneof(
  fc.record({ text: fc.string(), kind: fc.constant("normal" as const) }),
  fc.record({
    text: fc.string(),
    kind: fc.constantFrom("normal" as const, "array" as const, "dynamic" as const, "dataTable" as const),
    range: fc.constant(RANGE),
  }),
);
const CELL: fc.Arbitrary<WorkbookCell> = fc.record(
  {
    row: fc.nat(1_048_575),
    column: fc.nat(16_383),
    style: fc.nat(70_000),
    value: VALUE,
    formula: FORMULA,
    isFilled: fc.constant(true as const),
  },
  { requiredKeys: ["row", "column", "style", "value"], noNullPrototype: true },
);

it("hands every cell over as it is", () => {
  const { model } = openWorkbook(quoteWorkbook());
  fc.assert(
    fc.property(fc.array(CELL), (cells) => {
      const given = { ...model, sheets: model.sheets.map((sheet) => ({ ...sheet, cells })) };
      expect(moved(given)).toEqual(given);
    }),
  );
});

it.each(readdirSync("sample-workbooks"))("hands over %s as it was read", (file) => {
  const { model } = openWorkbook(new Uint8Array(readFileSync(join("sample-workbooks", file))));
  expect(moved(model)).toStrictEqual(model);
});
