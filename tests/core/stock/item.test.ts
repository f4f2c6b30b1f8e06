import { describe, expect, it } from "vitest";
import { itemKey, itemText, sizeKey } from "../../../src/core/stock/item";

describe("items", () => {
  it("are the same whatever case and spaces their colour has, and however their size was typed", () => {
    expect(itemKey({ printed: 11 * 0.0254, colour: " Navy\u00a0Blue" })).toBe(
      itemKey({ printed: 0.2794, colour: "navy blue" }),
    );
  });

  it("differ by size and colour", () => {
    const navy = { printed: 0.2794, colour: "Navy" };
    expect(itemKey(navy)).not.toBe(itemKey({ ...navy, printed: 0.3048 }));
    expect(itemKey(navy)).not.toBe(itemKey({ ...navy, colour: "Sky" }));
  });

  it("take a printed size to a hundredth of a millimetre", () => {
    // 11 in = 279.4 mm: NIST SP 811.
    expect(sizeKey(11 * 0.0254)).toBe(27940);
  });

  it("are written as the trade prints them", () => {
    expect(itemText({ printed: 0.2794, colour: " Coral " })).toBe('11 in "Coral"');
  });
});
