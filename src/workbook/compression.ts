import { deflateSync, Inflate } from "fflate";

/** How the parts of a file are packed and unpacked (RFC 1951). */
export interface Compression {
  /** Packs; from level 1, quick, to 9, small. */
  deflate(content: Uint8Array, level: 4 | 6): Uint8Array;
  /** Unpacks. Throws for a damaged stream, and for one that gives more than `size` bytes without holding them. */
  inflate(compressed: Uint8Array, size: number): Uint8Array;
}

// One step can expand to some 17 MB before it is seen.
const INFLATE_STEP = 1 << 14;

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
