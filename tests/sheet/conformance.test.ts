import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { interrupt } from "../../src/recalc/interrupt";
import { byFunction, conformanceOf, type FileConformance } from "../../src/sheet/conformance";
import { CONFORMANCE, CONFORMANCE_BY_FILE } from "../../src/sheet/conformance-table";
import { openWorkbook } from "../../src/workbook/read";

const FOLDER = "../shared/reference/conformance";

// The files are not part of the project: elsewhere there is nothing to compare with.
describe.skipIf(!existsSync(FOLDER))("files that Excel wrote", () => {
  it("agree as the table says, or better", { timeout: 300_000 }, async () => {
    const evidence: FileConformance["evidence"][number][] = [];
    let total = 0;
    const files = readdirSync(FOLDER, { recursive: true, encoding: "utf8" }).filter((name) =>
      name.endsWith(".xlsx"),
    );
    for (const file of files.sort()) {
      const found = await conformanceOf(
        openWorkbook(new Uint8Array(readFileSync(join(FOLDER, file)))).model,
        {
          interrupt,
        },
      );
      evidence.push(...found.evidence);
      total += found.formulas === 0 ? 1 : 1 - found.deviations.length / found.formulas;
    }
    expect(total / files.length).toBeGreaterThanOrEqual(CONFORMANCE_BY_FILE);
    const now = byFunction(evidence);
    const worse = CONFORMANCE.filter(([name, equal]) => (now.get(name)?.equal ?? 0) < equal);
    expect(worse.map(([name]) => name)).toEqual([]);
  });
});
