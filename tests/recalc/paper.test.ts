import { spawnSync } from "node:child_process";
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { createWorkbook } from "../../src/workbook/create";
import type { SheetDescription } from "../../src/workbook/create-sheet";
import { browserEnvironment } from "../browser";
import { pdfPages } from "../paper/pdf";

const PLAIN = { author: "test", generator: "test", date: "2026-01-01T00:00:00Z" };
const hasPdfReader = spawnSync("pdftotext", ["-v"]).status === 0;

let folder: string;
let environment: Readonly<Record<string, string | undefined>>;
beforeAll(() => {
  environment = browserEnvironment();
}, 300_000);
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "paper-test-"));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

interface Run {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

function paper(args: readonly string[], env = environment): Run {
  return spawnSync(process.execPath, [join(process.cwd(), "dist/node/paper.cjs"), ...args], {
    encoding: "utf8",
    cwd: folder,
    env: env as Record<string, string>,
  });
}

/** Cells of rows from A1 on. */
function cells(rows: readonly (readonly (string | number)[])[]): SheetDescription["cells"] {
  return Object.fromEntries(
    rows.flatMap((row, down) =>
      row.map((value, across) => [`${"ABCDEF".charAt(across)}${String(down + 1)}`, { value }]),
    ),
  );
}

const PIECES = [
  ["name", "kind", "printed", "balloons", "colour"],
  ["Arch", "count", 11, 20, "Gold"],
];
const PRICES = [
  ["supplier", "printed", "colour", "bag", "price"],
  ["Town", 11, "Gold", 50, 12.5],
];

/** A job of one arch, with a paper on a sheet or without one. */
function job(formula?: string): Uint8Array {
  const sheets: SheetDescription[] = [
    { name: "Job", cells: cells(PIECES), tables: [{ name: "Pieces", range: "A1:E2" }] },
    { name: "Shop", cells: cells(PRICES), tables: [{ name: "Prices", range: "A1:E2" }] },
  ];
  if (formula !== undefined)
    sheets.push({
      name: "To order",
      columnWidths: { A: 20, B: 30, D: 14, E: 40 },
      cells: {
        A1: { value: "Order of the club" },
        H1: { value: "not for the shop" },
        A3: {
          value: "section",
          formula: {
            text: formula,
            kind: "dynamic",
            range: { firstRow: 2, firstColumn: 0, lastRow: 3, lastColumn: 5 },
          },
        },
      },
      page: { orientation: "landscape", printArea: "A1:F20", paper: 9, fit: { wide: 1, tall: 1 } },
    });
  return createWorkbook({ ...PLAIN, sheets });
}

function write(name: string, bytes: Uint8Array): string {
  writeFileSync(join(folder, name), bytes);
  return name;
}

const textOf = (file: string): string =>
  spawnSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8", cwd: folder }).stdout;

describe("npm run paper", { timeout: 120_000 }, () => {
  it("prints the sheet that holds the paper, by its print area and page setup, with fresh values", () => {
    const bytes = job('_xldudf_BLN_PAPER_PLAN("order","",Pieces[#All],Prices[#All])');
    const { status, stdout } = paper([write("job.xlsx", bytes), "order"]);
    expect(stdout).toContain("the paper is in job order.pdf");
    expect(status).toBe(0);
    const pdf = readFileSync(join(folder, "job order.pdf"));
    const { count, size } = pdfPages(pdf);
    expect(count).toBe(1);
    // A4 lying: ISO 216.
    expect(Math.round(size[0] ?? 0)).toBeGreaterThan(Math.round(size[1] ?? 0));
    expect(readFileSync(join(folder, "job.xlsx"))).toEqual(Buffer.from(bytes));
    expect(readdirSync(folder).sort()).toEqual(["job order.pdf", "job.xlsx"]);
    if (!hasPdfReader) return;
    const text = textOf("job order.pdf");
    expect(text).toContain("Order of the club");
    expect(text).not.toContain("not for the shop");
    // By hand: 20 balloons with spares are 22, one bag of 50 at 12.50.
    expect(text).toMatch(/Town\s+11 in Gold\s+1\s+bag of 50\s+12\.50 each, 12\.50 in all\s+ok/);
  });

  it("computes the paper from the tables where no sheet holds it, and keeps what was there", () => {
    write("out.pdf", new TextEncoder().encode("an earlier paper"));
    const { status, stdout } = paper([write("job.xlsx", job()), "order", "out.pdf"]);
    expect(stdout).toContain("the file that was there is now out (previous ");
    expect(status).toBe(0);
    expect(pdfPages(readFileSync(join(folder, "out.pdf"))).count).toBe(1);
    const earlier = readdirSync(folder).find((name) => name.startsWith("out (previous")) ?? "";
    expect(readFileSync(join(folder, earlier), "utf8")).toBe("an earlier paper");
    if (hasPdfReader) expect(textOf("out.pdf")).toMatch(/Town\s+11 in Gold\s+1\s+bag of 50/);
  });

  it("ends with 1 and the reason where the paper holds an error", () => {
    const bytes = job('_xldudf_BLN_PAPER_PLAN("order","",Pieces[#All])');
    const { status, stdout } = paper([write("job.xlsx", bytes), "order"]);
    expect(stdout).toContain("To order!C4 shows #N/A: price_list or stock must be given");
    expect(status).toBe(1);
  });

  it.each([
    [
      ["job.xlsx", "invoice"],
      'paper must be one of "offer", "order", "packing", "returns", "setup", "venue", "terms"',
    ],
    [["job.xlsx"], "usage: npm run paper -- JOB.xlsx PAPER [EVENT] [OUT.pdf]"],
    [["job.xlsx", "order", "a.pdf", "b.pdf"], "usage: npm run paper"],
    [["job.xlsx", "order", "Regatta", "out.xlsx"], "usage: npm run paper"],
    [["other.xlsx", "order"], "there is no file other.xlsx"],
    [["job.xlsx", "offer", "Regatta", "nowhere/out.pdf"], "there is no folder nowhere"],
    [["empty.xlsx", "order"], "no table of a job"],
  ])("says in a sentence why %j makes no paper", (args, sentence) => {
    write("job.xlsx", job());
    write("empty.xlsx", createWorkbook({ ...PLAIN, sheets: [{ name: "S", cells: {} }] }));
    const { status, stderr } = paper(args);
    expect(stderr).toContain(sentence);
    expect(status).toBe(2);
    expect(readdirSync(folder).filter((name) => name.endsWith(".pdf"))).toEqual([]);
  });

  it("says what to install where there is no browser, and what failed where one does not print", () => {
    write("job.xlsx", job());
    mkdirSync(join(folder, "bin"));
    const bare = { ...environment, CHROMIUM_PATH: "", PATH: join(folder, "bin") };
    const none = paper(["job.xlsx", "order"], bare);
    // Where a browser stands outside the path, it is found and prints.
    if (none.status !== 0)
      expect(none.stderr).toContain("a PDF needs Chrome, Chromium or Edge on this computer");
    if (process.platform === "win32") return;
    const broken = join(folder, "bin", "chromium");
    writeFileSync(broken, "#!/bin/sh\nexit 3\n");
    chmodSync(broken, 0o755);
    const failed = paper(["job.xlsx", "order", "out.pdf"], bare);
    expect(failed.stderr).toContain(`${broken} did not print: it ended with 3`);
    expect(failed.status).toBe(2);
  });

  it("keeps the paper where the browser's files are not free in time", () => {
    write("job.xlsx", job());
    const hook = join(folder, "busy-files.cjs");
    writeFileSync(
      hook,
      `const fs = require("fs"), remove = fs.rmSync;
      fs.rmSync = (path, how) => {
        remove(path, how);
        if (!String(path).includes("paper-") || String(path).includes("paper-test-")) return;
        throw Object.assign(new Error("directory not empty"), { code: "ENOTEMPTY" });
      };`,
    );
    const busy = { ...environment, NODE_OPTIONS: `--require "${hook.replaceAll("\\", "/")}"` };
    const { stderr, status } = paper(["job.xlsx", "order", "out.pdf"], busy);
    expect([stderr, status]).toEqual(["", 0]);
    expect(pdfPages(new Uint8Array(readFileSync(join(folder, "out.pdf")))).count).toBe(1);
  });
});
