import { compression } from "./compression";
import { WorkbookError } from "./model";

/** One file of the container, still compressed. */
export interface ZipEntry {
  readonly name: string;
  readonly rawName: Uint8Array;
  readonly isDeflated: boolean;
  readonly crc: number;
  readonly size: number;
  readonly compressed: Uint8Array;
}

/** What an opened file may contain at most, so that a small hostile file cannot fill the memory. */
export interface PackageLimits {
  readonly parts: number;
  readonly partBytes: number;
  readonly totalBytes: number;
}

export const PACKAGE_LIMITS: PackageLimits = {
  parts: 10_000,
  partBytes: 100 * 2 ** 20,
  totalBytes: 400 * 2 ** 20,
};

const DAMAGED = "the file is damaged or cut short: its list of parts cannot be read";
const END_SIZE = 22;
const CENTRAL_SIZE = 46;
const LOCAL_SIZE = 30;
const ZIP64_FIELD = 0x0001;
const UTF8_FLAG = 0x0800;
// 1980-01-01 00:00, the earliest date the format knows: the same workbook always gives the same bytes.
const DOS_DATE = 0x0021;
// No deflate stream expands by more than this factor (RFC 1951: 258 bytes from 2 bits).
const MAX_EXPANSION = 1_032;

/** Beyond this many bytes the quicker level 4 is worth its 2 % more bytes: it takes a third less time than level 6. */
const LONG_PART = 2 ** 20;

/** Lists the entries without inflating anything. Throws WorkbookError for a damaged or oversized container. */
export function readZip(bytes: Uint8Array, limits: PackageLimits): ZipEntry[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { count, offset, end } = findCentralDirectory(view);
  if (count > limits.parts) throw new WorkbookError(`the file has more than ${String(limits.parts)} parts`);
  const entries: ZipEntry[] = [];
  const extents: (readonly [number, number])[] = [];
  let at = offset;
  let total = 0;
  for (let i = 0; i < count; i++) {
    if (at + CENTRAL_SIZE > end || view.getUint32(at, true) !== 0x02014b50) throw new WorkbookError(DAMAGED);
    const flags = view.getUint16(at + 8, true);
    const method = view.getUint16(at + 10, true);
    const nameLength = view.getUint16(at + 28, true);
    const extraLength = view.getUint16(at + 30, true);
    const next = at + CENTRAL_SIZE + nameLength + extraLength + view.getUint16(at + 32, true);
    if (next > end) throw new WorkbookError(DAMAGED);
    const rawName = bytes.subarray(at + CENTRAL_SIZE, at + CENTRAL_SIZE + nameLength);
    const name = decodeName(rawName);
    const [size, compressedSize, header] = readSizes(view, at, nameLength, extraLength);
    if ((flags & 1) !== 0)
      throw new WorkbookError("the file is protected with a password: save it without one");
    if (method !== 0 && method !== 8) {
      throw new WorkbookError(`the part ${name} is compressed in a way that .xlsx files do not use`);
    }
    total += size;
    if (size > limits.partBytes || total > limits.totalBytes) {
      throw new WorkbookError("the file is too large to open: its parts unpack to more than the limit");
    }
    if (method === 0 ? size !== compressedSize : size > compressedSize * MAX_EXPANSION) {
      throw new WorkbookError(`the part ${name} is damaged: its size is not the one that is listed`);
    }
    const start = dataStart(view, bytes, header, rawName, offset);
    if (start + compressedSize > offset) throw new WorkbookError(DAMAGED);
    extents.push([header, start + compressedSize]);
    entries.push({
      name,
      rawName,
      isDeflated: method === 8,
      crc: view.getUint32(at + 16, true),
      size,
      compressed: bytes.subarray(start, start + compressedSize),
    });
    at = next;
  }
  extents.sort((a, b) => a[0] - b[0]);
  if (extents.some(([start], i) => start < (extents[i - 1]?.[1] ?? 0))) {
    throw new WorkbookError("the file is damaged: parts lie over each other");
  }
  return entries;
}

/** The content of an entry. Never holds much more than the listed size. */
export function inflateEntry(entry: ZipEntry): Uint8Array {
  const content = entry.isDeflated ? inflate(entry) : entry.compressed;
  if (compression().crc32(content) !== entry.crc)
    throw new WorkbookError(`the part ${entry.name} of the file is damaged`);
  return content;
}

/** A new entry. */
export function deflateEntry(name: string, content: Uint8Array): ZipEntry {
  const deflated = compression().deflate(content, content.length > LONG_PART ? 4 : 6);
  const isDeflated = deflated.length < content.length;
  return {
    name,
    rawName: new TextEncoder().encode(name),
    isDeflated,
    crc: compression().crc32(content),
    size: content.length,
    compressed: isDeflated ? deflated : content,
  };
}

