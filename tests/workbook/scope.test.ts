import { describe, expect, it } from "vitest";
import { addressOf, resolveReference } from "../../src/formula/resolve";
import { scopeOf } from "../../src/workbook/scope";
import { workbookOf } from "../sheet/workbook-of";

const model = workbookOf({ Quote: { A1: 1 }, "Price list": { A1: 1 } });
const scope = scopeOf({
  ...model,
  names: [
    { name: "Rate", text: "'Price list'!$B$2", isHidden: false },
    { name: "Rate", text: "Quote!$C$1:$C$4", sheet: 0, isHidden: false },
    { name: "Double", text: "Rate*2", isHidden: false },
    { name: "Loop", text: "Loop", isHidden: false },
  ],
  tables: [
    {
      name: "Prices",
      sheet: 1,
      range: { firstRow: 0, firstColumn: 0, lastRow: 3, lastColumn: 1 },
      columns: ["Item", "Price"],
      headerRows: 1,
      totalsRows: 0,
    },
  ],
});
const resolved = (reference: string, sheet: string): string | undefined => {
  const area = resolveReference(scope, reference, { sheet, row: 5, column: 5 });
  return area && addressOf(area);
};

describe("the cells behind a reference in a file", () => {
  it.each([
    ["B2", "Price list", "'Price list'!B2"],
    ["$B$2:C9", "Quote", "Quote!B2:C9"],
    ["'price LIST'!A1", "Quote", "'Price list'!A1"],
    ["rate", "Quote", "Quote!C1:C4"],
    ["RATE", "Price list", "'Price list'!B2"],
    ["Prices[Price]", "Quote", "'Price list'!B2:B4"],
  ])("are found for %s on %s", (reference, sheet, found) => {
    expect(resolved(reference, sheet)).toBe(found);
  });

  it.each(["Gone!A1", "Double", "Loop", "Nobody", "A1*2", "T[Price]"])("are none for %s", (reference) => {
    expect(resolved(reference, "Quote")).toBeUndefined();
  });
});
