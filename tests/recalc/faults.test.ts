import { createHash } from "node:crypto";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { constants, deflateRawSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { tinyParts, tinyWorkbook, zipParts, type TinyWorkbook } from "../workbook/tiny-package";
import { recalc, type RecalcRun } from "./recalc-process";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "faults-"));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

let files = 0;

/** Runs the command on these bytes; the file must stay as it was, and nothing half-written may be left beside it. */
async function recalcBytes(bytes: Uint8Array): Promise<RecalcRun & { readonly isWritten: boolean }> {
  files += 1;
  const name = `in ${files}.xlsx`;
  const output = `out ${files}.xlsx`;
  writeFileSync(join(folder, name), bytes);
  const run = await recalc([join(folder, name), join(folder, output)]);
  expect(Buffer.compare(readFileSync(join(folder, name)), bytes)).toBe(0);
  const beside = readdirSync(folder);
  const digest = createHash("sha256").update(output).digest("hex").slice(0, 8);
  expect(beside.filter((file) => file.endsWith(`-${digest}.part`))).toEqual([]);
  return { ...run, isWritten: beside.includes(output) };
}

// An empty run of the command holds some 100 MB; the limits on parts allow 100 MB for one of them on top.
const MOST_MEGABYTES = 700;
const PLENTY_SECONDS = 60;

async function refusal(bytes: Uint8Array): Promise<string> {
  const run = await recalcBytes(bytes);
  expect(run.code).toBe(2);
  expect(run.stdout).toBe("");
  expect(run.isWritten).toBe(false);
  expect(run.peakMegabytes).toBeLessThan(MOST_MEGABYTES);
  expect(run.stderr).toMatch(/^[a-z][^\n]*[^.\n]\n$/);
  expect(run.stderr).not.toMatch(/could not recalculate|undefined|\bat .*:\d+|Error/);
  return run.stderr;
}

const CELL = '<row r="1"><c r="A1"><f>1+1</f><v>0</v></c></row>';
const SOUND: TinyWorkbook = { rows: CELL, strings: "<si><t>text</t></si>" };
const withSheet = (markup: string): TinyWorkbook => ({ parts: { "xl/worksheets/sheet1.xml": markup } });
const MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';

/** Offsets at which each part, and the list of parts, begins. */
function recordStarts(bytes: Uint8Array): readonly number[] {
  const starts: number[] = [];
  for (let at = 0; at + 4 <= bytes.length; at += 1) {
    const isRecord = bytes[at] === 0x50 && bytes[at + 1] === 0x4b && (bytes[at + 2] ?? 0) < 8;
    if (isRecord && (bytes[at + 2] ?? 0) + 1 === bytes[at + 3]) starts.push(at);
  }
  return starts;
}

/** Sets a number in the listing of the largest part: its compressed size, its size, or where it begins. */
function listedAs(bytes: Uint8Array, field: "size" | "packed" | "header", value: number): Uint8Array {
  const changed = bytes.slice();
  const view = new DataView(changed.buffer);
  const listed = recordStarts(changed).filter((at) => view.getUint32(at, true) === 0x02014b50);
  const largest = listed.reduce((a, b) =>
    view.getUint32(a + 24, true) >= view.getUint32(b + 24, true) ? a : b,
  );
  view.setUint32(largest + { packed: 20, size: 24, header: 42 }[field], value, true);
  return changed;
}

