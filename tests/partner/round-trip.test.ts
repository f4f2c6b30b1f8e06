import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { partnerCopy, putFormulasBack } from "../../src/partner/file-copy";
import { openWorkbook } from "../../src/workbook/read";
import { roundTripWorkbooks } from "./round-trip-workbooks";

/**
 * Partner copies that other programs saved once: `<workbook>.copy.xlsx` is ours, `<workbook>.<program>.xlsx` what the program
 * made of it. LibreOffice 7.4.7 wrote .xlsx, and .xlsx again from an .ods; openpyxl 3.0.9 loaded and saved. Made anew by
 * `KEEP_SAVED=1 npm test -- tests/partner/round-trip.test.ts` where both are installed.
 */
const SAVED = "tests/partner/saved";
const SAMPLES = "sample-workbooks";
const PROGRAMS = ["libreoffice", "libreoffice-ods", "openpyxl"] as const;
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

/** All formulas of ours of a copy are back, in the copy as we made it and in the one that a program saved. */
function expectSame(copy: Uint8Array, saved: Uint8Array, name: string): void {
  const back = putFormulasBack(saved);
  expect(back.left, name).toEqual([]);
  expect(ours(formulasOf(back.bytes)), name).toEqual(ours(formulasOf(putFormulasBack(copy).bytes)));
}

const read = (path: string): Uint8Array => new Uint8Array(readFileSync(path));

describe("partner copies that another program saved", () => {
  const copies = readdirSync(SAVED).filter((file) => file.endsWith(".copy.xlsx"));

  it("are of every sample and twelve workbooks, by each program", () => {
    expect(copies).toHaveLength(15);
    expect(readdirSync(SAVED)).toHaveLength(15 * (1 + PROGRAMS.length));
  });

  it.each(copies)("%s has all formulas again", (file) => {
    const copy = read(join(SAVED, file));
    const kept = putFormulasBack(copy);
    expect(kept.formulas).toBeGreaterThan(0);
    for (const program of PROGRAMS) {
      const saved = file.replace(".copy.", `.${program}.`);
      expectSame(copy, read(join(SAVED, saved)), saved);
      expect(putFormulasBack(read(join(SAVED, saved))).formulas, saved).toBe(kept.formulas);
    }
  });

  it("keep nothing of ours once the formulas are back", () => {
    for (const file of readdirSync(SAVED)) {
      const { parts, model } = openWorkbook(putFormulasBack(read(join(SAVED, file))).bytes);
      expect(model.sheets.map(({ name }) => name)).not.toContain("Kept formulas");
      expect(
        parts.names.filter((part) => part.startsWith("customXml/")),
        file,
      ).toEqual([]);
    }
  });
});

const hasOffice = spawnSync("soffice", ["--version"]).status === 0;
const PYTHON = ["python3", "/usr/bin/python3"].find(
  (python) => spawnSync(python, ["-c", "import openpyxl"]).status === 0,
);

describe.skipIf(!hasOffice)("an office program on this machine", () => {
  let folder: string;
  let copies: readonly string[];
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "round-trip-"));
    const workbooks = new Map(await roundTripWorkbooks());
    for (const file of readdirSync(SAMPLES))
      workbooks.set(basename(file, ".xlsx"), read(join(SAMPLES, file)));
    for (const [name, bytes] of workbooks) {
      writeFileSync(join(folder, `${name}.copy.xlsx`), partnerCopy(bytes, TAKEN).bytes);
    }
    copies = readdirSync(folder).map((file) => join(folder, file));
  }, 60_000);
  afterAll(() => {
    rmSync(folder, { recursive: true });
  });

  /** Runs LibreOffice with a profile of its own, so that one in use does not matter. */
  const convert = (to: string, into: string, files: readonly string[]): readonly string[] => {
    const profile = `-env:UserInstallation=file://${join(folder, "profile")}`;
    const { status, stderr } = spawnSync(
      "soffice",
      [profile, "--headless", "--convert-to", to, "--outdir", join(folder, into), ...files],
      { encoding: "utf8" },
    );
    if (status !== 0) throw new Error(stderr);
    return readdirSync(join(folder, into)).map((file) => join(folder, into, file));
  };
  const XLSX = "xlsx:Calc MS Excel 2007 XML";

  it("hands every formula on, as .xlsx and by way of .ods", { timeout: 300_000 }, () => {
    const made = new Map<string, readonly string[]>();
    made.set("libreoffice", convert(XLSX, "saved", copies));
    made.set("libreoffice-ods", convert(XLSX, "again", convert("ods", "ods", copies)));
    if (PYTHON !== undefined) {
      mkdirSync(join(folder, "python"));
      const save =
        "import sys, openpyxl\nfor f, t in zip(sys.argv[1::2], sys.argv[2::2]): openpyxl.load_workbook(f).save(t)";
      const pairs = copies.flatMap((file) => [file, join(folder, "python", basename(file))]);
      spawnSync(PYTHON, ["-c", save, ...pairs]);
      made.set(
        "openpyxl",
        readdirSync(join(folder, "python")).map((file) => join(folder, "python", file)),
      );
    }
    for (const [program, files] of made) {
      expect(files).toHaveLength(copies.length);
      for (const file of files) {
        expectSame(read(join(folder, basename(file))), read(file), `${program} ${basename(file)}`);
        if (process.env["KEEP_SAVED"] === "1") {
          cpSync(file, join(SAVED, basename(file).replace(".copy.", `.${program}.`)));
          cpSync(join(folder, basename(file)), join(SAVED, basename(file)));
        }
      }
    }
  });
});
