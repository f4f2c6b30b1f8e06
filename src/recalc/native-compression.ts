import zlib, { deflateRawSync, inflateRawSync } from "node:zlib";
import { type Compression, compressBy, PORTABLE } from "../workbook/compression";

/** Bytes that zlib hands over at a time. */
const CHUNK = 2 ** 18;

function plain({ buffer, byteOffset, length }: Buffer): Uint8Array {
  return new Uint8Array(buffer, byteOffset, length);
}

/** Node's own zlib: compiled code, a few times as fast. */
export const NATIVE: Compression = {
  deflate: (content, level) => plain(deflateRawSync(content, { level, chunkSize: CHUNK })),
  inflate(compressed, size) {
    // zlib takes neither a limit of 0 nor chunks of less than 64 bytes.
    const limits = { maxOutputLength: Math.max(1, size), chunkSize: Math.max(64, size + 1) };
    return plain(inflateRawSync(compressed, limits));
  },
  // Node has it from 20.15 on only.
  crc32: "crc32" in zlib ? (content) => zlib.crc32(content) : PORTABLE.crc32,
};

/** Lets all files of this process be packed and unpacked by Node. */
export function compressNatively(): void {
  compressBy(NATIVE);
}
