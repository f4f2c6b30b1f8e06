import { expect, it } from "vitest";
import { createWorkbook } from "../../src/workbook/create";
import { fittedRows } from "../../src/workbook/fitted-rows";
import { openWorkbook } from "../../src/workbook/read";

const LONG = "a text that is far too long for a column of the usual width and is broken into several lines";

it("makes the rows higher that Excel would, and leaves the others", () => {
  const { model } = openWorkbook(
    createWorkbook({
      author: "test",
      generator: "test",
      date: "2026-01-01T00:00:00Z",
      sheets: [
        {
          name: "S",
          rowHeights: { 4: 12 },
          columnWidths: { B: 200 },
          merges: ["A5:C5"],
          cells: {
            A1: { value: LONG },
            A2: { value: LONG, style: { wrap: true } },
            B3: { value: LONG, style: { wrap: true } },
            A4: { value: LONG, style: { wrap: true } },
            A5: { value: LONG, style: { wrap: true } },
            A6: { value: "title", style: { fontSize: 24 } },
            A7: { value: 7, style: { wrap: true } },
            A8: { value: "two\nlines", style: { wrap: true } },
            B8: { value: "title", style: { fontSize: 14 } },
            A9: { value: "title", style: { fontSize: 14 } },
            B9: { value: "title", style: { fontSize: 24 } },
            C9: { value: "small", style: { fontSize: 12 } },
          },
        },
      ],
    }),
  );
  const [sheet] = model.sheets;
  const rows = sheet && fittedRows(sheet, model.styles);
  // Rows with a height of their own, in merged cells and of usual texts keep theirs.
  expect([...(rows?.keys() ?? [])]).toEqual([1, 5, 7, 8]);
  // 24 points: 42 pixels in Excel (from memory).
  expect(Math.abs((rows?.get(5) ?? 0) - 42)).toBeLessThanOrEqual(1);
  expect(rows?.get(8)).toBe(rows?.get(5));
  expect(rows?.get(1)).toBeGreaterThan(5 * 20);
  expect(Math.abs((rows?.get(7) ?? 0) - 40)).toBeLessThanOrEqual(1);
});
