import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import type { CellChange, CellValue, WorkbookCell } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";

// Real workbooks from public repositories are kept beside this repository, not in it; LIST.md there names their origin.
const FOLDER = join(import.meta.dirname, "../../../shared/reference/xlsx");
const isThere = existsSync(FOLDER);

interface Listed {
  readonly name: string;
  readonly counts: Readonly<Record<string, number>>;
}

/** The files that LIST.md names with their counts of features. */
function listed(): readonly Listed[] {
  if (!isThere) return [{ name: "skipped: the folder ../shared/reference/xlsx is not there", counts: {} }];
  return readFileSync(join(FOLDER, "LIST.md"), "utf8")
    .split("\n")
    .filter((line) => line.includes(".xlsx |"))
    .map((line) => {
      const cells = line.split("|").map((cell) => cell.trim());
      const counts = (cells[6] ?? "").split(" ").map((entry) => entry.split(":"));
      return {
        name: cells[1] ?? "",
        counts: Object.fromEntries(counts.map(([key = "", n]) => [key, Number(n)])),
      };
    });
}

const bytesOf = (name: string): Uint8Array => new Uint8Array(readFileSync(join(FOLDER, name)));
const sheetTexts = (files: Readonly<Record<string, Uint8Array>>): readonly string[] => {
  const names = Object.keys(files).filter((name) => /^xl\/worksheets\/[^/]+\.xml$/.test(name));
  // One file writes its elements with the prefix x.
  return names.map((name) => new TextDecoder().decode(files[name]).replace(/<(\/?)x:/g, "<$1"));
};
const occurrences = (texts: readonly string[], pattern: RegExp): number => {
  return texts.reduce((sum, text) => sum + [...text.matchAll(pattern)].length, 0);
};

const isEqual = (a: Uint8Array | undefined, b: Uint8Array | undefined): boolean => {
  return a !== undefined && b !== undefined && Buffer.compare(a, b) === 0;
};

describe.skipIf(!isThere).each(listed())("$name", { timeout: 60_000 }, ({ name, counts }) => {
  const bytes = isThere ? bytesOf(name) : new Uint8Array();
  const files = isThere ? unzipSync(bytes) : {};

  it("is one of the twelve", () => {
    expect(listed().length).toBe(12);
    expect(readdirSync(FOLDER)).toContain(name);
  });

  it("opens with as many formulas, arrays and merges as listed", () => {
    const { model } = openWorkbook(bytes);
    const texts = sheetTexts(files);
    const formulas = model.sheets.flatMap((sheet) => sheet.cells).flatMap((cell) => cell.formula ?? []);
    // The list also counts the formulas that extensions such as sparklines carry.
    expect(formulas.length + occurrences(texts, /<xm:f>/g)).toBe(counts["formulas"] ?? 0);
    const filling = formulas.filter(({ kind }) => kind === "array" || kind === "dynamic");
    expect(filling.length).toBe(counts["arrayF"] ?? 0);
    expect(formulas.filter(({ kind }) => kind === "dynamic").length).toBe(counts["cm"] ?? 0);
    expect(model.sheets.reduce((sum, sheet) => sum + sheet.merges.length, 0)).toBe(counts["merge"] ?? 0);
    expect(model.tables.length).toBe(counts["tables"] ?? 0);
    expect(model.names.length).toBe(counts["defNames"] ?? 0);
    expect(occurrences(texts, /<f [^>]*t="shared"/g)).toBe(counts["shared"] ?? 0);
  });

  it("has the values that its markup shows", () => {
    const { model } = openWorkbook(bytes);
    const texts = sheetTexts(files);
    const values = model.sheets.flatMap((sheet) => sheet.cells).map((cell) => cell.value);
    const numbers = values.filter((value) => typeof value === "number");
    const errors = values.filter((value) => typeof value === "object" && value !== null);
    expect(values.length).toBe(occurrences(texts, /<c[ >]/g));
    expect(errors.length).toBe(occurrences(texts, /<c [^>]*t="e"/g));
    const marked = texts.flatMap((text) => [
      ...text.matchAll(/<c(?![^>]* t=")(?: [^>]*)?>(?:<f[^>]*\/>|<f[^>]*>[^<]*<\/f>)?<v>([^<]*)<\/v>/g),
    ]);
    expect(numbers.length).toBe(marked.length);
    expect(numbers.reduce((sum, value) => sum + value, 0)).toBeCloseTo(
      marked.reduce((sum, match) => sum + Number(match[1]), 0),
      6,
    );
  });

  it("comes back byte for byte where nothing changes", () => {
    const { model, patched } = openWorkbook(bytes);
    expect(isEqual(patched([]), bytes)).toBe(true);
    const same = model.sheets.flatMap((sheet, i) => sheet.cells.map((cell) => ({ sheet: i, ...cell })));
    const changes = same.map(({ sheet, row, column, value }): CellChange => ({ sheet, row, column, value }));
    expect(isEqual(patched(changes), bytes)).toBe(true);
  });

  it("keeps everything else when all formulas get other values, and gets its own values back", () => {
    const opened = openWorkbook(bytes);
    const other = (k: number): CellValue =>
      [k + 0.5, ` a<b>&${String(k)}`, k % 2 === 0, { error: "#NUM!" }][k % 4] ?? null;
    const changes: CellChange[] = [];
    const back: CellChange[] = [];
    opened.model.sheets.forEach((sheet, i) => {
      for (const cell of sheet.cells.filter(({ formula }) => formula !== undefined)) {
        const place = { sheet: i, row: cell.row, column: cell.column };
        changes.push({ ...place, value: other(changes.length) });
        back.push({ ...place, value: cell.value });
      }
    });
    const changed = opened.patched(changes);
    const after = unzipSync(changed);
    expect(Object.keys(after)).toEqual(Object.keys(files));
    const touched = new Set(changes.map((change) => opened.model.sheets[change.sheet]?.part ?? ""));
    for (const part of Object.keys(files))
      if (!touched.has(part)) expect(isEqual(after[part], files[part]), part).toBe(true);
    const reopened = openWorkbook(changed);
    const values = new Map(
      changes.map(({ sheet, row, column, value }) => [[sheet, row, column].join(), value]),
    );
    reopened.model.sheets.forEach((sheet, i) => {
      const expected = opened.model.sheets[i]?.cells.map((cell): WorkbookCell => {
        const value = values.get([i, cell.row, cell.column].join());
        return value === undefined ? cell : { ...cell, value };
      });
      expect(JSON.stringify(sheet.cells)).toBe(JSON.stringify(expected));
    });
    const restored = openWorkbook(reopened.patched(back)).model;
    restored.sheets.forEach((sheet, i) => {
      expect(JSON.stringify(sheet.cells)).toBe(JSON.stringify(opened.model.sheets[i]?.cells));
      expect({ ...sheet, cells: [] }).toEqual({ ...opened.model.sheets[i], cells: [] });
    });
    expect({ ...restored, sheets: [] }).toEqual({ ...opened.model, sheets: [] });
  });
});
