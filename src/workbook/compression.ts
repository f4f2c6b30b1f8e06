import { deflateSync, Inflate } from "fflate";

/** How the parts of a file are packed and unpacked (RFC 1951). */
export interface Compression {
  /** Packs; from level 1, quick, to 9, small. */
  deflate(content: Uint8Array, level: 4 | 6): Uint8Array;
  /** Unpacks. Throws for a damaged stream, and for one that gives more than `size` bytes without holding them. */
  inflate(compressed: Uint8Array, size: number): Uint8Array;
  /** The checksum of a part. */
  crc32(content: Uint8Array): number;
}

// One step can expand to some 17 MB before it is seen.
const INFLATE_STEP = 1 << 14;

/** Tables for four bytes at a time: the second to fourth carry a byte over one, two and three more bytes. */
const CRC_TABLES = crcTables();

function crcTables(): Int32Array {
  const tables = new Int32Array(4 * 256);
  for (let start = 0; start < 256; start++) {
    let crc = start;
    for (let bit = 0; bit < 8; bit++) crc = (crc & 1) === 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
    tables[start] = crc;
  }
  for (let at = 256; at < tables.length; at++) {
    const before = tables[at - 256] ?? 0;
    tables[at] = (before >>> 8) ^ (tables[before & 0xff] ?? 0);
  }
  return tables;
}

function crc32(bytes: Uint8Array): number {
  const tables = CRC_TABLES;
  const { length } = bytes;
  const whole = length - (length % 4);
  let crc = -1;
  let at = 0;
  // Every index is within its array.
  for (; at < whole; at += 4) {
    crc ^=
      (bytes[at] as number) |
      ((bytes[at + 1] as number) << 8) |
      ((bytes[at + 2] as number) << 16) |
      ((bytes[at + 3] as number) << 24);
    crc =
      (tables[768 + (crc & 0xff)] as number) ^
      (tables[512 + ((crc >>> 8) & 0xff)] as number) ^
      (tables[256 + ((crc >>> 16) & 0xff)] as number) ^
      (tables[crc >>> 24] as number);
  }
  for (; at < length; at++) crc = (crc >>> 8) ^ (tables[(crc ^ (bytes[at] as number)) & 0xff] as number);
  return (crc ^ -1) >>> 0;
}

/** Runs wherever JavaScript does. */
export const PORTABLE: Compression = {
  deflate: (content, level) => deflateSync(content, { level }),
  inflate(compressed, size) {
    const content = new Uint8Array(size);
    let length = 0;
    const stream = new Inflate((chunk) => {
      if (length + chunk.length > size) throw new RangeError("more than is listed");
      content.set(chunk, length);
      length += chunk.length;
    });
    for (let at = 0; at < compressed.length; at += INFLATE_STEP) {
      const stop = at + INFLATE_STEP;
      stream.push(compressed.subarray(at, stop), stop >= compressed.length);
    }
    return content.subarray(0, length);
  },
  crc32,
};

let chosen = PORTABLE;

/** Packs and unpacks by another way from now on, such as one that the host brings. */
export function compressBy(compression: Compression): void {
  chosen = compression;
}

/** The way that files are packed and unpacked. */
export function compression(): Compression {
  return chosen;
}
