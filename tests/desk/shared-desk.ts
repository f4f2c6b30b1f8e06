import type { Browser } from "playwright-core";
import { afterAll, afterEach, expect } from "vitest";
import { launchBrowser } from "../browser";
import { openDesk, quoteWorkbook, serveDesk, type DeskPage } from "./desk-page";

/** A browser with one page, which all tests of a file use. */
export interface SharedDesk {
  readonly browser: Browser;
  /** Where the page is served. */
  readonly address: string;
  readonly desk: DeskPage;
}

/**
 * Opens the page for the tests of the file that calls it, and closes it behind them. Every test ends with the promise kept:
 * nothing asked elsewhere, no policy broken, no error.
 */
export async function sharedDesk(workbook = quoteWorkbook()): Promise<SharedDesk> {
  const browser = await launchBrowser();
  const served = await serveDesk();
  const desk = await openDesk(browser, served.address, workbook);
  afterEach(() => {
    expect(desk.faults).toEqual([]);
  });
  afterAll(async () => {
    await desk.close();
    await browser.close();
    served.close();
  });
  return { browser, address: served.address, desk };
}
