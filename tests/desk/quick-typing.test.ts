import { expect, it } from "vitest";
import { createWorkbook } from "../../src/workbook/create";
import { PLAIN } from "./desk-page";
import { sharedDesk } from "./shared-desk";

/** Prices whose total is in sight, and formulas enough that computing them takes a moment. */
function pricedBook(): Uint8Array {
  const formulas = Array.from(
    { length: 400 },
    (_, at) => [`F${at + 1}`, { value: 0, formula: `SUM($A$1:$A$9)*${at}` }] as const,
  );
  const cells = { D1: { value: 0, formula: "SUM(A1:B9)" }, ...Object.fromEntries(formulas) };
  return createWorkbook({ ...PLAIN, sheets: [{ name: "Prices", cells }] });
}

const { desk } = await sharedDesk(pricedBook());
const { keyboard } = desk.page;

/** What the status line says of the selected cell once nothing moves any more. */
const selected = (): Promise<string | null> => desk.page.locator(".desk-message").textContent();

it("puts each price into the cell that the key before led to, however fast they come", async () => {
  await desk.read("A1");
  for (const key of ["5", "Enter", "7", "Tab", "9", "Enter", "2", "ArrowRight", "3", "ArrowUp", "4", "Enter"])
    await keyboard.press(key);
  await desk.ready();
  // Enter after Tab goes back to the column where the row began; an arrow ends typing and goes its way.
  for (const [cell, value] of [
    ["A1", "5"],
    ["A2", "7"],
    ["B2", "4"],
    ["A3", "2"],
    ["B3", "3"],
    ["D1", "21"],
  ] as const)
    await expect.poll(() => desk.read(cell)).toBe(`${cell} ${value}`);
});

it("comes to the next cell by itself, and tells what that holds", async () => {
  await desk.type("A1", "6");
  await expect.poll(selected).toBe("A2 7");
  await desk.read("A2");
  await keyboard.type("8");
  await keyboard.press("Tab");
  await expect.poll(selected).toBe("B2 4");
});

it("finds the way by mouse and by address from where a key led", async () => {
  await desk.read("A1");
  await keyboard.type("11");
  await keyboard.press("Enter");
  await desk.page.getByRole("button", { name: "Undo", exact: true }).click();
  await expect.poll(() => desk.read("A1")).toBe("A1 6");
  await keyboard.type("12");
  await keyboard.press("Enter");
  expect(await desk.read("D1")).toMatch(/^D1 /);
  await keyboard.press("ArrowLeft");
  await expect.poll(selected).toMatch(/^C1 /);
});
