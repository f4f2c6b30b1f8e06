import fc from "fast-check";
import { deflateRawSync } from "node:zlib";
import { afterEach, describe, expect, it } from "vitest";
import { NATIVE } from "../../src/recalc/native-compression";
import { compressBy, compression, PORTABLE } from "../../src/workbook/compression";
import { openWorkbook } from "../../src/workbook/read";
import { tinyWorkbook } from "../workbook/tiny-package";

afterEach(() => {
  compressBy(PORTABLE);
});

const WAYS = { PORTABLE, NATIVE };

/** The content where all of it came, else undefined. */
function unpacked(way: keyof typeof WAYS, packed: Uint8Array, size: number): Uint8Array | undefined {
  try {
    const content = WAYS[way].inflate(packed, size);
    return content.length === size ? content : undefined;
  } catch {
    return undefined;
  }
}

function isSame(one: Uint8Array | undefined, other: Uint8Array): boolean {
  return one !== undefined && Buffer.compare(one, other) === 0;
}

const content = fc.oneof(
  fc.uint8Array({ maxLength: 300 }),
  fc
    .tuple(fc.uint8Array({ minLength: 1, maxLength: 40 }), fc.integer({ min: 1, max: 4000 }))
    .map(([piece, times]) =>
      new Uint8Array(piece.length * times).map((_, at) => piece[at % piece.length] ?? 0),
    ),
);

describe("Node's zlib", () => {
  it("unpacks what the portable way packed, and the other way round", () => {
    fc.assert(
      fc.property(content, fc.constantFrom(4 as const, 6 as const), (bytes, level) => {
        for (const way of ["PORTABLE", "NATIVE"] as const) {
          const packed = WAYS[way].deflate(bytes, level);
          expect(NATIVE.crc32(bytes)).toBe(PORTABLE.crc32(bytes));
          expect(isSame(unpacked("NATIVE", packed, bytes.length), bytes)).toBe(true);
          expect(isSame(unpacked("PORTABLE", packed, bytes.length), bytes)).toBe(true);
        }
      }),
      { numRuns: 200 },
    );
  });

  it("takes no damaged stream for whole, and gives no other content for one than the portable way", () => {
    fc.assert(
      fc.property(
        content,
        fc.nat(),
        fc.nat(255),
        fc.integer({ min: -2, max: 2 }),
        (bytes, place, byte, more) => {
          const packed = PORTABLE.deflate(bytes, 6).slice();
          packed[place % packed.length] = byte;
          const size = Math.max(0, bytes.length + more);
          const native = unpacked("NATIVE", packed, size);
          if (native !== undefined) expect(isSame(unpacked("PORTABLE", packed, size), native)).toBe(true);
          expect(
            unpacked("NATIVE", PORTABLE.deflate(bytes, 6).subarray(0, -1), bytes.length),
          ).toBeUndefined();
          if (more < 0 && bytes.length > 2)
            expect(unpacked("NATIVE", PORTABLE.deflate(bytes, 6), bytes.length + more)).toBeUndefined();
        },
      ),
      { numRuns: 400 },
    );
  });

  it("stops a stream that gives more than is listed before it holds it", () => {
    const bomb = new Uint8Array(deflateRawSync(new Uint8Array(64 * 2 ** 20)));
    const before = process.memoryUsage().arrayBuffers;
    expect(unpacked("NATIVE", bomb, 1000)).toBeUndefined();
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(4 * 2 ** 20);
  });
});

it("packs and unpacks files by the way that was chosen", () => {
  const file = tinyWorkbook({ rows: '<row r="1"><c r="A1"><v>1</v></c></row>' });
  const change = { sheet: 0, row: 0, column: 0, value: 2 };
  const portable = openWorkbook(file).patched([change]);
  const calls = { deflate: 0, inflate: 0 };
  compressBy({
    deflate: (...args) => (calls.deflate++, NATIVE.deflate(...args)),
    inflate: (...args) => (calls.inflate++, NATIVE.inflate(...args)),
    crc32: NATIVE.crc32,
  });
  const native = openWorkbook(file).patched([change]);
  expect(calls.deflate).toBeGreaterThan(0);
  expect(calls.inflate).toBeGreaterThan(calls.deflate);
  compressBy(PORTABLE);
  expect(compression()).toBe(PORTABLE);
  const [one, two] = [portable, native].map((bytes) => openWorkbook(bytes).model);
  expect(two).toEqual(one);
});
