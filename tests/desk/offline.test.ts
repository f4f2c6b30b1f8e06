import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { serveFolder } from "../../src/recalc/serve";
import { launchBrowser } from "../browser";
import { openDesk } from "./desk-page";

let browser: Browser;
let folder = "";

beforeAll(async () => {
  browser = await launchBrowser();
  folder = mkdtempSync(join(tmpdir(), "desk-"));
  cpSync("dist/desk", folder, { recursive: true });
}, 120_000);

afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

/** Changes a file of the build that is served. */
function rewrite(file: string, change: (text: string) => string): void {
  const path = join(folder, file);
  const before = readFileSync(path, "utf8");
  const after = change(before);
  if (after === before) throw new Error(`${file} is as it was`);
  writeFileSync(path, after);
}

/** The next build in the place of the one before: another page, another script, another mark. */
function update(version: string): void {
  const before = readFileSync(join(folder, "version.txt"), "utf8").trim();
  rewrite("version.txt", () => version);
  rewrite("offline.js", (text) => text.replaceAll(before, version));
  rewrite("index.html", (text) =>
    text.replace(/<html lang="en"[^>]*>/, `<html lang="en" data-build="${version}">`),
  );
  rewrite("desk.js", (text) => `document.documentElement.dataset.script = "${version}";\n${text}`);
}

it(
  "shows the new page on the first load after an update, and keeps it for later",
  { timeout: 120_000 },
  async () => {
    const { server, address } = await serveFolder(folder, 0);
    const desk = await openDesk(browser, address, undefined, { serviceWorkers: "allow" });
    const { page } = desk;
    const built = (): Promise<readonly (string | undefined)[]> =>
      page.evaluate(() => {
        const { build, script } = document.documentElement.dataset;
        return [build, script];
      });
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    expect(await built()).toEqual([undefined, undefined]);
    update("0000000000000001");
    await page.goto(address);
    await desk.ready();
    expect(await built()).toEqual(["0000000000000001", "0000000000000001"]);
    // The new worker takes over in the background; from then on the new page needs no connection.
    await expect
      .poll(() => page.evaluate(() => caches.keys()), { timeout: 30_000 })
      .toEqual(["desk-0000000000000001"]);
    server.close();
    server.closeAllConnections();
    await page.reload();
    await desk.ready();
    expect(await built()).toEqual(["0000000000000001", "0000000000000001"]);
    expect(desk.faults).toEqual([]);
    await desk.close();
  },
);
