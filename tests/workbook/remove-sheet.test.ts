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
