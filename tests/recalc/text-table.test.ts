import { expect, it } from "vitest";
import { textTable, wrapped } from "../../src/recalc/text-table";

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
