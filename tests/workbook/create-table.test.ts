import { expect, it } from "vitest";
import { createWorkbook } from "../../src/workbook/create";
import type { SheetDescription } from "../../src/workbook/create-sheet";
import { tableMarkup } from "../../src/workbook/create-table";
import { openWorkbook } from "../../src/workbook/read";
import { readXml } from "../../src/workbook/xml";

const sheet = (...headings: readonly (string | number)[]): SheetDescription => ({
  name: "Prices",
  cells: Object.fromEntries(headings.map((value, at) => [`${"BCDE".charAt(at)}2`, { value }])),
});

// ECMA-376 part 1, 18.5.1.2 and 18.5.1.3.
it("names the columns of a table after the cells above them", () => {
  const named = sheet("item & size", "two\nlines", "_x0041_");
  const root = readXml(
    tableMarkup(named, { name: "List", range: "B2:D9", style: "TableStyleMedium2" }, 7),
    "table",
  );
  expect(["id", "name", "displayName", "ref", "totalsRowShown"].map((name) => root.get(name))).toEqual([
    "7",
    "List",
    "List",
    "B2:D9",
    "0",
  ]);
  const columns = root.child("tableColumns");
  expect(columns?.number("count")).toBe(3);
  expect(columns?.all("tableColumn").map((column) => [column.get("id"), column.get("name")])).toEqual([
    ["1", "item & size"],
    ["2", "two_x000a_lines"],
    ["3", "_x005F_x0041_"],
  ]);
  expect(root.child("autoFilter")?.get("ref")).toBe("B2:D9");
  expect(root.child("tableStyleInfo")?.get("name")).toBe("TableStyleMedium2");
});

it("reads back with the names that the cells show", () => {
  const named = { ...sheet("item & size", "two\nlines"), tables: [{ name: "List", range: "B2:C3" }] };
  const file = createWorkbook({ author: "a", generator: "g", date: "2026-01-01T00:00:00Z", sheets: [named] });
  expect(openWorkbook(file).model.tables[0]?.columns).toEqual(["item & size", "two\nlines"]);
});

it.each([
  ["the same name twice", sheet("item", "item")],
  ["the same name in capitals", sheet("item", "ITEM")],
  ["a number", sheet("item", 7)],
  ["an empty text", sheet("item", "")],
  ["no cell", sheet("item")],
])("is refused with %s above its columns", (_what, headed) => {
  expect(() => tableMarkup(headed, { name: "List", range: "B2:C9" }, 1)).toThrow(
    'table "List" needs a different text above each of its columns',
  );
});
