import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { launchBrowser } from "../browser";
import { openDesk, PLAIN, serveDesk } from "./desk-page";
import { openPhone } from "./phone";

let browser: Browser;
let served: Awaited<ReturnType<typeof serveDesk>>;

beforeAll(async () => {
  browser = await launchBrowser();
  served = await serveDesk();
}, 120_000);

afterAll(async () => {
  await browser.close();
  served.close();
});

const LIST = createWorkbook({
  ...PLAIN,
  sheets: [
    {
      name: "Offer",
      cells: {
        A1: { value: "item" },
        B1: { value: "price" },
        A2: { value: "arch & columns" },
        B2: { value: 1234.5, style: { numberFormat: "#,##0.00" } },
        A3: { value: "total" },
        B3: { value: 1234.5, formula: "B2", style: { numberFormat: "#,##0.00", bold: true } },
      },
    },
  ],
});

describe("keys and fingers", { timeout: 90_000 }, () => {
  it("copies the selected cells out as tabbed text and as a table", async () => {
    const desk = await openDesk(browser, served.address, LIST, {
      permissions: ["clipboard-read", "clipboard-write"],
    });
    await desk.read("A1:B3");
    await desk.page.keyboard.press("Control+c");
    const copied = (type: string): Promise<string> =>
      desk.page.evaluate(async (wanted) => {
        const [item] = await navigator.clipboard.read();
        return item?.types.includes(wanted) === true ? (await item.getType(wanted)).text() : "";
      }, type);
    await expect.poll(() => copied("text/plain")).not.toBe("");
    const text = (await copied("text/plain")).replaceAll("\r\n", "\n").trim();
    expect(text).toBe("item\tprice\narch & columns\t1,234.50\ntotal\t1,234.50");
    const html = await copied("text/html");
    // No name of another program, and styles whose quotes do not end their attribute.
    expect(html).not.toMatch(/<[\w-]+-html-origin/);
    expect(html).toMatch(/<td[^>]* style="[^"]*font-weight: bold;[^"]*font-family: '/);
    // Not by the page's own parser, which would apply the styles in it.
    const rows = html
      .split(/<tr\b/)
      .slice(1)
      .map((row) =>
        [...row.matchAll(/<td\b[^>]*>([^<]*)/g)].map(([, cell = ""]) => cell.replace("&amp;", "&")),
      );
    expect(rows).toEqual([
      ["item", "price"],
      ["arch & columns", "1,234.50"],
      ["total", "1,234.50"],
    ]);
    expect(desk.faults).toEqual([]);
    await desk.close();
  });

  it("selects cells as a finger that rested is drawn over them", async () => {
    const { phone, touch } = await openPhone(browser, served.address, LIST);
    const canvas = await phone.page.locator(".desk-grid canvas").last().boundingBox();
    // Headings are 46 and 20 pixels, columns 64 and rows 20: the middle of A1, then of B3.
    const [left, top] = [(canvas?.x ?? 0) + 46, (canvas?.y ?? 0) + 20];
    await touch("touchStart", left + 32, top + 10);
    await phone.page.waitForTimeout(700);
    for (let step = 1; step <= 8; step++) await touch("touchMove", left + 32 + 8 * step, top + 10 + 5 * step);
    await touch("touchEnd");
    await phone.press("Bold (Ctrl+B)");
    const { bytes } = await phone.download("Save");
    const { model } = openWorkbook(bytes);
    const bold = model.sheets[0]?.cells.filter(({ style }) => model.styles[style]?.bold === true) ?? [];
    expect(bold.map(({ row, column }) => `${String(row)},${String(column)}`)).toEqual([
      "0,0",
      "0,1",
      "1,0",
      "1,1",
      "2,0",
      "2,1",
    ]);
    expect(phone.faults).toEqual([]);
    await phone.close();
  });
});