/** The container's bytes; equal entries always give equal bytes. */
export function writeZip(entries: readonly ZipEntry[]): Uint8Array {
  const length = (fixed: number, entry: ZipEntry): number => fixed + entry.rawName.length;
  const localBytes = entries.reduce((sum, e) => sum + length(LOCAL_SIZE, e) + e.compressed.length, 0);
  const centralBytes = entries.reduce((sum, e) => sum + length(CENTRAL_SIZE, e), 0);
  const total = localBytes + centralBytes + END_SIZE;
  if (entries.length >= 0xffff || total >= 0xffffffff)
    throw new WorkbookError("the workbook is too large to save");
  const bytes = new Uint8Array(total);
  const view = new DataView(bytes.buffer);
  let at = 0;
  let central = localBytes;
  for (const entry of entries) {
    // Both headers share the 26 bytes from "version needed" to "extra length".
    const common = (start: number): void => {
      view.setUint16(start, 20, true);
      view.setUint16(start + 2, entry.rawName.some((byte) => byte > 0x7f) ? UTF8_FLAG : 0, true);
      view.setUint16(start + 4, entry.isDeflated ? 8 : 0, true);
      view.setUint16(start + 8, DOS_DATE, true);
      view.setUint32(start + 10, entry.crc, true);
      view.setUint32(start + 14, entry.compressed.length, true);
      view.setUint32(start + 18, entry.size, true);
      view.setUint16(start + 22, entry.rawName.length, true);
    };
    view.setUint32(central, 0x02014b50, true);
    view.setUint16(central + 4, 20, true);
    common(central + 6);
    view.setUint32(central + 42, at, true);
    bytes.set(entry.rawName, central + CENTRAL_SIZE);
    central += length(CENTRAL_SIZE, entry);
    view.setUint32(at, 0x04034b50, true);
    common(at + 4);
    bytes.set(entry.rawName, at + LOCAL_SIZE);
    bytes.set(entry.compressed, at + length(LOCAL_SIZE, entry));
    at += length(LOCAL_SIZE, entry) + entry.compressed.length;
  }
  view.setUint32(central, 0x06054b50, true);
  view.setUint16(central + 8, entries.length, true);
  view.setUint16(central + 10, entries.length, true);
  view.setUint32(central + 12, centralBytes, true);
  view.setUint32(central + 16, localBytes, true);
  return bytes;
}

function findCentralDirectory(view: DataView): { count: number; offset: number; end: number } {
  const lowest = Math.max(0, view.byteLength - END_SIZE - 0xffff);
  for (let at = view.byteLength - END_SIZE; at >= lowest; at--) {
    if (view.getUint32(at, true) !== 0x06054b50) continue;
    let count = view.getUint16(at + 10, true);
    let size = view.getUint32(at + 12, true);
    let offset = view.getUint32(at + 16, true);
    let end = at;
    if (at >= 20 && view.getUint32(at - 20, true) === 0x07064b50) {
      end = readUint64(view, at - 12);
      if (end + 56 > at - 20 || view.getUint32(end, true) !== 0x06064b50) throw new WorkbookError(DAMAGED);
      count = readUint64(view, end + 32);
      size = readUint64(view, end + 40);
      offset = readUint64(view, end + 48);
    }
    if (offset + size > end) throw new WorkbookError(DAMAGED);
    return { count, offset, end: offset + size };
  }
  throw new WorkbookError(DAMAGED);
}

/** Size, compressed size and header offset of a central record, from its ZIP64 field where the short ones are full. */
function readSizes(
  view: DataView,
  at: number,
  nameLength: number,
  extraLength: number,
): [number, number, number] {
  const short = [view.getUint32(at + 24, true), view.getUint32(at + 20, true), view.getUint32(at + 42, true)];
  let field = at + CENTRAL_SIZE + nameLength;
  const end = field + extraLength;
  let position = 0;
  let limit = 0;
  while (field + 4 <= end && limit === 0) {
    const length = view.getUint16(field + 2, true);
    if (view.getUint16(field, true) === ZIP64_FIELD) {
      position = field + 4;
      limit = Math.min(end, position + length);
    }
    field += 4 + length;
  }
  const [size = 0, compressed = 0, header = 0] = short.map((value) => {
    if (value !== 0xffffffff) return value;
    if (position + 8 > limit) throw new WorkbookError(DAMAGED);
    position += 8;
    return readUint64(view, position - 8);
  });
  return [size, compressed, header];
}

function dataStart(view: DataView, bytes: Uint8Array, header: number, name: Uint8Array, end: number): number {
  if (header + LOCAL_SIZE > end || view.getUint32(header, true) !== 0x04034b50)
    throw new WorkbookError(DAMAGED);
  const nameLength = view.getUint16(header + 26, true);
  const localName = bytes.subarray(header + LOCAL_SIZE, header + LOCAL_SIZE + nameLength);
  // A second name in front of the data could show another program another file.
  if (nameLength !== name.length || localName.some((byte, i) => byte !== name[i])) {
    throw new WorkbookError("the file is damaged: a part has two different names");
  }
  return header + LOCAL_SIZE + nameLength + view.getUint16(header + 28, true);
}

function inflate({ name, compressed, size }: ZipEntry): Uint8Array {
  const damaged = (): WorkbookError => new WorkbookError(`the part ${name} of the file is damaged`);
  let content: Uint8Array;
  try {
    content = compression().inflate(compressed, size);
  } catch {
    throw damaged();
  }
  if (content.length !== size) throw damaged();
  return content;
}

function readUint64(view: DataView, at: number): number {
  const value = view.getBigUint64(at, true);
  if (value > BigInt(Number.MAX_SAFE_INTEGER)) throw new WorkbookError(DAMAGED);
  return Number(value);
}

function decodeName(raw: Uint8Array): string {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(raw);
  } catch {
    throw new WorkbookError("the file is damaged: the name of a part cannot be read");
  }
}
