import { it } from "vitest";
import { readFileSync } from "node:fs";
import { launchBrowser } from "../browser";
import { pageFaults } from "../page-faults";
import { openDesk, serveDesk } from "./desk-page";
it("looks", async () => {
  const browser = await launchBrowser();
  const served = await serveDesk();
  for (const [width, scheme] of [[1280, "light"], [1280, "dark"], [768, "light"], [390, "dark"]] as const) {
    const desk = await openDesk(browser, served.address, new Uint8Array(readFileSync("sample-workbooks/regatta-evening.xlsx")), { viewport: { width, height: 800 }, colorScheme: scheme });
    await new Promise((r) => setTimeout(r, 1500));
    await desk.page.screenshot({ path: `/tmp/v-${width}-${scheme}.png` });
    if (width !== 768) console.log(width, scheme, (await pageFaults(desk.page, "x")).map((f) => f.slice(0, 700)).join("\n"));
    console.log("faults", desk.faults, await desk.page.locator(".desk-message").textContent());
    if (width === 1280 && scheme === "light") {
      await desk.page.getByRole("tab", { name: "Table" }).click();
      await desk.press("Rows");
      await new Promise((r) => setTimeout(r, 500));
      await desk.page.screenshot({ path: `/tmp/v-table.png` });
    }
    await desk.close();
  }
  await browser.close(); served.close();
}, 120000);
