import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { decodeText } from "../../src/workbook/text-encoding";

const PRICE = "Größe;Preis €\r\nnavy;9,90 €\r\n";

describe("decodeText", () => {
  it.each<[string, Uint8Array, string]>([
    ["UTF-8", Buffer.from(PRICE, "utf8"), "UTF-8"],
    ["UTF-8 with its mark", Buffer.from(`\ufeff${PRICE}`, "utf8"), "UTF-8"],
    ["UTF-16", Buffer.from(PRICE, "utf16le"), "UTF-16"],
    ["UTF-16 with its mark", Buffer.from(`\ufeff${PRICE}`, "utf16le"), "UTF-16"],
    ["UTF-16 of the other order", Buffer.from(`\ufeff${PRICE}`, "utf16le").swap16(), "UTF-16"],
    // unicode.org, CP1252.TXT: the euro sign is 0x80, and from 0xA0 on the code is Latin 1.
    ["windows-1252", Buffer.from(PRICE.replaceAll("€", "\x80"), "latin1"), "windows-1252"],
  ])("reads %s", (_name, bytes, encoding) => {
    expect(decodeText(new Uint8Array(bytes))).toEqual({ text: PRICE, encoding });
  });

  // A few more lines of CP1252.TXT.
  it.each([
    [0x85, 0x2026],
    [0x8a, 0x0160],
    [0x91, 0x2018],
    [0x96, 0x2013],
    [0x99, 0x2122],
    [0x9f, 0x0178],
    [0xe9, 0x00e9],
  ])("reads the byte %i of windows-1252 as the character %i", (byte, character) => {
    // Two bytes that cannot be UTF-8.
    expect(decodeText(new Uint8Array([0xff, 0x41, byte])).text).toBe(`ÿA${String.fromCharCode(character)}`);
  });

  it("believes a mark where no byte is empty, and empty bytes where there is no mark", () => {
    const signs = "\ufeff紙吹雪";
    const wide = { text: signs.slice(1), encoding: "UTF-16" };
    expect(decodeText(new Uint8Array(Buffer.from(signs, "utf16le")))).toEqual(wide);
    expect(decodeText(new Uint8Array(Buffer.from(signs, "utf16le").swap16()))).toEqual(wide);
    // One half of a mark is none.
    expect(decodeText(new Uint8Array([0xff, 0x41])).encoding).toBe("windows-1252");
    expect(decodeText(new Uint8Array([0x41, 0xfe])).encoding).toBe("windows-1252");
    const mostly = `${"a".repeat(8)}雪雪`;
    expect(decodeText(new Uint8Array(Buffer.from(mostly, "utf16le"))).text).toBe(mostly);
    expect(decodeText(new Uint8Array(Buffer.from(mostly, "utf16le").swap16())).text).toBe(mostly);
    expect(decodeText(new Uint8Array())).toEqual({ text: "", encoding: "UTF-8" });
    // Few empty bytes do not make a text wide.
    expect(decodeText(new Uint8Array(Buffer.from("ab\0cd\0ef", "utf8"))).encoding).toBe("UTF-8");
  });

  it("reads a long text of one byte a character", () => {
    const long = "é".repeat(2 ** 15 + 3);
    expect(decodeText(new Uint8Array(Buffer.from(long, "latin1")))).toEqual({
      text: long,
      encoding: "windows-1252",
    });
  });

  it("reads any bytes as some text", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        expect(typeof decodeText(bytes).text).toBe("string");
      }),
    );
  });
});
