import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import { engineFunctions } from "../../src/sheet/catalogue-functions";
import { recalculateWorkbook } from "../../src/sheet/recalculate";
import { cellFinder } from "../../src/workbook/cell-finder";
import { isSameValue } from "../../src/workbook/cell-values";
import { openWorkbook } from "../../src/workbook/read";
import { hasOffice, PROGRAMS, savedByPrograms } from "../other-programs";
import { roundTripWorkbooks } from "../round-trip-workbooks";

/**
 * Workbooks with our formulas in them that other programs saved, beside each as we made it: `<workbook>.made.xlsx`. Made
 * anew as those of tests/partner/saved.
 */
const SAVED = "tests/sheet/saved";

/** The workbooks in which one of the programs spoils something. */
const SPOILED = ["spills", "arrays", "names", "later", "errors", "filled"];

const read = (path: string): Uint8Array => new Uint8Array(readFileSync(path));

/** Formulas of ours are as we wrote them, spills spill again, and every cell shows what it showed. */
async function expectHealed(made: Uint8Array, saved: Uint8Array, name: string): Promise<number> {
  const result = await recalculateWorkbook(saved, engineFunctions(catalogue));
  const before = openWorkbook(made).model;
  const after = openWorkbook(result.bytes).model;
  const find = cellFinder(after);
  for (const [position, sheet] of before.sheets.entries()) {
    for (const { row, column, value, formula } of sheet.cells) {
      const cell = find(position, row, column);
      const label = `${name} ${sheet.name} ${row} ${column}`;
      // Empty text that is written down becomes a blank cell.
      expect(isSameValue(cell?.value ?? "", value ?? ""), `${label} ${String(cell?.value)}`).toBe(true);
      if (formula?.text.includes("BLN") !== true) continue;
      // LibreOffice writes TRUE as a call, which means the same.
      const text = cell?.formula?.text.replaceAll("TRUE()", "TRUE");
      expect({ ...cell?.formula, text }, label).toEqual(formula);
    }
  }
  return result.healed;
}

describe("workbooks of ours that another program saved", () => {
  const made = readdirSync(SAVED).filter((file) => file.endsWith(".made.xlsx"));

  it("are those in which a program spoils something", () => {
    expect(made).toHaveLength(SPOILED.length);
    expect(readdirSync(SAVED)).toHaveLength(SPOILED.length * (1 + PROGRAMS.length));
  });

  it.each(made)("%s is healed by a recalculation", { timeout: 60_000 }, async (file) => {
    for (const program of PROGRAMS) {
      const saved = file.replace(".made.", `.${program}.`);
      await expectHealed(read(join(SAVED, file)), read(join(SAVED, saved)), saved);
    }
  });

  it("say how many formulas were damaged", { timeout: 60_000 }, async () => {
    const healed = (program: string): Promise<number> => {
      return expectHealed(
        read(join(SAVED, "filled.made.xlsx")),
        read(join(SAVED, `filled.${program}.xlsx`)),
        program,
      );
    };
    // All 120 names in small letters by LibreOffice; openpyxl keeps them.
    expect(await healed("libreoffice")).toBe(120);
    expect(await healed("openpyxl")).toBe(0);
    // Both formulas are arrays of a fixed size.
    const spills = await recalculateWorkbook(
      read(join(SAVED, "spills.openpyxl.xlsx")),
      engineFunctions(catalogue),
    );
    expect(spills.healed).toBe(2);
  });
});

describe.skipIf(!hasOffice)("an office program on this machine", () => {
  it("spoils nothing that a recalculation does not heal", { timeout: 300_000 }, async () => {
    const folder = mkdtempSync(join(tmpdir(), "healed-"));
    try {
      const workbooks = [...(await roundTripWorkbooks())].filter(([name]) => SPOILED.includes(name));
      const paths = workbooks.map(([name, bytes]) => {
        const path = join(folder, `${name}.made.xlsx`);
        writeFileSync(path, bytes);
        return path;
      });
      for (const [program, files] of savedByPrograms(paths, folder)) {
        for (const file of files) {
          const own = join(folder, basename(file));
          if (process.env["KEEP_SAVED"] === "1") {
            cpSync(file, join(SAVED, basename(file).replace(".made.", `.${program}.`)));
            cpSync(own, join(SAVED, basename(file)));
          }
          await expectHealed(read(own), read(file), `${program} ${basename(file)}`);
        }
      }
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
