import axe from "axe-core";
import type { Page } from "playwright-core";

/** What an accessibility checker (axe-core, WCAG 2.1 A and AA) finds wrong, and whether the page is wider than its window. */
export async function pageFaults(page: Page, view: string): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  const violations = await page.evaluate(async () => {
    const { axe: checker } = window as unknown as { axe: typeof axe };
    const found = await checker.run(document, {
      runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"],
    });
    return found.violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(" | ")}`,
    );
  });
  const isWide = await page.evaluate(
    () => document.documentElement.scrollWidth > document.documentElement.clientWidth,
  );
  return [...violations, ...(isWide ? ["wider than the window"] : [])].map((fault) => `${view}: ${fault}`);
}
