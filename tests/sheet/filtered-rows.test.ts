import { afterEach, expect, it } from "vitest";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { workbookOf } from "./workbook-of";

const engine = new UniverEngine([]);
afterEach(() => {
  engine.dispose();
});

// Microsoft support, SUBTOTAL: 1 to 11 take in rows that a person hid, 101 to 111 do not, neither what a filter hides.
it.each([
  ["hidden by a person", undefined, 60, 40],
  ["filtered out", { firstRow: 0, firstColumn: 0, lastRow: 2, lastColumn: 0 }, 40, 40],
])("SUBTOTAL over rows that are %s", async (_, filter, withHidden, without) => {
  const workbook = workbookOf({
    S: { A1: 10, A2: 20, A3: 30, C1: "=SUBTOTAL(9,A1:A3)", C2: "=SUBTOTAL(109,A1:A3)" },
  });
  const [sheet] = workbook.sheets;
  if (sheet === undefined) throw new Error("no sheet");
  const hidden = { ...sheet, hiddenRows: new Set([1]), ...(filter === undefined ? {} : { filter }) };
  await engine.load({ ...workbook, sheets: [hidden] });
  await engine.recalculate();
  expect([0, 1].map((row) => engine.value({ sheet: 0, row, column: 2 }))).toEqual([withHidden, without]);
});
