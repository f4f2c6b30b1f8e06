import { describe, expect, it } from "vitest";
import { addressOf, escapedTitle, lastingReference, resolveReference } from "../../src/formula/resolve";
import type { Scope } from "../../src/formula/scope";
import { area, at } from "../taskpane/fake-host";

const scope: Scope = {
  sheets: [{ name: "Plan" }, { name: "Price list" }],
  tables: [
    {
      name: "Prices",
      ...area("Plan!B3:D9"),
      columns: ["Item", "Price [net]", "It's"],
      headerRows: 1,
      totalsRows: 1,
    },
  ],
  names: [
    { name: "Floor", reference: "'Price list'!$B$2" },
    { name: "Floor", sheet: "Plan", reference: "Plan!$A$1" },
    { name: "Again", reference: "Floor" },
    { name: "Loop", reference: "Loop" },
  ],
};

const resolved = (text: string, cell = "Plan!F5"): string | undefined => {
  const found = resolveReference(scope, text, at(cell));
  return found && addressOf(found);
};

// What each reference means is Excel's own rule: Microsoft support, "Using structured references with Excel tables".
describe("references", () => {
  it.each([
    ["A1", "Plan!A1"],
    ["$B$2:C3", "Plan!B2:C3"],
    ["'Price list'!B2", "'Price list'!B2"],
    ["'PRICE LIST'!B2", "'Price list'!B2"],
    ["B:B", "Plan!B1:B1048576"],
    ["2:3", "Plan!A2:XFD3"],
    ["Prices", "Plan!B4:D8"],
    ["Prices[]", "Plan!B4:D8"],
    ["Prices[#All]", "Plan!B3:D9"],
    ["Prices[#Headers]", "Plan!B3:D3"],
    ["Prices[#Totals]", "Plan!B9:D9"],
    ["Prices[[#Headers],[#Data]]", "Plan!B3:D8"],
    ["Prices[Item]", "Plan!B4:B8"],
    ["Prices[[Item]:[It''s]]", "Plan!B4:D8"],
    ["Prices[[#All],[Price '[net']]]", "Plan!C3:C9"],
    ["Floor", "Plan!A1"],
    ["Again", "Plan!A1"],
  ])("%s is %s", (text, expected) => {
    expect(resolved(text)).toBe(expected);
  });

  it("reads the row of the cell that asks", () => {
    expect(resolved("[@Item]", "Plan!D6")).toBe("Plan!B6");
    expect(resolved("Prices[@[Price '[net']]]", "Plan!F6")).toBe("Plan!C6");
    expect(resolved("[@Item]", "Plan!F6")).toBeUndefined();
    expect(resolved("Prices[@Item]", "Plan!F9")).toBeUndefined();
    expect(resolved("Floor", "Price list!A1")).toBe("'Price list'!B2");
  });

  it.each(["Gone!A1", "[Book2.xlsx]Plan!A1", "Nothing", "Prices[Gone]", "Loop", "A1+B2", ""])(
    "cannot tell %s",
    (text) => {
      expect(resolved(text)).toBeUndefined();
    },
  );

  it("escapes the signs of a title that mean something in brackets", () => {
    expect(escapedTitle("a[b]#c'd@e")).toBe("a'[b']'#c''d'@e");
  });

  it("names a table where the selection is the whole of it", () => {
    expect(lastingReference(scope, area("Plan!B3:D9"))).toBe("Prices[[#Headers],[#Data]]");
    expect(lastingReference(scope, area("Plan!B4:D8"))).toBe("Prices[[#Headers],[#Data]]");
    expect(lastingReference(scope, area("Plan!B4:C8"))).toBe("Plan!B4:C8");
    expect(lastingReference(scope, area("Plan!B4:D6"))).toBe("Plan!B4:D6");
  });
});
