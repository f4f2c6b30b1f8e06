import { describe, expect, it } from "vitest";
import { tableRange } from "../../src/formula/structured-reference";
import { rangeAddress } from "../../src/formula/address";

// Areas and escapes as in Microsoft support, "Using structured references with Excel tables".
const table = {
  name: "Sales",
  sheet: 0,
  range: { firstRow: 1, firstColumn: 1, lastRow: 6, lastColumn: 4 },
  columns: ["Person", "Region", "Sales Amount", "% [x]"],
  headerRows: 1,
  totalsRows: 1,
};

describe("structured references", () => {
  it.each([
    ["[]", "B3:E6"],
    ["[Sales Amount]", "D3:D6"],
    ["[sales amount]", "D3:D6"],
    ["[#All]", "B2:E7"],
    ["[#Headers]", "B2:E2"],
    ["[#Totals]", "B7:E7"],
    ["[[#Headers],[Region]]", "C2"],
    ["[[#Totals],[Sales Amount]]", "D7"],
    ["[[Person]:[Sales Amount]]", "B3:D6"],
    ["[[#All],[Person]:[Region]]", "B2:C7"],
    ["[[#Headers],[#Data],[Region]]", "C2:C6"],
    ["[[#This Row],[Region]]", "C5"],
    ["[@Region]", "C5"],
    ["[@[Sales Amount]]", "D5"],
    ["[@]", "B5:E5"],
    ["[% '[x']]", "E3:E6"],
  ])("%s", (structure, address) => {
    const range = tableRange(table, structure, 4);
    expect(typeof range === "string" ? range : rangeAddress(range)).toBe(address);
  });

  it("gives an error for what the table lacks", () => {
    expect(tableRange(table, "[Nothing]", 4)).toBe("#REF!");
    expect(tableRange({ ...table, totalsRows: 0 }, "[#Totals]", 4)).toBe("#REF!");
    expect(tableRange(table, "[@Region]", 12)).toBe("#VALUE!");
  });
});
