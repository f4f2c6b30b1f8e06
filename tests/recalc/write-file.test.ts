import {
  chmodSync,
  existsSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { hostname, tmpdir } from "node:os";
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
const isPosix = process.platform !== "win32";

describe("writeWhole", () => {
  it("writes a new file and leaves nothing else behind", () => {
    const file = join(folder, "a.xlsx");
    expect(writeWhole(file, bytes("new"))).toBeUndefined();
    expect(readFileSync(file, "utf8")).toBe("new");
    expect(readdirSync(folder)).toEqual(["a.xlsx"]);
  });

  it("keeps every former file under a name of its own", () => {
    const file = join(folder, "a.xlsx");
    writeFileSync(file, "first");
    const kept = ["second", "third", "fourth"].map((text) => writeWhole(file, bytes(text)) ?? "");
    expect(kept.map((path) => readFileSync(path, "utf8"))).toEqual(["first", "second", "third"]);
    for (const path of kept) {
      expect(path).toMatch(/a \(previous \d{4}-\d\d-\d\d \d\d\.\d\d\.\d\d(?: \d)?\)\.xlsx$/);
    }
    expect(readFileSync(file, "utf8")).toBe("fourth");
    expect(readdirSync(folder)).toHaveLength(4);
  });

  it("touches no other file, whatever its name", () => {
    const others = ["a (previous).xlsx", "a (previous 2026-01-01 00.00.00).xlsx", ".a.xlsx.1.part"];
    for (const name of others) writeFileSync(join(folder, name), name);
    const file = join(folder, "a.xlsx");
    writeFileSync(file, "old");
    writeWhole(file, bytes("new"));
    for (const name of others) expect(readFileSync(join(folder, name), "utf8")).toBe(name);
  });

  it.runIf(isPosix).each([0o600, 0o640, 0o444])(
    "gives the new file the permissions asked for: %o",
    (mode) => {
      const file = join(folder, "a.xlsx");
      writeFileSync(file, "old");
      chmodSync(file, 0o666);
      writeWhole(file, bytes("new"), mode);
      expect(statSync(file).mode & 0o777).toBe(mode);
    },
  );

  it.runIf(isPosix)("refuses a link to another file, and leaves both", () => {
    const other = join(folder, "other.xlsx");
    const link = join(folder, "link.xlsx");
    writeFileSync(other, "other");
    for (const target of [other, join(folder, "missing.xlsx")]) {
      symlinkSync(target, link);
      expect(() => writeWhole(link, bytes("new"))).toThrow(/link\.xlsx cannot be written: it is a link/);
      expect(readlinkSync(link)).toBe(target);
      rmSync(link);
    }
    expect(readFileSync(other, "utf8")).toBe("other");
    expect(readdirSync(folder)).toEqual(["other.xlsx"]);
  });

  it("leaves the other name of a former file as it was", () => {
    const file = join(folder, "a.xlsx");
    const twin = join(folder, "twin.xlsx");
    writeFileSync(file, "old");
    linkSync(file, twin);
    writeWhole(file, bytes("new"));
    expect(readFileSync(twin, "utf8")).toBe("old");
  });

  it.each([
    [
      "a folder that is not there",
      ["missing", "a.xlsx"],
      /a\.xlsx cannot be written: there is no folder .*missing$/,
    ],
    ["a folder", ["place"], /place cannot be written: it is a folder, not a file$/],
    ["a file in place of a folder", ["file.txt", "a.xlsx"], /a part of its path is a file, not a folder$/],
    ["a long name", [`${"n".repeat(300)}.xlsx`], /its name is too long$/],
  ] as const)(
    "says in a sentence that it cannot write to %s, and leaves nothing behind",
    (_what, path, sentence) => {
      mkdirSync(join(folder, "place"));
      writeFileSync(join(folder, "file.txt"), "text");
      expect(() => writeWhole(join(folder, ...path), bytes("new"))).toThrow(sentence);
      expect(readdirSync(folder)).toEqual(["file.txt", "place"]);
      expect(existsSync(join(folder, "missing"))).toBe(false);
    },
  );

  it.runIf(existsSync("/dev/full"))("refuses a device", () => {
    expect(() => writeWhole("/dev/full", bytes("new"))).toThrow(
      /\/dev\/full cannot be written: it is a device/,
    );
  });

  it("removes what a killed run left half written, and no part of a run that still writes", () => {
    const ended = spawnSync(process.execPath, ["-e", ""]).pid;
    const machine = createHash("sha256").update(hostname()).digest("hex").slice(0, 8);
    const part = (pid: number): string => `.balloon-decor-${machine}-${pid}-00000000.part`;
    for (const pid of [ended, process.ppid]) writeFileSync(join(folder, part(pid)), "half");
    writeWhole(join(folder, "a.xlsx"), bytes("new"));
    expect(readdirSync(folder).sort()).toEqual([part(process.ppid), "a.xlsx"].sort());
  });
});

describe("isSameFile", () => {
  it("knows one file by two paths", () => {
    const file = join(folder, "a.xlsx");
    writeFileSync(file, "x");
    expect(isSameFile(file, join(folder, ".", "a.xlsx"))).toBe(true);
    expect(isSameFile(file, join(folder, "b.xlsx"))).toBe(false);
  });

  it.runIf(isPosix)("knows it by its links", () => {
    const file = join(folder, "a.xlsx");
    writeFileSync(file, "x");
    linkSync(file, join(folder, "hard.xlsx"));
    symlinkSync(file, join(folder, "soft.xlsx"));
    expect(isSameFile(file, join(folder, "hard.xlsx"))).toBe(true);
    expect(isSameFile(file, join(folder, "soft.xlsx"))).toBe(true);
  });
});

it("puts a word behind a name", () => {
  expect(besides(join("x", "my quote.xlsx"), "recalculated")).toBe(join("x", "my quote (recalculated).xlsx"));
});
