import { strFromU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { changeSheets, type SheetListChange } from "../../src/workbook/change-sheets";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { tinyWorkbook } from "./tiny-package";

const bytes = createWorkbook({
  author: "test",
  generator: "test",
  date: "2026-01-01T00:00:00Z",
  names: [
    { name: "rate", text: "Rates!$B$1" },
    { name: "here", text: "Offer!$A$1", sheet: 0 },
  ],
  sheets: [
    {
      name: "Offer",
      notes: { A1: "a note" },
      tables: [{ name: "Lines", range: "A3:B4" }],
      cells: {
        A1: { value: 2, formula: "rate*Rates!B1" },
        A3: { value: "item" },
        B3: { value: "count" },
        A4: { value: "arch" },
        B4: { value: 3 },
        D1: { value: 3, formula: "SUM(Lines[count])" },
      },
    },
    { name: "Rates", cells: { B1: { value: 1 } } },
    { name: "Notes", cells: { A1: { value: "x" } } },
  ],
});
const after = (change: SheetListChange): ReturnType<typeof openWorkbook>["model"] =>
  openWorkbook(changeSheets(bytes, change)).model;
const names = (change: SheetListChange): readonly string[] => after(change).sheets.map(({ name }) => name);

describe("the list of sheets", () => {
  it("takes a new sheet at its place", () => {
    expect(names({ kind: "addSheet", name: "Bills", to: 1 })).toEqual(["Offer", "Bills", "Rates", "Notes"]);
  });

  it("renames one with all that names it", () => {
    const model = after({ kind: "renameSheet", sheet: 1, name: "Bob's rates" });
    expect(model.sheets.map(({ name }) => name)).toEqual(["Offer", "Bob's rates", "Notes"]);
    expect(model.sheets[0]?.cells[0]?.formula?.text).toBe("rate*'Bob''s rates'!B1");
    expect(model.names.find(({ name }) => name === "rate")?.text).toBe("'Bob''s rates'!$B$1");
  });

  it("moves one and keeps names with the sheet they belong to", () => {
    const model = after({ kind: "moveSheet", sheet: 0, to: 2 });
    expect(model.sheets.map(({ name }) => name)).toEqual(["Rates", "Notes", "Offer"]);
    expect(model.names.find(({ name }) => name === "here")?.sheet).toBe(2);
    expect(names({ kind: "moveSheet", sheet: 2, to: 0 })).toEqual(["Notes", "Offer", "Rates"]);
  });

  it("copies one with its notes and its own table", () => {
    const model = after({ kind: "copySheet", sheet: 0, name: "Offer (2)" });
    expect(model.sheets.map(({ name }) => name)).toEqual(["Offer", "Offer (2)", "Rates", "Notes"]);
    const [original, copy] = model.sheets;
    expect([...(copy?.notes ?? [])]).toEqual([["A1", "a note"]]);
    expect(model.tables.map(({ name, sheet }) => [name, sheet])).toEqual([
      ["Lines", 0],
      ["Lines_2", 1],
    ]);
    expect(original?.cells.map(({ formula }) => formula?.text)).toContain("SUM(Lines[count])");
    expect(copy?.cells.map(({ formula }) => formula?.text)).toContain("SUM(Lines_2[count])");
    expect(copy?.cells.map(({ value }) => value)).toEqual(original?.cells.map(({ value }) => value));
    expect(model.names.filter(({ name }) => name === "here").map(({ sheet, text }) => [sheet, text])).toEqual(
      expect.arrayContaining([
        [0, "Offer!$A$1"],
        [1, "'Offer (2)'!$A$1"],
      ]),
    );
  });

  it("hides, shows and removes", () => {
    expect(after({ kind: "showSheet", sheet: 1, isShown: false }).sheets[1]?.state).toBe("hidden");
    const model = after({ kind: "removeSheet", sheet: 1 });
    expect(model.sheets.map(({ name }) => name)).toEqual(["Offer", "Notes"]);
    expect(model.sheets[0]?.cells[0]?.formula?.text).toBe("rate*#REF!");
    expect(model.names.find(({ name }) => name === "rate")?.text).toBe("#REF!");
  });

  it("hides a sheet that is hidden already, and one beside the last in sight", () => {
    const hidden = changeSheets(bytes, { kind: "showSheet", sheet: 1, isShown: false });
    const alone = changeSheets(hidden, { kind: "showSheet", sheet: 2, isShown: false });
    const again = changeSheets(alone, { kind: "showSheet", sheet: 1, isShown: false });
    const shown = changeSheets(again, { kind: "showSheet", sheet: 0, isShown: true });
    expect(openWorkbook(shown).model.sheets.map(({ state }) => state)).toEqual([
      "visible",
      "hidden",
      "hidden",
    ]);
  });

  // ECMA-376 part 1, 18.2.30: activeTab and firstSheet count sheets from 0.
  it("keeps the same sheet in front where others move past it", () => {
    const views = '<bookViews><workbookView activeTab="1" firstSheet="0"/></bookViews>';
    const two = changeSheets(tinyWorkbook({ workbookBefore: views }), { kind: "addSheet", name: "B", to: 1 });
    const moved = unzipSync(changeSheets(two, { kind: "moveSheet", sheet: 0, to: 1 }));
    const text = strFromU8(moved["xl/workbook.xml"] ?? new Uint8Array());
    expect(text).toMatch(/<workbookView activeTab="0" firstSheet="1"/);
    const bare = changeSheets(tinyWorkbook(), { kind: "addSheet", name: "B", to: 0 });
    expect(openWorkbook(bare).model.sheets.map(({ name }) => name)).toEqual(["B", "Sheet one"]);
  });

  it("refuses what Excel refuses", () => {
    expect(() => after({ kind: "renameSheet", sheet: 1, name: "offer" })).toThrow(
      'has a sheet "offer" already',
    );
    expect(() => after({ kind: "renameSheet", sheet: 1, name: "a/b" })).toThrow("must not contain");
    const alone = changeSheets(changeSheets(bytes, { kind: "removeSheet", sheet: 2 }), {
      kind: "showSheet",
      sheet: 1,
      isShown: false,
    });
    expect(() => changeSheets(alone, { kind: "removeSheet", sheet: 0 })).toThrow("only one in sight");
    expect(() => changeSheets(alone, { kind: "showSheet", sheet: 0, isShown: false })).toThrow(
      "only one in sight",
    );
  });
});