/** A part of 1 GB of zeros, deflated to a megabyte, inside an otherwise sound workbook that states `size` for it. */
function gigabyteOfZeros(size: number): Uint8Array {
  const megabyte = deflateRawSync(new Uint8Array(2 ** 20), { finishFlush: constants.Z_FULL_FLUSH });
  const end = deflateRawSync(new Uint8Array(0));
  const packed = Buffer.concat([...new Array<Buffer>(1024).fill(megabyte), end]);
  const name = "xl/worksheets/sheet1.xml";
  const rest = zipParts({ ...tinyParts(SOUND), [name]: "" });
  const view = new DataView(rest.buffer, rest.byteOffset);
  const starts = recordStarts(rest);
  const local = starts.find((at) => view.getUint32(at, true) === 0x04034b50 && nameAt(rest, at + 30, name));
  const central = starts.find((at) => view.getUint32(at, true) === 0x02014b50 && nameAt(rest, at + 46, name));
  const end32 = starts.at(-1);
  if (local === undefined || central === undefined || end32 === undefined) throw new Error("no such part");
  const cut = local + 30 + name.length;
  const bytes = Buffer.concat([rest.subarray(0, cut), packed, rest.subarray(cut)]);
  const grown = packed.length;
  for (const at of starts) {
    const moved = at >= cut ? at + grown : at;
    if (bytes.readUInt32LE(moved) !== 0x02014b50) continue;
    const header = bytes.readUInt32LE(moved + 42);
    if (header > local) bytes.writeUInt32LE(header + grown, moved + 42);
  }
  for (const [at, method, first] of [
    [local, 8, 18],
    [central + grown, 10, 20],
  ] as const) {
    bytes.writeUInt16LE(8, at + method);
    bytes.writeUInt32LE(grown, at + first);
    bytes.writeUInt32LE(size, at + first + 4);
  }
  bytes.writeUInt32LE(bytes.readUInt32LE(end32 + grown + 16) + grown, end32 + grown + 16);
  return new Uint8Array(bytes);
}

function nameAt(bytes: Uint8Array, at: number, name: string): boolean {
  return Buffer.from(bytes.subarray(at, at + name.length)).toString() === name;
}

describe("a workbook cut short", { timeout: PLENTY_SECONDS * 1000 }, () => {
  const whole = tinyWorkbook(SOUND);
  const starts = recordStarts(whole);
  it.concurrent.each([
    ...starts.map(
      (start, index) => ["in the middle of", (start + (starts[index + 1] ?? whole.length)) >> 1] as const,
    ),
    ["at", whole.length - 1] as const,
  ])("is refused %s byte %i", async (_where, length) => {
    expect(await refusal(whole.slice(0, length))).toMatch(/damaged|cut short|not an \.xlsx/);
  });
});

describe("a hostile workbook", { timeout: PLENTY_SECONDS * 1000 }, () => {
  const bomb = "&b;".repeat(10);
  it.concurrent.each<[string, Uint8Array, RegExp]>([
    ["that lists a part larger than it is", listedAs(tinyWorkbook(SOUND), "size", 60_000), /damaged/],
    ["that lists a part smaller than it is", listedAs(tinyWorkbook(SOUND), "size", 10), /damaged/],
    [
      "that lists more packed bytes than it has",
      listedAs(tinyWorkbook(SOUND), "packed", 1e6),
      /damaged|cut short/,
    ],
    ["that lists a part outside the file", listedAs(tinyWorkbook(SOUND), "header", 4e9), /damaged|cut short/],
    ["with 1 GB of zeros, as listed", gigabyteOfZeros(2 ** 30), /too large|size is not the one/],
    ["with 1 GB of zeros, listed as 1 KB", gigabyteOfZeros(1024), /damaged/],
    ["with 1 GB of zeros, listed as 90 MB", gigabyteOfZeros(90 * 2 ** 20), /damaged/],
    [
      "with entities that multiply",
      tinyWorkbook(
        withSheet(
          `<!DOCTYPE w [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "${"&a;".repeat(10)}">]><worksheet ${MAIN}><sheetData><row r="1"><c r="A1" t="str"><v>${bomb}</v></c></row></sheetData></worksheet>`,
        ),
      ),
      /declares a document type/,
    ],
    [
      "with an entity that reads another file",
      tinyWorkbook({
        ...SOUND,
        parts: {
          "xl/sharedStrings.xml": `<!DOCTYPE s [<!ENTITY x SYSTEM "file:///etc/hostname">]><sst ${MAIN}><si><t>&x;</t></si></sst>`,
        },
      }),
      /declares a document type/,
    ],
    ["with a million elements one in another", tinyWorkbook({ rows: "<row>".repeat(1e6) }), /nests deeper/],
    [
      "with markup that does not end",
      tinyWorkbook({ rows: '<row r="1"><c r="A1' }),
      /damaged|not well-formed|XML/,
    ],
    ["with a part that climbs out", tinyWorkbook({ parts: { "../evil.xml": "x" } }), /unsafe name/],
    ["with a part from the root", tinyWorkbook({ parts: { "/etc/evil.xml": "x" } }), /unsafe name/],
    ["with a part on a drive", tinyWorkbook({ parts: { "C:\\evil.xml": "x" } }), /unsafe name/],
    ["with one part twice", tinyWorkbook({ parts: { "XL/Workbook.xml": "x" } }), /twice/],
    [
      "whose workbook part says it is something else",
      tinyWorkbook({
        parts: {
          "[Content_Types].xml": String(tinyParts()["[Content_Types].xml"]).replace(
            "sheet.main+xml",
            "externalLink+xml",
          ),
        },
      }),
      /main part is/,
    ],
    ["without content types", tinyWorkbook({ parts: { "[Content_Types].xml": null } }), /not an \.xlsx/],
    ["with a row beyond the sheet", tinyWorkbook({ rows: '<row r="99999999999"/>' }), /outside the sheet/],
    [
      "with a cell beyond the sheet",
      tinyWorkbook({ rows: '<row r="1"><c r="ZZZZ1"/></row>' }),
      /belongs elsewhere/,
    ],
    ["that is empty", new Uint8Array(), /empty/],
    ["that is text", new TextEncoder().encode("colour;price\nnavy;9,90\n"), /plain text/],
  ])("%s is refused", async (_name, bytes, sentence) => {
    expect(await refusal(bytes)).toMatch(sentence);
  });

  it("is refused where it is not there", async () => {
    const missing = join(folder, "missing.xlsx");
    const run = await recalc([missing, join(folder, "never.xlsx")]);
    expect([run.code, run.stderr]).toEqual([2, `there is no file ${missing}\n`]);
  });
});

