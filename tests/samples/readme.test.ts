import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import { engineFunctions } from "../../src/sheet/catalogue-functions";
import { fileFormula } from "../../src/formula/names";
import { recalculateWorkbook } from "../../src/sheet/recalculate";
import { cellAddress } from "../../src/formula/address";
import { createWorkbook } from "../../src/workbook/create";
import type { NewCell, SheetDescription } from "../../src/workbook/create-sheet";
import { openWorkbook } from "../../src/workbook/read";

const readme = readFileSync("README.md", "utf8");
/** Written with decimal commas, as some readers see it, or over a range that this test's sheet needs for itself. */
const NOT_HERE = /\d,\d+; |A2:B200/;
const formulas = [
  ...new Set([...readme.matchAll(/`=(BLN\.[A-Z_]+\(.*?\))`/g)].map((match) => match[1] ?? "")),
].filter((formula) => !NOT_HERE.test(formula));

/** Rows that each formula may fill. */
const ROWS_EACH = 120;

/** The cells of the table below the line that names it, as the README writes it. */
function tableBelow(name: string): readonly (readonly (string | number | null)[])[] {
  const [, after = ""] = readme.split(new RegExp(`table \`${name}\`[^|]*`, "i"));
  const lines = after.split("\n\n")[0]?.split("\n") ?? [];
  return lines
    .filter((line) => !/^\|-/.test(line))
    .map((line) =>
      line
        .split("|")
        .slice(1, -1)
        .map((text) => text.trim())
        .map((text) => (text === "" ? null : /^[\d.]+$/.test(text) ? Number(text) : text)),
    );
}

function tableSheet(name: string): SheetDescription {
  const rows = tableBelow(name);
  const width = rows[0]?.length ?? 0;
  return {
    name: `Sheet of ${name}`,
    cells: Object.fromEntries(
      rows.flatMap((row, down) =>
        row.map((value, across): [string, NewCell] => [cellAddress(down, across), { value }]),
      ),
    ),
    tables: [{ name, range: `A1:${cellAddress(rows.length - 1, width - 1)}` }],
  };
}

/** The sheets whose tables the formulas of the shortest way name. */
const TABLE_SHEETS = ["Pieces", "Prices", "Terms"].map(tableSheet);

describe("README", () => {
  it("has formulas to try", () => {
    expect(formulas.length).toBeGreaterThan(catalogue.length - 3);
  });

  it("has only formulas that give a value", async () => {
    // A1 is the cell of the first formula, which the second one takes.
    const cells: Record<string, NewCell> = { A1: { value: 48 } };
    formulas.forEach((formula, index) => {
      // A column far apart for each, so that spilled tables do not meet.
      const row = 3 + index * ROWS_EACH;
      cells[`B${row}`] = {
        formula: {
          text: fileFormula(formula),
          kind: "dynamic",
          range: { firstRow: row - 1, lastRow: row - 1, firstColumn: 1, lastColumn: 1 },
        },
      };
    });
    const workbook = createWorkbook({
      author: "test",
      generator: "test",
      date: "2026-01-01T00:00:00Z",
      sheets: [{ name: "Sheet1", cells }, ...TABLE_SHEETS],
    });
    const { bytes, failing, uncomputed } = await recalculateWorkbook(workbook, engineFunctions(catalogue));
    // The example of BUY_PLAN is one in which nobody sells a colour.
    const meant = (row: number): boolean =>
      formulas[Math.floor((row - 2) / ROWS_EACH)]?.includes("BUY_PLAN(") === true;
    expect(
      failing
        .filter(({ row }) => !meant(row))
        .map(({ row, sentence }) => [formulas[Math.floor((row - 2) / ROWS_EACH)], sentence]),
    ).toEqual([]);
    expect(uncomputed).toEqual([]);
    const values = openWorkbook(bytes).model.sheets[0]?.cells ?? [];
    const anchors = values.filter((cell) => cell.formula !== undefined);
    const spilled = values.map((cell) => cell.value);
    expect(anchors).toHaveLength(formulas.length);
    for (const cell of anchors)
      expect(typeof cell.value, formulas[(cell.row - 2) / ROWS_EACH]).toMatch(/number|string/);
    // What the shortest way says: 24 and 39 clusters of four; 102 to take of Navy are 3 bags of 50; prices at 45 % of the price.
    for (const said of [96, 156, "bags of 50", "bags of 100", 89.92, 123.8, 211.64])
      expect(spilled).toContain(said);
    expect(readme).toMatch(
      /89\.92 for the two columns,\s+123\.80 for the arch, 211\.64 for travel and loading, 425\.36 in all/,
    );
    expect((8992 + 12380 + 21164) / 100).toBe(425.36);
  });

  it.each([...readme.matchAll(/npm run ([a-z]+)/g)].map((match) => match[1] ?? ""))(
    "names the command %s that exists",
    (name) => {
      const { scripts } = JSON.parse(readFileSync("package.json", "utf8")) as {
        scripts: Record<string, string>;
      };
      expect(scripts[name]).toBeDefined();
    },
  );
});
