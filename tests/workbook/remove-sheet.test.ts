import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { addSheet } from "../../src/workbook/add-sheet";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { removeSheet } from "../../src/workbook/remove-sheet";

const cells = { A1: { value: 1 } };
const workbook = createWorkbook({
  author: "test",
  generator: "test",
  date: "2026-01-01T00:00:00Z",
  names: [
    { name: "all", text: "One!$A$1" },
    { name: "second", text: "Two!$A$1", sheet: 1 },
    { name: "third", text: "Three!$A$1", sheet: 2 },
  ],
  sheets: ["One", "Two", "Three"].map((name) => ({ name, cells })),
});

describe("removing a sheet", () => {
  it("undoes adding one", () => {
    const added = addSheet(workbook, { name: "Four", rows: [[1]] });
    const removed = openWorkbook(removeSheet(added, "Four"));
    expect(removed.model).toEqual(openWorkbook(workbook).model);
    expect([...removed.parts.names].sort()).toEqual([...openWorkbook(workbook).parts.names].sort());
  });

  it("moves the names of the sheets behind it, and drops its own", () => {
    const { sheets, names } = openWorkbook(removeSheet(workbook, "Two")).model;
    expect(sheets.map(({ name }) => name)).toEqual(["One", "Three"]);
    expect(names.map(({ name, sheet }) => [name, sheet])).toEqual([
      ["all", undefined],
      ["third", 1],
    ]);
  });

  it("keeps the last one, and knows its sheets", () => {
    const one = removeSheet(removeSheet(workbook, "Two"), "Three");
    expect(() => removeSheet(one, "One")).toThrow("only one");
    expect(() => removeSheet(one, "Two")).toThrow('no sheet "Two"');
  });
});

// A window says by position which sheet is in front and which tab is the first in sight (ECMA-376 part 1, 18.2.30).
it.each([
  ["the one in front of both", "One", [2, 1], [1, 0]],
  ["the one in front", "Three", [2, 1], [1, 1]],
  ["the first in sight", "Two", [2, 1], [1, 0]],
  ["one behind both", "Three", [1, 0], [1, 0]],
  ["the first of all, in front itself", "One", [0, 0], [0, 0]],
])("leaves a window on the sheets that it showed without %s", (_what, name, [front, first], after) => {
  const parts = unzipSync(workbook);
  const text = strFromU8(parts["xl/workbook.xml"] ?? new Uint8Array())
    .replace(/<bookViews>.*?<\/bookViews>|<bookViews\/>/, "")
    .replace(
      "<sheets>",
      `<bookViews><workbookView activeTab="${String(front)}" firstSheet="${String(first)}"/><workbookView/></bookViews><sheets>`,
    );
  const file = zipSync({ ...parts, "xl/workbook.xml": strToU8(text) });
  const written = strFromU8(unzipSync(removeSheet(file, name))["xl/workbook.xml"] ?? new Uint8Array());
  const [one = "", other = ""] = written.match(/<workbookView[^>]*>/g) ?? [];
  expect(
    ["activeTab", "firstSheet"].map((key) => Number(new RegExp(`${key}="(\\d+)"`).exec(one)?.[1])),
  ).toEqual(after);
  expect(other).toBe("<workbookView/>");
});

it("takes the part of a sheet, its link and its type out of the file", () => {
  const removed = openWorkbook(removeSheet(workbook, "Three")).parts;
  expect(removed.names).not.toContain("xl/worksheets/sheet3.xml");
  expect(removed.readText("[Content_Types].xml")).not.toContain("sheet3.xml");
  expect(removed.linked("xl/workbook.xml", "worksheet")).toEqual([
    "xl/worksheets/sheet1.xml",
    "xl/worksheets/sheet2.xml",
  ]);
});
