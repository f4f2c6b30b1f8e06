import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { paperDocument, sheetPaper } from "../../src/paper/markup";
import { openWorkbook } from "../../src/workbook/read";
import type { SheetDescription } from "../../src/workbook/create-sheet";
import { launchBrowser } from "../browser";
import { pdfPages } from "./pdf";
import { priceSheet, printWorkbook } from "./print-workbook";

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
}, 120_000);
afterAll(async () => {
  await browser.close();
});

const documentOf = (bytes: Uint8Array): string =>
  paperDocument(sheetPaper(openWorkbook(bytes), 0, { file: "f.xlsx", date: "", time: "" }), "test");

async function pages(bytes: Uint8Array): Promise<number> {
  const page = await browser.newPage();
  await page.setContent(documentOf(bytes));
  const pdf = await page.pdf({ preferCSSPageSize: true });
  await page.close();
  return pdfPages(new Uint8Array(pdf)).count;
}

/** What each cell shows, as drawn. */
async function shown(sheet: SheetDescription): Promise<readonly string[]> {
  const page = await browser.newPage();
  await page.setContent(documentOf(printWorkbook([sheet])));
  const texts = await page.locator("td").allInnerTexts();
  await page.close();
  return texts;
}

describe("a sheet on paper", { timeout: 60_000 }, () => {
  it("takes as many pages as it has rows for, one where it has to, and a new one at a break", async () => {
    const long = priceSheet(100);
    // 102 rows of 20 pixels against 210 mm less 1.2 inches: 678 pixels, so 33 rows a page with the repeated one.
    expect(await pages(printWorkbook([long]))).toBe(4);
    const one = { ...long, page: { orientation: "portrait", fit: { wide: 1, tall: 1 } } as const };
    expect(await pages(printWorkbook([one]))).toBe(1);
    const breaks = '|<rowBreaks count="1" manualBreakCount="1"><brk id="4" max="16383" man="1"/></rowBreaks>';
    expect(await pages(printWorkbook([priceSheet(6)]))).toBe(1);
    expect(await pages(printWorkbook([priceSheet(6)], breaks))).toBe(2);
  });

  it("puts columns that do not fit on pages of their own, unless they have to fit", async () => {
    const columnWidths = { A: 60, B: 60, C: 60 };
    const cells = { A1: { value: "a" }, B1: { value: "b" }, C1: { value: "c" } };
    const setup = { orientation: "portrait" } as const;
    // 420 pixels each on 210 mm less an inch: 698 pixels.
    expect(await pages(printWorkbook([{ name: "S", columnWidths, cells, page: setup }]))).toBe(3);
    expect(await pages(printWorkbook([{ name: "S", columnWidths, cells }]))).toBe(1);
  });

  it("cuts no text that fits its column in the workbook's own font, whatever font this machine has", async () => {
    // Ordinary words take less room than the digits that a width counts: 0.44 to 0.48 of the size in Calibri, a digit 0.507.
    const text = "Deposit with the order, balance within 14 days after the event";
    const cells = { A1: { value: text }, B1: { value: "beside" } };
    const page = await browser.newPage();
    const sheet = { name: "S", columnWidths: { A: text.length }, cells };
    await page.setContent(documentOf(printWorkbook([sheet])));
    const [inner, outer] = await page
      .locator("td div")
      .first()
      .evaluate((element) => [element.scrollWidth, element.clientWidth] as const);
    await page.close();
    expect(inner).toBeLessThanOrEqual(outer);
  });

  it("shows values by their number format, never a part of a number, and markup as text", async () => {
    const texts = await shown({
      name: "S",
      columnWidths: { A: 12, B: 4 },
      cells: {
        A1: { value: 0.256, style: { numberFormat: "0.0%" } },
        B1: { value: 1234567.89, style: { numberFormat: "#,##0.00" } },
        A2: { value: "<b>bold</b> & so" },
        B2: { value: "x" },
        A3: { value: { error: "#N/A" } },
        A4: { value: true },
      },
    });
    expect(texts[0]).toBe("25.6%");
    expect(texts[1]).toMatch(/^#+$/);
    expect(texts.slice(2)).toEqual(["<b>bold</b> & so", "x", "#N/A", "", "TRUE", ""]);
  });

  it("lets a long text go on over empty cells only", async () => {
    const page = await browser.newPage();
    const long = "a text much longer than its own column";
    const cells = { A1: { value: long }, A2: { value: long }, B2: { value: "beside" }, C3: { value: 1 } };
    await page.setContent(
      documentOf(printWorkbook([{ name: "S", columnWidths: { A: 8, B: 20, C: 20 }, cells }])),
    );
    const widths = await page
      .locator("td:first-child > div")
      .evaluateAll((divs) => divs.map((div) => div.getBoundingClientRect().width));
    // Columns of 56, 140 and 140 pixels, less a padding of 3 at each side.
    expect(widths.map(Math.round)).toEqual([330, 50]);
    await page.close();
  });

  it("draws merged cells as one, leaves hidden rows and columns out", async () => {
    const merged = await shown({
      name: "S",
      merges: ["A1:C1"],
      cells: { A1: { value: "wide" }, A2: { value: 1 }, B2: { value: 2 }, C2: { value: 3 } },
    });
    expect(merged).toEqual(["wide", "1", "2", "3"]);
  });
});
