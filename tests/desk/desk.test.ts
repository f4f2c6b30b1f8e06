import { readFileSync } from "node:fs";
import type * as Axe from "axe-core";
import { strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import { engineFunctions } from "../../src/sheet/catalogue-functions";
import { recalculateWorkbook } from "../../src/sheet/recalculate";
import { createWorkbook } from "../../src/workbook/create";
import type { NewCell } from "../../src/workbook/create-sheet";
import { openWorkbook } from "../../src/workbook/read";
import { openDesk, PLAIN, quoteWorkbook, serveDesk } from "./desk-page";
import { sharedDesk } from "./shared-desk";

const { address, browser, desk } = await sharedDesk();

/** The same page for every test, with the test's workbook opened again. */
async function open(): Promise<void> {
  await desk.open("regatta-evening.xlsx", quoteWorkbook());
  await desk.page.getByRole("tab", { name: "Functions" }).click();
  const back = desk.page.getByRole("button", { name: "All functions" });
  if (await back.isVisible()) await back.click();
}

function cellOf(bytes: Uint8Array, sheet: number, row: number, column: number): unknown {
  return openWorkbook(bytes).model.sheets[sheet]?.cells.find(
    (cell) => cell.row === row && cell.column === column,
  );
}

describe("the desk page", { timeout: 60_000 }, () => {
  it("opens with the sample, computed", async () => {
    // 120 x 0.25; 10 ft = 3.048 m exactly (NIST SP 811); 1 + 2.
    await expect.poll(() => desk.read("B4")).toBe("B4 30.00");
    await expect.poll(() => desk.read("B5")).toBe("B5 3.048");
    await expect.poll(() => desk.read("F2")).toBe("F2 3");
    expect(await desk.page.title()).toContain("regatta-evening.xlsx");
  });

  it("computes the quote again when a price changes, on another sheet", async () => {
    await open();
    await desk.page.getByRole("tab", { name: "Prices" }).click();
    await desk.type("B2", "0.5");
    await desk.page.getByRole("tab", { name: "Quote" }).click();
    await expect.poll(() => desk.read("B4")).toBe("B4 60.00");
  });

  it("lets a spill grow, blocks it, and takes both back", async () => {
    await open();
    await desk.type("B6", "4");
    await expect.poll(() => desk.read("D5")).toBe("D5 4");
    // 1 + 2 + 3 + 4
    await expect.poll(() => desk.read("F2")).toBe("F2 10");
    await desk.type("D4", "in the way");
    await expect.poll(() => desk.read("D2")).toMatch(/^D2 shows #SPILL!: has no room/);
    await desk.press("Undo");
    await desk.ready();
    await expect.poll(() => desk.read("D5")).toBe("D5 4");
    await desk.press("Undo");
    await desk.ready();
    await expect.poll(() => desk.read("F2")).toBe("F2 3");
    await desk.press("Redo");
    await expect.poll(() => desk.read("F2")).toBe("F2 10");
  });

  it("lists our functions as one is typed, and its parameters inside the brackets", async () => {
    await open();
    await desk.read("B9");
    await desk.page.keyboard.type("=BLN_ME");
    await desk.page.getByText("Reads a length and gives it in metres").first().waitFor();
    await desk.page.keyboard.type("TRES(");
    await desk.page.getByText("BLN.METRES(length)").first().waitFor();
    await desk.page.keyboard.type('"1 ft")');
    await desk.page.keyboard.press("Enter");
    // 1 ft = 0.3048 m exactly (NIST SP 811)
    await expect.poll(() => desk.read("B9")).toBe("B9 0.3048");
  });

  it("saves what was typed and computed, as Excel stores it, and nothing else changes", async () => {
    await open();
    await desk.type("B6", "3");
    await desk.type("B9", '=BLN.METRES("2 ft")+XLOOKUP(2,D2:D4,D2:D4)');
    await desk.type("H2", "=BLN_COLUMN_PLAN(0.45,10)");
    const { name, bytes } = await desk.download("Save");
    expect(name).toBe("regatta-evening.xlsx");
    const before = openWorkbook(quoteWorkbook());
    const after = openWorkbook(bytes);
    expect(cellOf(bytes, 0, 8, 1)).toMatchObject({
      value: 2.6096,
      formula: { text: '_xldudf_BLN_METRES("2 ft")+_xlfn.XLOOKUP(2,D2:D4,D2:D4)' },
    });
    expect(cellOf(bytes, 0, 1, 7)).toMatchObject({
      formula: {
        text: "_xldudf_BLN_COLUMN_PLAN(0.45,10)",
        kind: "dynamic",
        // A header and two clusters (nested rings of four by hand).
        range: { firstRow: 1, firstColumn: 7, lastRow: 3, lastColumn: 11 },
      },
    });
    expect(cellOf(bytes, 0, 1, 3)).toMatchObject({ formula: { range: { lastRow: 3 } } });
    const changed = ["xl/worksheets/sheet1.xml"];
    for (const part of before.parts.names.filter((name) => !changed.includes(name))) {
      expect(after.parts.readText(part), part).toBe(before.parts.readText(part));
    }
    // Headless and page compute the same: computing the saved file again changes nothing.
    const again = await recalculateWorkbook(bytes, engineFunctions(catalogue));
    expect(again.changes).toEqual([]);
    expect(again.uncomputed).toEqual([]);
    expect(again.failing.map(({ row, column }) => [row, column])).toEqual([[6, 1]]);
  });

  it("keeps a date and a percentage that were typed", async () => {
    await open();
    await desk.type("B10", "2026-06-20");
    await desk.type("B11", "5%");
    await desk.type("B12", "=B11*2");
    const { bytes } = await desk.download("Save");
    const { sheets, styles } = openWorkbook(bytes).model;
    const cell = (row: number): readonly unknown[] => {
      const found = sheets[0]?.cells.find((candidate) => candidate.row === row && candidate.column === 1);
      return [found?.value, styles[found?.style ?? 0]?.numberFormat];
    };
    // Day 1 is 1900-01-01 and 1900 counts as a leap year (ECMA-376 part 1, 18.17.4.1): 2026-06-20 is day 46193.
    expect(cell(9)).toEqual([46193, expect.stringMatching(/^yyyy.mm.dd/)]);
    expect(cell(10)).toEqual([0.05, expect.stringContaining("%")]);
    expect(cell(11)[0]).toBeCloseTo(0.1, 12);
    const kept = openWorkbook(quoteWorkbook()).model.styles;
    expect(styles.slice(0, kept.length)).toEqual(kept);
  });

  it("fills and copies formulas as a spreadsheet does", async () => {
    await open();
    await desk.type("H2", "5");
    await desk.type("H3", "7");
    await desk.type("I2", "=H2*10");
    await desk.read("I2:I3");
    await desk.page.keyboard.press("Control+d");
    await expect.poll(() => desk.read("I3")).toBe("I3 70");
    const { bytes } = await desk.download("Save");
    expect(cellOf(bytes, 0, 2, 8)).toMatchObject({ value: 70, formula: { text: "H3*10" } });
  });

  it("takes a spill away with its formula", async () => {
    await open();
    await desk.read("D2");
    await desk.page.keyboard.press("Delete");
    await expect.poll(() => desk.read("D3")).toBe("D3 ");
    const { bytes } = await desk.download("Save");
    expect(cellOf(bytes, 0, 1, 3)).toBeUndefined();
    expect(cellOf(bytes, 0, 2, 3)).toBeUndefined();
  });

  it("opens what it saved", async () => {
    await open();
    await desk.type("B3", "200");
    const { bytes } = await desk.download("Save");
    await desk.open("again.xlsx", bytes);
    await expect.poll(() => desk.read("B4")).toBe("B4 50.00");
  });

  it("says why a broken file was not opened, and keeps the open one", async () => {
    await open();
    const buffer = Buffer.from("this is no workbook");
    await desk.page.setInputFiles("input[type=file]", { name: "broken.xlsx", mimeType: "", buffer });
    const line = desk.page.locator(".desk-message[data-tone=error]");
    await line.waitFor();
    expect(await line.textContent()).toMatch(
      /^broken\.xlsx was not opened: .+; regatta-evening\.xlsx is still open$/,
    );
    await expect.poll(() => desk.read("B4")).toBe("B4 30.00");
  });

  it("opens a supplier's .csv as a sheet and says how it was read; an .ods says how to save it", async () => {
    await open();
    const csv = Buffer.from("Artikel;Preis\n11 Navy;9,90\n");
    await desk.page.setInputFiles("input[type=file]", { name: "Preise.csv", mimeType: "", buffer: csv });
    await desk.page.getByText(/^Preise\.csv was read as UTF-8 text, columns between semicolons/).waitFor();
    await expect.poll(() => desk.read("B2")).toBe("B2 9.9");
    const { name } = await desk.download("Save");
    expect(name).toBe("Preise.xlsx");
    const ods = Buffer.from(
      zipSync({
        mimetype: strToU8("application/vnd.oasis.opendocument.spreadsheet"),
        "content.xml": strToU8("<office:document-content/>"),
      }),
    );
    await desk.page.setInputFiles("input[type=file]", { name: "prices.ods", mimeType: "", buffer: ods });
    const line = desk.page.locator(".desk-message[data-tone=error]");
    await line.waitFor();
    expect(await line.textContent()).toContain("open it in its own program and save it as .xlsx");
  });

  it("asks before changes are lost", async () => {
    await open();
    await desk.type("B3", "10");
    const buffer = Buffer.from(quoteWorkbook());
    await desk.page.setInputFiles("input[type=file]", { name: "other.xlsx", mimeType: "", buffer });
    await desk.press("Cancel");
    await expect.poll(() => desk.read("B4")).toBe("B4 2.50");
    await desk.page.setInputFiles("input[type=file]", { name: "other.xlsx", mimeType: "", buffer });
    await desk.press("Open other.xlsx");
    await desk.page.waitForFunction(() => document.title.startsWith("other.xlsx"));
    await desk.ready();
    await expect.poll(() => desk.read("B4")).toBe("B4 30.00");
  });

  it("gives the sentence of a failing cell, and a way to it", async () => {
    await open();
    await expect.poll(() => desk.read("B7")).toMatch(/^B7 shows #VALUE!: length must be a length/);
    await desk.read("A1");
    await desk.page.getByRole("tab", { name: /Problems/ }).click();
    await desk.press("Quote!B7");
    await desk.page.locator(".desk-message", { hasText: "B7 shows #VALUE!" }).waitFor();
  });

  it("puts a filled form into the selected cell", async () => {
    await open();
    await desk.read("B10");
    await desk.page.getByRole("combobox", { name: "What do you need to know?" }).fill("feet to metres");
    await desk.page.keyboard.press("Enter");
    await desk.page.getByLabel("length", { exact: true }).fill("3 ft");
    await desk.press("Put in the selected cell");
    // 3 x 0.3048 m (NIST SP 811)
    await expect.poll(() => desk.read("B10")).toBe("B10 0.9144");
  });

  it("draws a piece in colours and saves the picture", async () => {
    await open();
    await desk.page.getByRole("combobox", { name: "What do you need to know?" }).fill("count column");
    await desk.page.keyboard.press("Enter");
    await desk.page.getByText("Examples").click();
    await desk.page.getByRole("button", { name: "Fill in" }).first().click();
    await desk.page.getByLabel("Colour 1").fill("#123456");
    const svg = new TextDecoder().decode((await desk.download("Save as SVG")).bytes);
    expect(svg).toContain("#123456");
    const png = (await desk.download("Save as PNG")).bytes;
    // The signature of a PNG file (ISO/IEC 15948, 5.2).
    expect([...png.slice(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
  });

  it("finds the tables of a job, writes the formula over them and draws the pieces", async () => {
    await open();
    await desk.page.getByRole("tab", { name: "Prices" }).click();
    for (const [address, text] of Object.entries({
      J1: "name",
      K1: "kind",
      L1: "printed",
      M1: "colour",
      N1: "balloons",
      J2: "Table",
      K2: "bouquet",
      L2: "11",
      M2: "Navy",
      N2: "5",
    }))
      await desk.type(address, text);
    await desk.read("P1");
    await desk.page.getByRole("combobox", { name: "What do you need to know?" }).fill("PART_PLAN");
    await desk.page.keyboard.press("Enter");
    const formula = desk.page.locator(".bln-formula");
    await expect.poll(() => formula.textContent()).toContain("Prices!J1:N52");
    await expect.poll(() => desk.page.locator(".bln-picture g[stroke-width='0.6'] circle").count()).toBe(5);
    const svg = new TextDecoder().decode((await desk.download("Save as SVG")).bytes);
    expect(svg).toContain("Navy");
    await desk.press("Put in the selected cell");
    await expect.poll(() => desk.read("R2")).toBe("R2 Table");
    // The pieces are drawn without a formula too, and follow the sheet.
    const tab = desk.page.locator(".desk-panel").getByRole("tab", { name: "Pieces" });
    await tab.click();
    const circles = desk.page.locator(".desk-page:not([hidden]) .bln-picture g[stroke-width='0.6'] circle");
    await expect.poll(() => circles.count()).toBe(5);
    // The picture of the form behind it is the same; each has the colours that it points at.
    const shared = await desk.page.evaluate(() => {
      const ids = [...document.querySelectorAll(".bln-picture [id]")].map(({ id }) => id);
      return ids.filter((id, index) => ids.indexOf(id) !== index);
    });
    expect(shared).toEqual([]);
    await desk.type("N2", "8");
    await expect.poll(() => circles.count()).toBe(8);
    // Also while a cell of the table is the chosen one.
    await desk.read("L2");
    await desk.type("N2", "9");
    await desk.read("N2");
    await expect.poll(() => circles.count()).toBe(9);
    await desk.page.getByRole("tab", { name: "Quote" }).click();
  });

  it("makes a partner's copy without our functions, and puts them back", async () => {
    await open();
    const copy = await desk.download("Share", "Save a copy for a partner");
    expect(copy.name).toBe("regatta-evening (values).xlsx");
    const { sheets } = openWorkbook(copy.bytes).model;
    expect(sheets.map((sheet) => sheet.name)).toEqual(["Quote", "Prices", "Kept formulas"]);
    expect(
      sheets.flatMap((sheet) => sheet.cells).filter(({ formula }) => /BLN/.test(formula?.text ?? "")),
    ).toEqual([]);
    expect(cellOf(copy.bytes, 0, 4, 1)).toMatchObject({ value: 3.048 });
    await desk.open("copy.xlsx", copy.bytes);
    await desk.press("Share");
    await desk.press("Put formulas back");
    await desk.page.waitForFunction(() => document.title.startsWith("* copy.xlsx"));
    await desk.ready();
    const back = await desk.download("Save");
    expect(openWorkbook(back.bytes).model.sheets.map((sheet) => sheet.name)).toEqual(["Quote", "Prices"]);
    expect(cellOf(back.bytes, 0, 4, 1)).toMatchObject({ formula: { text: '_xldudf_BLN_METRES("10 ft")' } });
  });

  it("works with the keyboard alone", async () => {
    await open();
    await desk.read("B3");
    await desk.page.keyboard.press("F6");
    expect(await desk.page.evaluate(() => document.activeElement?.getAttribute("role"))).toBe("tab");
    await desk.page.keyboard.press("F6");
    expect(await desk.page.evaluate(() => document.activeElement?.textContent)).toBe("Open");
    await desk.page.keyboard.press("F6");
    await desk.page.keyboard.type("7");
    await desk.page.keyboard.press("Enter");
    await expect.poll(() => desk.read("B4")).toBe("B4 1.75");
    const coming = desk.page.waitForEvent("download");
    await desk.page.keyboard.press("Control+s");
    expect((await coming).suggestedFilename()).toBe("regatta-evening.xlsx");
  });

  it("has no serious accessibility fault", async () => {
    await open();
    await desk.page.evaluate(readFileSync("node_modules/axe-core/axe.min.js", "utf8"));
    for (const colorScheme of ["light", "dark"] as const) {
      for (const width of [1280, 390]) {
        await desk.page.emulateMedia({ colorScheme });
        await desk.page.setViewportSize({ width, height: 800 });
        for (const tab of ["Functions", "Problems", "Table"]) {
          await desk.page.getByRole("tab", { name: tab }).click();
          const found = await desk.page.evaluate(async () => {
            const { axe } = globalThis as unknown as { readonly axe: typeof Axe };
            const { violations } = await axe.run(document);
            return violations
              .filter(({ impact }) => impact === "serious" || impact === "critical")
              .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" | ")}`);
          });
          expect(found, `${tab} ${colorScheme} ${width}`).toEqual([]);
        }
      }
    }
    await desk.page.setViewportSize({ width: 1280, height: 800 });
  });

  it("fits a narrow window", async () => {
    const narrow = await openDesk(browser, address, quoteWorkbook(), {
      viewport: { width: 390, height: 800 },
    });
    const overflow = (): Promise<number> =>
      narrow.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    expect(await overflow()).toBe(0);
    expect(await narrow.page.getByRole("tab", { name: "Functions" }).isVisible()).toBe(false);
    await narrow.press("Panel");
    expect(await narrow.page.getByRole("tab", { name: "Functions" }).isVisible()).toBe(true);
    expect(await overflow()).toBe(0);
    expect(narrow.faults).toEqual([]);
    await narrow.close();
  });

  it("opens a large file, says that it computes, and can be stopped", { timeout: 120_000 }, async () => {
    const large = (most: number): Uint8Array => {
      const cells: Record<string, NewCell> = { A1: { value: 2 } };
      for (let row = 2; row <= most; row++) {
        cells[`A${row}`] = { value: 0, formula: `A${row - 1}+1` };
        cells[`B${row}`] = { value: 0, formula: `_xldudf_BLN_METRES(A${row}&" ft")` };
      }
      return createWorkbook({ ...PLAIN, sheets: [{ name: "Large", cells }] });
    };
    const rows = 4_000;
    const bytes = large(rows);
    await desk.open("regatta-evening.xlsx", quoteWorkbook());
    // Large enough that it is still being computed when the button is pressed, however fast the machine.
    await desk.page.setInputFiles("input[type=file]", {
      name: "larger.xlsx",
      mimeType: "",
      buffer: Buffer.from(large(6 * rows)),
    });
    await desk.press("Stop");
    const line = desk.page.locator(".desk-message[data-tone=error]", { hasText: /stopped/ });
    await line.waitFor();
    await desk.open("large.xlsx", bytes);
    // 2 and then one more for each row; 1 ft = 0.3048 m (NIST SP 811).
    await expect.poll(() => desk.read(`A${rows}`)).toBe(`A${rows} ${rows + 1}`);
    await expect.poll(() => desk.read("B11")).toBe("B11 3.6576");
    await desk.type("A1", "12");
    await expect.poll(() => desk.read("B11")).toBe("B11 6.7056");
  });

  it("works without a connection after the first visit", async () => {
    const own = await serveDesk();
    const offline = await openDesk(browser, own.address, undefined, { serviceWorkers: "allow" });
    await offline.page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await offline.page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    own.close();
    await offline.page.reload();
    await offline.ready();
    await offline.type("A2", '=BLN.METRES("2 ft")');
    await expect.poll(() => offline.read("A2")).toBe("A2 0.6096");
    expect(offline.faults).toEqual([]);
    await offline.close();
  });
});

it("takes and shows formulas as a reader with a decimal comma writes them", { timeout: 60_000 }, async () => {
  const german = await openDesk(browser, address, quoteWorkbook(), { locale: "de-DE" });
  // 12 clusters of four at 6 ft and 9 in: common practice, two clusters to the foot; 1,8288 m is 6 ft (NIST SP 811).
  await german.type("H2", "=BLN.COUNT_COLUMN(1,8288; 9)");
  await expect.poll(() => german.read("H2")).toBe("H2 48");
  await german.type("H3", "=BLN.COUNT_COLUMN(1,8,9)");
  await expect
    .poll(() => german.read("H3"))
    .toMatch(/^H3 \d+: height 1 m and balloon 8 in: did you mean height 1\.8 m\?/);
  await german.page.getByRole("button", { name: "Did you mean =BLN.COUNT_COLUMN(1.8,9)" }).click();
  await expect.poll(() => german.read("H3")).toMatch(/^H3 \d+$/);
  await german.page.locator("input[type=search]").fill("COUNT_COLUMN");
  await german.page.keyboard.press("Enter");
  await german.page.getByText("Examples", { exact: true }).click();
  await german.page.getByText("=BLN.COUNT_COLUMN(1,8; 10)", { exact: true }).waitFor();
  const reference = german.page.getByRole("link", { name: "Reference" });
  await reference.evaluate((link) => {
    link.addEventListener("click", (event) => {
      event.preventDefault();
    });
  });
  await reference.click();
  expect(await reference.getAttribute("href")).toBe("reference-comma.html");
  expect(german.faults).toEqual([]);
  await german.close();
});
