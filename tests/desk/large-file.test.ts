import { expect, it } from "vitest";
import { openWorkbook } from "../../src/workbook/read";
import { largeFile } from "../bench/large-file";
import { sharedDesk } from "./shared-desk";

const { desk } = await sharedDesk();

/** What the status line says is under way and how far, from now on. */
async function watchWork(): Promise<() => Promise<readonly string[]>> {
  await desk.page.evaluate(() => {
    const seen: string[] = [];
    Object.assign(window, { seen });
    const line = document.querySelector(".desk-working");
    const note = (): void => {
      const share = line?.querySelector("progress")?.getAttribute("value") ?? "";
      seen.push(`${line?.querySelector(".desk-work")?.textContent ?? ""} ${share}`);
    };
    if (line) new MutationObserver(note).observe(line, { subtree: true, attributes: true, childList: true });
  });
  return () => desk.page.evaluate(() => (window as unknown as { seen: readonly string[] }).seen);
}

const sharesOf = (seen: readonly string[], doing: string): readonly number[] =>
  seen.filter((line) => line.startsWith(`${doing} 0.`)).map((line) => Number(line.split(" ")[1]));

it("opens and saves a large file with progress, and stops on request", { timeout: 300_000 }, async () => {
  const file = { name: "large.xlsx", mimeType: "", buffer: Buffer.from(largeFile()) };
  const { page } = desk;
  page.setDefaultTimeout(120_000);

  await page.setInputFiles("input[type=file]", file);
  await page.locator(".desk-work", { hasText: "Opening" }).waitFor();
  await desk.press("Stop");
  await page.locator(".desk-message[data-tone=error]", { hasText: "is still open" }).waitFor();
  expect(await page.title()).toContain("regatta-evening.xlsx");

  const opening = await watchWork();
  await page.setInputFiles("input[type=file]", file);
  await page.waitForFunction(() => document.title.startsWith("large.xlsx"), undefined, { timeout: 120_000 });
  await page.locator(".desk-grid[aria-busy=false]").waitFor({ timeout: 120_000 });
  expect(sharesOf(await opening(), "Opening").length).toBeGreaterThan(5);

  await desk.type("H5", "12.5");
  await desk.read("H6");
  await page.keyboard.press("Control+b");
  await desk.press("Save");
  await page.locator(".desk-work", { hasText: "Saving" }).waitFor();
  await desk.press("Stop");
  await page.locator(".desk-message[data-tone=error]", { hasText: "was not saved" }).waitFor();

  const saving = await watchWork();
  const { bytes } = await desk.download("Save");
  expect(sharesOf(await saving(), "Saving").length).toBeGreaterThan(5);
  const { model } = openWorkbook(bytes);
  const cellAt = (row: number): unknown => {
    const cell = model.sheets[0]?.cells.find((one) => one.row === row && one.column === 7);
    return cell && { value: cell.value, isBold: model.styles[cell.style]?.bold === true };
  };
  expect(cellAt(4)).toEqual({ value: 12.5, isBold: false });
  expect(cellAt(5)).toMatchObject({ isBold: true });
  expect(model.sheets[0]?.cells.length).toBe(600_000);
  expect(desk.faults).toEqual([]);
});
