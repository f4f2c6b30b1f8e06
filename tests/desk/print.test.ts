import { describe, expect, it } from "vitest";
import { pdfPages } from "../paper/pdf";
import { priceSheet, printWorkbook } from "../paper/print-workbook";
import { sharedDesk } from "./shared-desk";

const { desk } = await sharedDesk(printWorkbook([priceSheet(5)]));

await desk.page.evaluate(() => {
  // The window that asks for a printer stays away; what it would print is on the page.
  Object.assign(window, { printed: 0, print: () => Object.assign(window, { printed: 1 }) });
});

/** Presses Print and gives what the printer would. */
async function printed(): Promise<{ readonly text: string; readonly pdf: Uint8Array }> {
  await desk.page.evaluate(() => Object.assign(window, { printed: 0 }));
  await desk.press("Print");
  await desk.page.waitForFunction(() => (window as unknown as { printed: number }).printed === 1);
  await desk.page.emulateMedia({ media: "print" });
  const text = await desk.page.evaluate(() => document.body.innerText);
  const pdf = await desk.page.pdf({ preferCSSPageSize: true, printBackground: true });
  await desk.page.emulateMedia({ media: null });
  return { text, pdf: new Uint8Array(pdf) };
}

describe("printing a sheet", { timeout: 60_000 }, () => {
  it("prints the print area on the paper of the page setup, and nothing of the page around it", async () => {
    const { text, pdf } = await printed();
    expect(text.split(/\s*\n\s*/).filter((line) => line !== "")).toEqual([
      "Prices of the season",
      "item",
      "price",
      ...[1, 2, 3, 4, 5].flatMap((row) => [`item ${String(row)}`, (row / 4).toFixed(2)]),
    ]);
    const { count, size } = pdfPages(pdf);
    expect(count).toBe(1);
    // A4 lying: ISO 216, 297 x 210 mm, in 72nds of an inch.
    expect(size[0]).toBeCloseTo((297 / 25.4) * 72, -0.5);
    expect(size[1]).toBeCloseTo((210 / 25.4) * 72, -0.5);
  });

  it("prints what was typed and computed since", async () => {
    await desk.type("B7", "=2*1000");
    const { text } = await printed();
    expect(text).toMatch(/item 5\s+2,000\.00/);
  });

  it("says why nothing is printed, and what to press where the browser's own menu is used", async () => {
    await desk.open("empty.xlsx", printWorkbook([{ name: "Bare", cells: {} }]));
    await desk.press("Print");
    await expect
      .poll(() => desk.page.locator(".desk-message").textContent())
      .toBe('nothing was printed: the sheet "Bare" has nothing to print');
    await desk.page.evaluate(() => dispatchEvent(new Event("afterprint")));
    await desk.page.emulateMedia({ media: "print" });
    expect(await desk.page.evaluate(() => document.body.innerText)).toContain("Print with the button");
    await desk.page.emulateMedia({ media: null });
  });
});
