import { expect, it } from "vitest";
import { takenFile } from "../../src/desk/text-file";
import { openWorkbook } from "../../src/workbook/read";

const NOW = "2026-01-01T00:00:00Z";
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

it("takes a supplier's .csv as a workbook and says how it was read", () => {
  const file = takenFile(utf8("Artikel;Preis\n11 Navy;9,90\n5 Gold;12,50\n"), "Preise.csv", NOW);
  expect(file.name).toBe("Preise.xlsx");
  expect(file.note).toBe(
    "Preise.csv was read as UTF-8 text, columns between semicolons, decimal comma, 3 rows, 2 columns",
  );
  const price = openWorkbook(file.bytes).model.sheets[0]?.cells.find(
    ({ row, column }) => row === 1 && column === 1,
  );
  expect(price?.value).toBe(9.9);
});

it("names what can be read in two ways, and only the first of many", () => {
  const { note } = takenFile(utf8("item;price\na;1,234\nb;2,345\nc;3,456\nd;4,567\n"), "prices.csv", NOW);
  expect(note).toContain("4 cells stay text because of two readings: B2 1,234 (");
  expect(note).toMatch(/B4 3,456 \([^)]+\), and 1 more$/);
});

it("leaves every other file as it is", () => {
  const bytes = utf8("PK\u0003\u0004 no text");
  expect(takenFile(bytes, "prices.csv", NOW)).toEqual({ bytes, name: "prices.csv" });
  expect(takenFile(bytes, "quote.xlsx", NOW)).toEqual({ bytes, name: "quote.xlsx" });
});
