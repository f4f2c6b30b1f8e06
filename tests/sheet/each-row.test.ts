import { expect, it } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import { engineFunctions } from "../../src/sheet/catalogue-functions";
import { recalculateWorkbook } from "../../src/sheet/recalculate";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";

it("spills a column over the rows of a range: a wrong row is an error of its own cell, and sums over it fail loudly", async () => {
  const range = { firstRow: 0, firstColumn: 3, lastRow: 3, lastColumn: 3 };
  const bytes = createWorkbook({
    author: "",
    generator: "test",
    date: "2026-01-01T00:00:00Z",
    sheets: [
      {
        name: "Plan",
        cells: {
          A1: { value: "6 ft" },
          A2: { value: -1 },
          A4: { value: "6 ft" },
          D1: {
            formula: { text: '_xldudf_BLN_EACH("COUNT_COLUMN",A1:A4,9)', kind: "dynamic", range },
            value: 0,
          },
          E1: { formula: "SUM(D1:D4)", value: 0 },
          E2: { formula: "D1+D4", value: 0 },
        },
      },
    ],
  });
  const { bytes: computed, failing } = await recalculateWorkbook(bytes, engineFunctions(catalogue));
  const cells = openWorkbook(computed).model.sheets[0]?.cells ?? [];
  const at = (row: number, column: number): unknown =>
    cells.find((cell) => cell.row === row && cell.column === column)?.value;
  // 6 ft at 9 in is 12 clusters of four: common practice, two clusters to the foot.
  expect([at(0, 3), at(1, 3), at(2, 3), at(3, 3)]).toEqual([48, { error: "#N/A" }, "", 48]);
  expect([at(0, 4), at(1, 4)]).toEqual([{ error: "#N/A" }, 96]);
  expect(failing.map(({ sentence }) => sentence).join("\n")).toContain("height must be above 0");
});
