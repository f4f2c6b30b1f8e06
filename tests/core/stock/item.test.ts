import { describe, expect, it } from "vitest";
import { itemKey, itemWords, mayBe, sizeKey } from "../../../src/core/stock/item";

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

  it("differ by what they are made of, and long ones by their code", () => {
    const gold = { printed: 0.4572, colour: "Gold" };
    const foil = { ...gold, type: "foil" as const };
    const long = { ...gold, type: "long" as const };
    const keys = [gold, foil, long, { ...long, code: 160 }, { ...long, code: 260 }].map(itemKey);
    expect(new Set(keys).size).toBe(5);
    expect(itemKey({ ...gold, type: "latex" })).toBe(itemKey(gold));
    // A code says the length: two lists that type it differently mean one thing.
    expect(itemKey({ ...long, code: 260, printed: 1.524 })).toBe(
      itemKey({ ...long, code: 260, printed: 1.5 }),
    );
  });

  it("are said in plain words where sentences quote nothing else", () => {
    expect(itemWords({ printed: 0.2794, colour: " Coral " })).toBe("11 in Coral");
    expect(itemWords({ printed: 0.4572, colour: " Gold ", type: "foil" })).toBe("18 in Gold foil");
    expect(itemWords({ printed: 1.524, colour: "White", type: "long", code: 260 })).toBe("260 White");
  });
});

describe("mayBe", () => {
  const gold = { printed: 0.2794, colour: "Gold" };
  const long = { printed: 1.524, colour: "White", type: "long" as const, code: 260 };

  it("is true as long as nothing that can be read says otherwise", () => {
    expect(mayBe({}, gold)).toBe(true);
    expect(mayBe({ colour: " GOLD" }, gold)).toBe(true);
    expect(mayBe({ printed: 0.2794 }, gold)).toBe(true);
    expect(mayBe({ code: 260 }, long)).toBe(true);
  });

  it("is false for another size, colour, type or code", () => {
    expect(mayBe({ printed: 0.127 }, gold)).toBe(false);
    expect(mayBe({ colour: "Navy" }, gold)).toBe(false);
    expect(mayBe({ type: "foil" }, gold)).toBe(false);
    expect(mayBe({ code: 260 }, gold)).toBe(false);
    expect(mayBe({ code: 160 }, long)).toBe(false);
  });
});
