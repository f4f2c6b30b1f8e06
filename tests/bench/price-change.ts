import type { Browser } from "playwright-core";
import { openDesk } from "../desk/desk-page";
import { largeWorkbook } from "./large-workbook";

declare global {
  interface Window {
    /** When the last Enter went down, and what has been drawn since, each with the time of its frame. */
    watched?: { pressed: number; readonly drawn: Map<string, number> };
  }
}

/** A workbook of `rows` rows whose total stands in sight beside the list of prices. */
export function pricedWorkbook(rows: number): Uint8Array {
  return largeWorkbook(rows, undefined, `<c r="H1"><f>ROUND(SUM(D1:D${rows})/10,0)</f><v>0</v></c>`);
}

/** That total where the first price of the list is another one, written out in JavaScript. */
export function totalAt(price: number, rows: number): number {
  let total = 0;
  for (let index = 0; index < rows; index++) {
    const item = (index * 7) % 500;
    total += (item === 0 ? price : 1 + (item % 13) / 4) * (1 + (index % 97)) * 1.2;
  }
  return Math.round(total / 10);
}

/** Runs in the page before its own code: what is drawn is seen where text is written onto a canvas. */
export function watch(): void {
  const watched = { pressed: 0, drawn: new Map<string, number>() };
  window.watched = watched;
  const { fillText } = CanvasRenderingContext2D.prototype;
  CanvasRenderingContext2D.prototype.fillText = function (...args) {
    fillText.apply(this, args);
    const [text] = args;
    if (watched.drawn.has(text)) return;
    // A frame's work is done once a task gets its turn after it.
    watched.drawn.set(text, NaN);
    setTimeout(() => watched.drawn.set(text, performance.now()));
  };
  addEventListener(
    "keydown",
    ({ key, timeStamp }) => {
      if (key !== "Enter") return;
      watched.pressed = timeStamp;
      watched.drawn.clear();
    },
    { capture: true },
  );
}

/** Milliseconds from the key that ends typing a price to the total that is drawn, for each price in turn. */
export async function priceChanges(
  browser: Browser,
  address: string,
  rows: number,
  prices: readonly number[],
): Promise<readonly number[]> {
  const desk = await openDesk(browser, address, undefined);
  try {
    await desk.page.addInitScript(watch);
    await desk.page.reload();
    await desk.ready();
    await desk.open("prices.xlsx", pricedWorkbook(rows));
    const times: number[] = [];
    for (const price of prices) {
      await desk.read("K1");
      await desk.page.keyboard.type(String(price));
      await desk.page.keyboard.press("Enter");
      const shown = await desk.page.waitForFunction(
        (total) => {
          const at = window.watched?.drawn.get(total);
          return at !== undefined && !Number.isNaN(at) && at - (window.watched?.pressed ?? 0);
        },
        String(totalAt(price, rows)),
        { timeout: 120_000 },
      );
      times.push(Number(await shown.jsonValue()));
      await desk.ready();
    }
    return times;
  } finally {
    await desk.close();
  }
}
