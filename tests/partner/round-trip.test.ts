import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { partnerCopy, putFormulasBack } from "../../src/partner/file-copy";
import { openWorkbook } from "../../src/workbook/read";
import { hasOffice, PROGRAMS, savedByPrograms } from "../other-programs";
import { roundTripWorkbooks } from "../round-trip-workbooks";

/**
 * Partner copies that other programs saved once: `<workbook>.copy.xlsx` is ours, `<workbook>.<program>.xlsx` what the program
 * made of it. LibreOffice 7.4.7 wrote .xlsx, and .xlsx again from an .ods; openpyxl 3.0.9 loaded and saved. Made anew by
 * `KEEP_SAVED=1 npm test -- tests/partner/round-trip.test.ts` where both are installed.
 */
const SAVED = "tests/partner/saved";
const SAMPLES = "sample-workbooks";
const TAKEN = "2026-06-20T12:00:00.000Z";

/** Every formula with its place, its kind and what it fills. */
function formulasOf(bytes: Uint8Array): readonly string[] {
  return openWorkbook(bytes).model.sheets.flatMap((sheet) =>
    sheet.cells.flatMap(({ row, column, formula }) =>
      formula === undefined ? [] : [JSON.stringify([sheet.name, row, column, formula])],
    ),
  );
}

const ours = (formulas: readonly string[]): readonly string[] =>
  formulas.filter((formula) => formula.includes("BLN"));

/** All formulas are back in a copy that a program saved, as they are in the one we made, and nothing else of ours is left. */
function expectSame(copy: Uint8Array, saved: Uint8Array, name: string): void {
  const [own, back] = [putFormulasBack(copy), putFormulasBack(saved)];
  expect(back.left, name).toEqual([]);
  expect(back.formulas, name).toBe(own.formulas);
  expect(own.formulas, name).toBeGreaterThan(0);
  expect(ours(formulasOf(back.bytes)), name).toEqual(ours(formulasOf(own.bytes)));
  // Excel's own functions and parts of tables beside ours: LibreOffice 7.4 writes _xlfn.xlookup and Prices[#all].
  expect(formulasOf(back.bytes).filter((formula) => /_xl(?:fn|ws)\.[a-z]|\[#[a-z]/.test(formula))).toEqual(
    [],
  );
  const { parts, model } = openWorkbook(back.bytes);
  expect(
    model.sheets.map((sheet) => sheet.name),
    name,
  ).not.toContain("Kept formulas");
  expect(
    parts.names.filter((part) => part.startsWith("customXml/")),
    name,
  ).toEqual([]);
}

const read = (path: string): Uint8Array => new Uint8Array(readFileSync(path));

describe("partner copies that another program saved", () => {
  const copies = readdirSync(SAVED).filter((file) => file.endsWith(".copy.xlsx"));

  it("are of every sample and twelve workbooks, by each program", () => {
    expect(copies).toHaveLength(15);
    expect(readdirSync(SAVED)).toHaveLength(15 * (1 + PROGRAMS.length));
  });

  it.each(copies)("%s has all formulas again", { timeout: 60_000 }, (file) => {
    for (const program of PROGRAMS) {
      const saved = file.replace(".copy.", `.${program}.`);
      expectSame(read(join(SAVED, file)), read(join(SAVED, saved)), saved);
    }
  });
});

describe.skipIf(!hasOffice)("an office program on this machine", () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "round-trip-"));
  });
  afterAll(() => {
    rmSync(folder, { recursive: true });
  });

  it("hands every formula on, as .xlsx and by way of .ods", { timeout: 300_000 }, async () => {
    const workbooks = new Map(await roundTripWorkbooks());
    for (const file of readdirSync(SAMPLES))
      workbooks.set(basename(file, ".xlsx"), read(join(SAMPLES, file)));
    const copies = [...workbooks].map(([name, bytes]) => {
      const path = join(folder, `${name}.copy.xlsx`);
      writeFileSync(path, partnerCopy(bytes, TAKEN).bytes);
      return path;
    });
    for (const [program, files] of savedByPrograms(copies, folder)) {
      expect(files).toHaveLength(copies.length);
      for (const file of files) {
        const copy = join(folder, basename(file));
        expectSame(read(copy), read(file), `${program} ${basename(file)}`);
        if (process.env["KEEP_SAVED"] === "1") {
          cpSync(file, join(SAVED, basename(file).replace(".copy.", `.${program}.`)));
          cpSync(copy, join(SAVED, basename(file)));
        }
      }
    }
  });
});
