import { deflateSync } from "node:zlib";

const DISCS = [
  { x: 0.34, y: 0.36, r: 0.24, color: [214, 92, 76] },
  { x: 0.66, y: 0.34, r: 0.24, color: [236, 178, 74] },
  { x: 0.36, y: 0.68, r: 0.24, color: [62, 132, 142] },
  { x: 0.68, y: 0.66, r: 0.24, color: [92, 84, 140] },
];
const SAMPLES = 4;

function crc32(bytes) {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, "latin1"), data]);
  const frame = Buffer.alloc(body.length + 8);
  frame.writeUInt32BE(data.length, 0);
  body.copy(frame, 4);
  frame.writeUInt32BE(crc32(body), body.length + 4);
  return frame;
}

function pixel(size, column, row) {
  const sum = [0, 0, 0, 0];
  for (let sample = 0; sample < SAMPLES * SAMPLES; sample += 1) {
    const x = (column + ((sample % SAMPLES) + 0.5) / SAMPLES) / size;
    const y = (row + (Math.floor(sample / SAMPLES) + 0.5) / SAMPLES) / size;
    const disc = DISCS.findLast(({ x: cx, y: cy, r }) => Math.hypot(x - cx, y - cy) <= r);
    if (disc === undefined) continue;
    disc.color.forEach((part, index) => (sum[index] += part));
    sum[3] += 1;
  }
  const [red, green, blue, hits] = sum;
  return hits === 0
    ? [0, 0, 0, 0]
    : [red / hits, green / hits, blue / hits, (255 * hits) / SAMPLES ** 2].map(Math.round);
}

/** A square PNG of four overlapping discs: a cluster seen from the front. */
export function icon(size) {
  const rows = Array.from({ length: size }, (_, row) => [
    0,
    ...Array.from({ length: size }, (__, column) => pixel(size, column, row)).flat(),
  ]);
  const header = Buffer.alloc(13);
  header.writeUInt32BE(size, 0);
  header.writeUInt32BE(size, 4);
  header.set([8, 6, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk("IHDR", header),
    chunk("IDAT", deflateSync(Buffer.from(rows.flat()), { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}
