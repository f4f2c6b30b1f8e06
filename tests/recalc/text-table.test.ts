import { describe, expect, it } from "vitest";
import { shownCell, textTable, wrapped } from "../../src/recalc/text-table";

describe("shownCell", () => {
  // Number formats as ECMA-376 Part 1, 18.8.31 describes them.
  it.each([
    [1234.5, "#,##0.00", "1,234.50"],
    [0.4, "0%", "40%"],
    [46557.5, "yyyy-mm-dd hh:mm", "2027-06-19 12:00"],
    ["text", "0.00", "text"],
    [true, "General", "TRUE"],
    [null, "0", ""],
  ])("shows %s in %s as %s", (value, numberFormat, text) => {
    expect(shownCell(value, numberFormat)).toBe(text);
  });

  it("shows an error as its code", () => {
    expect(shownCell({ error: "#N/A" }, "0")).toBe("#N/A");
  });
});

it("aligns columns and leaves a lone text out of the widths", () => {
  const text = (value: string, isNumber = false) => ({ text: value, isNumber });
  expect(
    textTable([
      [text("A very long heading over the table"), text("")],
      [text("item"), text("amount")],
      [text("materials"), text("9.50", true)],
    ]),
  ).toBe("A very long heading over the table\nitem       amount\nmaterials    9.50");
});

it("wraps between words", () => {
  expect(wrapped("one two  three", 7)).toEqual(["one two", "three"]);
  expect(wrapped("", 7)).toEqual([]);
});
