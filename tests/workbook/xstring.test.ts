import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decodeXstring, encodeXstring } from "../../src/workbook/xstring";

describe("text with escaped characters", () => {
  // Escapes as in ECMA-376 part 1, 22.9.2.19 (ST_Xstring): `_x0008_` is one backspace, `_x005F_` an underscore.
  it.each([
    ["_x0008_", "\b"],
    ["a_x000D_\nb", "a\r\nb"],
    ["_x005F_x0008_", "_x0008_"],
    ["no_xescape_", "no_xescape_"],
    ["_x00e9_", "é"],
  ])("reads %j", (stored, text) => {
    expect(decodeXstring(stored)).toBe(text);
  });

  it("writes what XML cannot hold as escapes and everything else as it is", () => {
    expect(encodeXstring("\r\b\u0000")).toBe("_x000D__x0008__x0000_");
    expect(encodeXstring("_x0008_ and _x12 é\t\n")).toBe("_x005F_x0008_ and _x12 é\t\n");
    expect(encodeXstring("\ud800")).toBe("_xD800_");
    expect(encodeXstring("🎈")).toBe("🎈");
  });

  it("keeps every text", () => {
    const tricky = fc.array(
      fc.constantFrom("_", "x", "0", "0", "4", "1", "_x0041", "\r", "\u0001", "A", "\ud83c"),
    );
    const text = fc.oneof(
      fc.string({ unit: "binary" }),
      tricky.map((pieces) => pieces.join("")),
    );
    fc.assert(
      fc.property(text, (value) => {
        const stored = encodeXstring(value);
        expect(decodeXstring(stored)).toBe(value);
        expect(new TextDecoder().decode(new TextEncoder().encode(stored))).toBe(
          stored.replace(/^\ufeff/, ""),
        );
      }),
      { numRuns: 500 },
    );
  });
});
