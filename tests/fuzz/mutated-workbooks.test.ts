import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { expect, it } from "vitest";
import { WorkbookError } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import { seeded } from "./hostile-arguments";

// One mutated workbook for every 666 calls of the other fuzz tests: 1,500 in a run of a million.
const FILES = Math.max(60, Math.round(Number(process.env["FUZZ_CALLS"] ?? 30_000) / 666));
const SEED = Number(process.env["FUZZ_SEED"] ?? 20261125);
const FOLDER = "sample-workbooks";

type Random = () => number;
const below = (random: Random, end: number): number => Math.floor(random() * end);

/** A few bytes of the container itself replaced, or its end cut off. */
function spoiltContainer(bytes: Uint8Array, random: Random): Uint8Array {
  if (random() < 0.2) return bytes.slice(0, below(random, bytes.length));
  const changed = bytes.slice();
  for (let times = 1 + below(random, 8); times > 0; times -= 1) {
    changed[below(random, changed.length)] = below(random, 256);
  }
  return changed;
}

const WORDS = [
  "",
  "0",
  "-1",
  "1048577",
  "99999999999",
  "1e999",
  "XFD1048577",
  "A1:A1048576",
  "&lt;",
  "&#0;",
  "]]>",
  "shared",
  "array",
  "<c/>",
  "\u0000",
];

/** A piece of one part's markup replaced, doubled, moved or lost, and the container packed anew. */
function spoiltMarkup(bytes: Uint8Array, random: Random): Uint8Array {
  const parts = unzipSync(bytes);
  const names = Object.keys(parts).filter((name) => /\.(?:xml|rels)$/.test(name));
  const name = names[below(random, names.length)] ?? "";
  let text = strFromU8(parts[name] ?? new Uint8Array());
  for (let times = 1 + below(random, 3); times > 0; times -= 1) {
    const pieces = [...text.matchAll(/"[^"]*"|<[^>]*>|>[^<]+</g)];
    const piece = pieces[below(random, pieces.length)];
    if (piece === undefined) break;
    const [found] = piece;
    const before = text.slice(0, piece.index);
    const after = text.slice(piece.index + found.length);
    const word = WORDS[below(random, WORDS.length)] ?? "";
    const other = pieces[below(random, pieces.length)]?.[0] ?? "";
    const inside = found.charAt(0) + word + found.slice(-1);
    text = before + ([inside, "", found + found, other, word][below(random, 5)] ?? "") + after;
  }
  return zipSync({ ...parts, [name]: strToU8(text) }, { level: 1 });
}

it(
  `opens and changes ${FILES} spoilt workbooks or says why not (seed ${SEED})`,
  { timeout: 3_600_000 },
  () => {
    const random = seeded(SEED);
    const samples = readdirSync(FOLDER).map((file) => new Uint8Array(readFileSync(join(FOLDER, file))));
    const outcomes = { refused: 0, written: 0 };
    const faults: string[] = [];
    let slowest = 0;
    for (let turn = 0; turn < FILES; turn += 1) {
      const sample = samples[turn % samples.length] ?? new Uint8Array();
      const bytes = (random() < 0.3 ? spoiltContainer : spoiltMarkup)(sample, random);
      const kept = bytes.slice();
      const start = performance.now();
      try {
        const { model, patched } = openWorkbook(bytes);
        const changes = model.sheets.flatMap(({ cells }, sheet) =>
          cells.slice(0, 50).map(({ row, column }) => ({ sheet, row, column, value: random() })),
        );
        // What is written was proved: it opens, and only these cells differ.
        openWorkbook(patched(changes));
        outcomes.written += 1;
      } catch (error) {
        outcomes.refused += 1;
        const sentence = error instanceof WorkbookError ? error.message : "";
        if (!/^[a-z][^\n]*[^.]$/.test(sentence)) faults.push(`turn ${turn}: ${String(error)}`);
        if (sentence.startsWith("nothing was written")) faults.push(`turn ${turn}: ${sentence}`);
      }
      slowest = Math.max(slowest, performance.now() - start);
      if (Buffer.compare(kept, bytes) !== 0) faults.push(`turn ${turn}: its bytes changed`);
    }
    const megabytes = Math.round(process.resourceUsage().maxRSS / 1024);
    console.log(
      `fuzz: ${FILES} spoilt workbooks: ${JSON.stringify(outcomes)}, slowest ${slowest.toFixed(0)} ms, ${megabytes} MB, seed ${SEED}`,
    );
    expect(faults).toEqual([]);
    expect(outcomes.refused).toBeGreaterThan(FILES / 10);
    expect(outcomes.written).toBeGreaterThan(FILES / 10);
  },
);