describe("a formula that would take all time or memory", { timeout: PLENTY_SECONDS * 1000 }, () => {
  const formula = (text: string, attributes = ""): string => `<f${attributes}>${text}</f><v>7</v>`;
  const inRow = (cells: string): string => `<row r="1"><c r="A1">${cells}</c></row>`;
  const corner = '<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>';
  const names = (last: number): string =>
    Array.from({ length: last + 1 }, (_, index) => {
      const text = index === 0 ? "1" : `n${index - 1}+n${index - 1}`;
      return `<definedName name="n${index}">${text}</definedName>`;
    }).join("");
  it.concurrent.each<[string, TinyWorkbook]>([
    ["of 4,000 brackets", { rows: inRow(formula(`${"(".repeat(4000)}1${")".repeat(4000)}`)) }],
    ["of 100,000 brackets", { rows: inRow(formula(`${"(".repeat(1e5)}1${")".repeat(1e5)}`)) }],
    ["of 8,000 signs", { rows: inRow(formula(`${"-".repeat(8000)}1`)) }],
    ["that fills the sheet", { rows: inRow(formula("1", ' t="array" ref="A1:XFD1048576"')) }],
    ["that makes a sheet", { rows: inRow(formula("SUM(_xlfn.SEQUENCE(1048576,16384))")) }],
    ["that makes a long text", { rows: inRow(formula('LEN(REPT("x",2000000000))')) }],
    ["shared by the sheet", { rows: inRow(formula("B1", ' t="shared" ref="A1:XFD1048576" si="0"')) }],
    ["that is called by itself", { rows: inRow(formula("A1+1")) }],
    [
      "with names that double 30 times",
      { rows: inRow(formula("n30")), workbookBehind: `<definedNames>${names(30)}</definedNames>` },
    ],
    [
      "with a name inside itself",
      {
        rows: inRow(formula("first")),
        workbookBehind: '<definedNames><definedName name="first">first+1</definedName></definedNames>',
      },
    ],
    [
      "repeated 300 times over all cells",
      {
        rows:
          Array.from({ length: 300 }, (_, index) => {
            const row = index + 1;
            return `<row r="${row}"><c r="A${row}">${formula(`SUM(B:XFD)+${row}`)}</c></row>`;
          }).join("") + corner,
      },
    ],
    ["that reads all cells by a text", { rows: inRow(formula('SUM(INDIRECT("B1:XFD1048576"))')) + corner }],
    [
      "that calls itself without end",
      {
        rows: inRow(formula("_xlfn.LET(_xlpm.f,_xlfn.LAMBDA(_xlpm.g,_xlpm.g(_xlpm.g)),_xlpm.f(_xlpm.f))")),
      },
    ],
  ])("%s ends, and the rest of the file is written", async (_name, tiny) => {
    const run = await recalcBytes(tinyWorkbook(tiny));
    expect([0, 1]).toContain(run.code);
    expect(run.isWritten).toBe(true);
    expect(run.peakMegabytes).toBeLessThan(MOST_MEGABYTES);
  });
});
