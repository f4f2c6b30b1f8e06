import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import { engineFunctions } from "../../src/sheet/catalogue-functions";
import { fileFormula } from "../../src/formula/names";
import { recalculateWorkbook } from "../../src/sheet/recalculate";
import { createWorkbook } from "../../src/workbook/create";
import type { NewCell } from "../../src/workbook/create-sheet";
import { openWorkbook } from "../../src/workbook/read";

const readme = readFileSync("README.md", "utf8");
const formulas = [
  ...new Set([...readme.matchAll(/`=(BLN\.[A-Z_]+\(.*?\))`/g)].map((match) => match[1] ?? "")),
];

describe("README", () => {
  it("has formulas to try", () => {
    expect(formulas.length).toBeGreaterThan(catalogue.length - 3);
  });

  it("has only formulas that give a value", async () => {
    // A1 is the cell of the first formula, which the second one takes.
    const cells: Record<string, NewCell> = { A1: { value: 48 } };
    formulas.forEach((formula, index) => {
      // A column far apart for each, so that spilled tables do not meet.
      const row = 3 + index * 40;
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
      sheets: [{ name: "Sheet1", cells }],
    });
    const { bytes, failing, uncomputed } = await recalculateWorkbook(workbook, engineFunctions(catalogue));
    expect(failing.map((cell) => `${formulas[(cell.row - 2) / 40] ?? ""}: ${cell.sentence ?? ""}`)).toEqual(
      [],
    );
    expect(uncomputed).toEqual([]);
    const values = openWorkbook(bytes).model.sheets[0]?.cells ?? [];
    const anchors = values.filter((cell) => cell.formula !== undefined);
    expect(anchors).toHaveLength(formulas.length);
    for (const cell of anchors)
      expect(typeof cell.value, formulas[(cell.row - 2) / 40]).toMatch(/number|string/);
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
