import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openWorkbook } from "../../src/workbook/read";
import { recalc } from "../recalc/recalc-process";
import { tableRows, typed } from "./sample-cells";

const SAMPLE = "sample-workbooks/regatta-evening.xlsx";
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "samples-"));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

describe("the regatta evening in the command", { timeout: 60_000 }, () => {
  it("ends with 0 as it is", async () => {
    const run = await recalc([SAMPLE, join(folder, "as-it-is.xlsx")]);
    expect(run.stderr).toBe("");
    expect(run.code).toBe(0);
    expect(run.stdout).not.toContain("not ready");
    expect(run.stdout).toMatch(/^Start!A\d+: ready: nothing to check$/m);
  });

  it("ends with 1 and names the reason where a colour was renamed in the price list", async () => {
    const { model, patched } = openWorkbook(new Uint8Array(readFileSync(SAMPLE)));
    const broken = join(folder, "broken.xlsx");
    const renamed = tableRows(model, "Prices")
      .filter(({ cells }) => cells["colour"] === "Sky")
      .map(({ row }) => typed(model, "Prices", row, "colour", "Pale blue"));
    writeFileSync(broken, patched(renamed));
    const run = await recalc([broken]);
    expect(run.code).toBe(1);
    expect(run.stdout).toMatch(/Start!A\d+: not ready: 1 stop/);
    expect(run.stdout).toMatch(/Offer!A\d+: #N\/A .*nobody sells 11 in Sky/);
  });

  it("names a colour that a slip in its palette takes out of the job", async () => {
    const { model, patched } = openWorkbook(new Uint8Array(readFileSync(SAMPLE)));
    const slipped = join(folder, "slipped.xlsx");
    const [, row] = tableRows(model, "Palettes");
    const name = String(row?.cells["palette"]);
    writeFileSync(slipped, patched([typed(model, "Palettes", row?.row ?? 0, "palette", `${name}s`)]));
    const run = await recalc([slipped]);
    expect(run.stdout).toContain(`palette "${name}s" is used by no piece`);
    expect(run.stdout).toContain(`did you mean "${name}"`);
  });
});
