import { readFileSync } from "node:fs";
import type { Server } from "node:http";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { serveFolder } from "../../src/recalc/serve";
import { createWorkbook } from "../../src/workbook/create";

const SAMPLE = "regatta-evening.xlsx";

/** A server for the built page. */
export async function serveDesk(): Promise<{ readonly address: string; close(): void }> {
  const { server, address } = await serveFolder("dist/desk", 0);
  return {
    address,
    close: () => {
      closeAll(server);
    },
  };
}

function closeAll(server: Server): void {
  server.close();
  server.closeAllConnections();
}

/** The page with a workbook of the test's own in place of the sample. */
export interface DeskPage {
  readonly page: Page;
  /** What must never happen: requests elsewhere, policy violations, errors. */
  readonly faults: readonly string[];
  ready(): Promise<void>;
  /** Opens a file as a person would, whatever has changed. */
  open(name: string, bytes: Uint8Array): Promise<void>;
  /** Selects a cell and gives the line that tells what it shows. */
  read(address: string): Promise<string>;
  type(address: string, text: string): Promise<void>;
  press(name: string): Promise<void>;
  /** Presses a button and gives the file that comes down. */
  download(...names: readonly string[]): Promise<{ readonly name: string; readonly bytes: Uint8Array }>;
  close(): Promise<void>;
}

/** Opens the page; `workbook` undefined leaves the sample where the build has one. */
export async function openDesk(
  browser: Browser,
  address: string,
  workbook: Uint8Array | undefined,
  options: BrowserContextOptions = {},
): Promise<DeskPage> {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 800 },
    serviceWorkers: "block",
    ...options,
  });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("request", (request) => {
    const url = request.url();
    if (!url.startsWith(address) && !/^(?:data|blob):/.test(url)) faults.push(`asked for ${url}`);
  });
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error" && !message.text().startsWith("Failed to load resource"))
      faults.push(message.text());
  });
  await page.addInitScript(() => {
    document.addEventListener("securitypolicyviolation", (event) => {
      console.error(`policy: ${event.violatedDirective} ${event.blockedURI} ${event.sample}`);
    });
  });
  if (workbook) {
    await page.route(`**/${SAMPLE}`, (route) => route.fulfill({ body: Buffer.from(workbook) }));
  }
  const state = (): Promise<unknown> => page.locator(".desk-grid[aria-busy=false]").waitFor();
  const select = async (cell: string): Promise<void> => {
    const box = page.locator(".desk-grid input").first();
    await box.click();
    await box.fill(cell);
    await box.press("Enter");
  };
  const desk: DeskPage = {
    page,
    faults,
    ready: async () => {
      await state();
    },
    async open(name, bytes) {
      const isChanged = (await page.title()).startsWith("* ");
      await page.setInputFiles("input[type=file]", { name, mimeType: "", buffer: Buffer.from(bytes) });
      if (isChanged) await desk.press(`Open ${name}`);
      await page.waitForFunction((title) => document.title.startsWith(title), name);
      await state();
    },
    async read(cell) {
      await select(cell);
      const plain = cell.replace(/:.*/, "");
      const line = page.locator(".desk-message", { hasText: new RegExp(`^${plain} `) });
      return (await line.textContent()) ?? "";
    },
    async type(cell, text) {
      await desk.read(cell);
      await page.keyboard.type(text);
      await page.keyboard.press("Enter");
      await page.waitForFunction(() => document.title.startsWith("* "));
      await state();
    },
    async press(name) {
      await page.getByRole("button", { name, exact: true }).click();
    },
    async download(...names) {
      const coming = page.waitForEvent("download");
      for (const name of names) await desk.press(name);
      const file = await coming;
      return { name: file.suggestedFilename(), bytes: new Uint8Array(readFileSync(await file.path())) };
    },
    async close() {
      await context.close();
    },
  };
  await page.goto(address);
  await desk.ready();
  return desk;
}

/** What a workbook of the tests says about itself. */
export const PLAIN = { author: "test", generator: "test", date: "2026-01-01T00:00:00Z" };

/** A small quote: a price by name, lengths by our functions, a table that grows, a cell that fails. */
export function quoteWorkbook(): Uint8Array {
  return createWorkbook({
    ...PLAIN,
    names: [{ name: "price_each", text: "Prices!$B$2" }],
    sheets: [
      {
        name: "Quote",
        columnWidths: { A: 22 },
        merges: ["A1:C1"],
        frozen: { rows: 1, columns: 0 },
        cells: {
          A1: { value: "Regatta", style: { bold: true, fill: "#dfe7f0" } },
          A3: { value: "balloons" },
          B3: { value: 120 },
          A4: { value: "cost" },
          B4: { value: 0, formula: "B3*price_each", style: { numberFormat: "0.00" } },
          A5: { value: "rope" },
          B5: { value: 0, formula: '_xldudf_BLN_METRES("10 ft")' },
          A6: { value: "rows" },
          B6: { value: 2 },
          A7: { value: "bad" },
          B7: { value: 0, formula: '_xldudf_BLN_METRES("6 furlongs")' },
          D2: {
            value: 1,
            formula: {
              text: "_xlfn.SEQUENCE(B6)",
              kind: "dynamic",
              range: { firstRow: 1, firstColumn: 3, lastRow: 2, lastColumn: 3 },
            },
          },
          D3: { value: 2 },
          F2: { value: 0, formula: "SUM(_xlfn.ANCHORARRAY(D2))" },
        },
      },
      {
        name: "Prices",
        cells: {
          A1: { value: "item" },
          B1: { value: "price" },
          A2: { value: "balloon" },
          B2: { value: 0.25 },
        },
      },
    ],
  });
}
