import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { cellAddress } from "../../src/formula/address";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { restructured } from "../../src/workbook/restructure";

// Another office program opens what was written, where it is installed.
const isThere = spawnSync("soffice", ["--version"]).status === 0;

/** The workbook as the other program saves it after computing every formula anew. */
function savedElsewhere(bytes: Uint8Array): ReturnType<typeof openWorkbook>["model"] {
  const opened = openWorkbook(bytes);
  // Without a stored value it has to compute.
  const emptied = opened.model.sheets.flatMap((sheet, position) =>
    sheet.cells.flatMap(({ row, column, formula }) =>
      formula ? [{ sheet: position, row, column, value: null }] : [],
    ),
  );
  const folder = mkdtempSync(join(tmpdir(), "elsewhere-"));
  try {
    const file = join(folder, "in.xlsx");
    writeFileSync(file, opened.patched(emptied));
    const profile = `-env:UserInstallation=file://${join(folder, "profile")}`;
    const out = join(folder, "out");
    execFileSync("soffice", [profile, "--headless", "--convert-to", "xlsx", "--outdir", out, file], {
      stdio: "ignore",
    });
    return openWorkbook(new Uint8Array(readFileSync(join(out, "in.xlsx")))).model;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function valuesOf(
  model: ReturnType<typeof openWorkbook>["model"],
  sheet: number,
): ReadonlyMap<string, unknown> {
  const cells = model.sheets[sheet]?.cells ?? [];
  return new Map(cells.map(({ row, column, value }) => [cellAddress(row, column), value]));
}

const PLAIN = { author: "test", generator: "test", date: "2026-01-01T00:00:00Z" };

describe.skipIf(!isThere)("another office program", { timeout: 120_000 }, () => {
  it("computes the same sums after rows, columns and sheets moved", () => {
    const before = createWorkbook({
      ...PLAIN,
      names: [{ name: "prices", text: "Suppliers!$B$2:$B$4" }],
      sheets: [
        {
          name: "Offer",
          cells: {
            A1: { formula: "SUM(prices)" },
            A2: { formula: 'SUMIF(Suppliers!A2:A4,"blue",Suppliers!B2:B4)' },
            A3: { formula: "SUM(Lines[cost])" },
          },
        },
        {
          name: "Suppliers",
          tables: [{ name: "Lines", range: "D1:E3" }],
          cells: {
            A1: { value: "item" },
            B1: { value: "price" },
            A2: { value: "red" },
            B2: { value: 3 },
            A3: { value: "blue" },
            B3: { value: 4 },
            A4: { value: "blue" },
            B4: { value: 5 },
            B6: { formula: "SUM(B2:B4)*2" },
            D1: { value: "size" },
            E1: { value: "cost" },
            D2: { value: 1 },
            E2: { value: 10 },
            D3: { value: 2 },
            E3: { value: 20 },
          },
        },
      ],
    });
    const shift = { kind: "shift", sheet: 1 } as const;
    let bytes = restructured(before, { ...shift, shift: { kind: "insert", axis: "row", at: 2, count: 2 } });
    bytes = restructured(bytes, { ...shift, shift: { kind: "insert", axis: "column", at: 1, count: 1 } });
    bytes = openWorkbook(bytes).patched([{ sheet: 1, row: 3, column: 2, value: 100 }]);
    bytes = restructured(bytes, { kind: "renameSheet", sheet: 1, name: "Bob's list" });
    bytes = restructured(bytes, { kind: "copySheet", sheet: 1, name: "Copy" });
    bytes = restructured(bytes, { kind: "moveSheet", sheet: 0, to: 2 });
    const after = savedElsewhere(bytes);
    expect(after.sheets.map(({ name }) => name)).toEqual(["Bob's list", "Copy", "Offer"]);
    // 3 + 4 + 5 and the new 100; the blue ones; 10 + 20. By hand.
    const offer = valuesOf(after, 2);
    expect([offer.get("A1"), offer.get("A2"), offer.get("A3")]).toEqual([112, 9, 30]);
    expect(valuesOf(after, 0).get("C8")).toBe(224);
    expect(valuesOf(after, 1).get("C8")).toBe(224);
  });

  it("shows the same looks, widths and merged cells", () => {
    const plain = createWorkbook({
      ...PLAIN,
      sheets: [{ name: "S", cells: { A1: { value: 1 }, B2: { value: 2 } } }],
    });
    const look = {
      bold: true,
      fill: "#ffff00",
      fontColor: "#c00000",
      horizontal: "center",
      wrap: true,
      borders: { bottom: { style: "thin", color: "#00b050" } },
    } as const;
    const looks = [
      { sheet: 0, row: 0, column: 0, look },
      { sheet: 0, row: 4, column: 3, look },
    ];
    const layout = { sheet: 0, columnWidths: new Map([[1, 25]]), rowHeights: new Map([[1, 40]]) };
    const laid = openWorkbook(plain).patched(looks, [layout]);
    const merged = { firstRow: 6, lastRow: 7, firstColumn: 0, lastColumn: 2 };
    const after = savedElsewhere(
      restructured(laid, { kind: "merge", sheet: 0, range: merged, isMerged: true }),
    );
    const [sheet] = after.sheets;
    const styleOf = (row: number, column: number): unknown =>
      after.styles[sheet?.cells.find((cell) => cell.row === row && cell.column === column)?.style ?? 0];
    expect(styleOf(0, 0)).toMatchObject(look);
    expect(styleOf(4, 3)).toMatchObject(look);
    expect(sheet?.columnWidths.get(1)).toBeCloseTo(25, 0);
    expect(sheet?.rowHeights.get(1)).toBeCloseTo(40, 0);
    // Without a window it forgets panes, those of every file.
    expect(sheet).toMatchObject({ merges: [merged] });
  });
});
