import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { besides, isSameFile, writeWhole } from "../../src/recalc/write-file";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "write-"));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe("writeWhole", () => {
  it("writes a new file and leaves nothing else behind", () => {
    const file = join(folder, "a.xlsx");
    expect(writeWhole(file, bytes("new"))).toBeUndefined();
    expect(readFileSync(file, "utf8")).toBe("new");
    expect(readdirSync(folder)).toEqual(["a.xlsx"]);
  });

  it("keeps the former file under another name", () => {
    const file = join(folder, "a.xlsx");
    writeFileSync(file, "old");
    const previous = writeWhole(file, bytes("new"));
    expect(previous).toBe(join(folder, "a (previous).xlsx"));
    expect(readFileSync(previous ?? "", "utf8")).toBe("old");
    expect(readFileSync(file, "utf8")).toBe("new");
  });

  it("leaves the old file whole and no part behind where it cannot write", () => {
    const file = join(folder, "missing", "a.xlsx");
    expect(() => writeWhole(file, bytes("new"))).toThrow();
    expect(existsSync(join(folder, "missing"))).toBe(false);
    expect(readdirSync(folder)).toEqual([]);
  });
});

it("knows one file by two paths", () => {
  const file = join(folder, "a.xlsx");
  writeFileSync(file, "x");
  expect(isSameFile(file, join(folder, ".", "a.xlsx"))).toBe(true);
  expect(isSameFile(file, join(folder, "b.xlsx"))).toBe(false);
});

it("puts a word behind a name", () => {
  expect(besides(join("x", "my quote.xlsx"), "recalculated")).toBe(join("x", "my quote (recalculated).xlsx"));
});
