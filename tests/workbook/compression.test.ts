import { deflateRawSync, inflateRawSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { PORTABLE } from "../../src/workbook/compression";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const many = Uint8Array.from({ length: 50_000 }, (_, at) => (at * at * 31) % 251);

/** The checksum bit by bit, as ISO 3309 (ITU-T V.42) defines it. */
function checksum(content: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of content) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = ((crc >>> 1) ^ ((crc & 1) === 0 ? 0 : 0xedb88320)) >>> 0;
    crc >>>= 0;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

describe("the checksum of a part", () => {
  // The check value of CRC-32/ISO-HDLC, of the text 123456789.
  it("is that of the standard", () => {
    expect(PORTABLE.crc32(bytes("123456789"))).toBe(0xcbf43926);
    expect(PORTABLE.crc32(bytes(""))).toBe(0);
  });

  it("is that of the definition at every length and place", () => {
    for (let from = 0; from < 9; from++)
      for (let length = 0; length < 40; length++) {
        const part = many.subarray(from, from + length);
        expect(PORTABLE.crc32(part)).toBe(checksum(part));
      }
    expect(PORTABLE.crc32(many)).toBe(checksum(many));
  });
});

// RFC 1951, with zlib as the other side.
describe("packing", () => {
  it.each([4, 6] as const)("can be undone by others at level %i", (level) => {
    expect(new Uint8Array(inflateRawSync(PORTABLE.deflate(many, level)))).toEqual(many);
  });

  it("undoes what others packed, whatever the length", () => {
    for (const length of [0, 1, 100, 16_383, 16_384, 16_385, 50_000]) {
      const part = many.subarray(0, length);
      expect(PORTABLE.inflate(new Uint8Array(deflateRawSync(part)), length)).toEqual(part);
      // Without packing, more than one step of bytes comes in.
      expect(PORTABLE.inflate(new Uint8Array(deflateRawSync(part, { level: 0 })), length)).toEqual(part);
    }
  });

  it("is refused where it gives more than is listed, and short where it gives less", () => {
    const packed = new Uint8Array(deflateRawSync(many));
    expect(() => PORTABLE.inflate(packed, many.length - 1)).toThrow(RangeError);
    expect(PORTABLE.inflate(packed, many.length + 5)).toEqual(many);
  });

  it("is refused where it is damaged or cut", () => {
    const packed = new Uint8Array(deflateRawSync(many));
    expect(() => PORTABLE.inflate(packed.subarray(0, packed.length - 10), many.length)).toThrow();
    expect(() => PORTABLE.inflate(Uint8Array.of(0xff, 0xff), 10)).toThrow();
  });
});
