import { describe, expect, it } from "vitest";
import { parseCell } from "../../src/formula/address";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { PLAIN } from "./desk-page";
import { sharedDesk } from "./shared-desk";

const { desk } = await sharedDesk();

interface Cell {
  readonly value: string | number;
  readonly formula?: string;
  readonly style?: object;
}

/** A price list: size, price, packs, and what they cost by a formula of the row. */
function priceList(more: Readonly<Record<string, Cell>> = {}): Uint8Array {
  const rows: readonly (readonly [string, number, number])[] = [
    ["28 cm", 0.25, 4],
    ["13 cm", 0.12, 10],
    ["40 cm", 0.9, 2],
    ["13 cm", 0.15, 1],
  ];
  const cells: Record<string, Cell> = {
    A1: { value: "size" },
    B1: { value: "price" },
    C1: { value: "packs" },
    D1: { value: "cost" },
    F1: { value: 100 },
  };
  for (const [index, [size, price, packs]] of rows.entries()) {
    const row = String(index + 2);
    cells[`A${row}`] = { value: size };
    cells[`B${row}`] = { value: price, ...(price === 0.9 && { style: { bold: true, fill: "#ffff00" } }) };
    cells[`C${row}`] = { value: packs };
    cells[`D${row}`] = { value: price * packs * 100, formula: `B${row}*C${row}*$F$1` };
  }
  const tables = [{ name: "Prices", range: "A1:D5" }];
  return createWorkbook({ ...PLAIN, sheets: [{ name: "List", cells: { ...cells, ...more }, tables }] });
}

async function saved(): Promise<ReturnType<typeof openWorkbook>> {
  return openWorkbook((await desk.download("Save")).bytes);
}

function cellOf({ model }: ReturnType<typeof openWorkbook>, address: string) {
  const place = parseCell(address);
  return model.sheets[0]?.cells.find(({ row, column }) => row === place?.row && column === place.column);
}

const changed = (): Promise<unknown> => desk.page.waitForFunction(() => document.title.startsWith("* "));

describe("a price list", { timeout: 60_000 }, () => {
  it("sorts rows with formulas, which stay with their row, and its looks with it", async () => {
    await desk.open("prices.xlsx", priceList());
    // One cell of a table stands for the whole table.
    await desk.read("B3");
    await desk.press("Data");
    await desk.press("Sort Z to A");
    await changed();
    await desk.ready();
    // 0.9 * 2 * 100, 0.25 * 4 * 100, 0.15 * 1 * 100, 0.12 * 10 * 100.
    for (const [address, cost] of [
      ["D2", 180],
      ["D3", 100],
      ["D4", 15],
      ["D5", 120],
    ] as const)
      await expect.poll(() => desk.read(address)).toBe(`${address} ${String(cost)}`);
    const file = await saved();
    expect(cellOf(file, "A2")?.value).toBe("40 cm");
    expect(cellOf(file, "D2")?.formula?.text).toBe("B2*C2*$F$1");
    expect(file.model.styles[cellOf(file, "B2")?.style ?? 0]).toMatchObject({ bold: true, fill: "#ffff00" });
    expect(file.model.styles[cellOf(file, "B4")?.style ?? 0]?.bold).toBeUndefined();
    await desk.press("Undo");
    await expect.poll(() => desk.read("A2")).toBe("A2 28 cm");
  });

  it("says which formula would point elsewhere, and sorts nothing", async () => {
    await desk.open(
      "prices.xlsx",
      priceList({ E2: { value: 100, formula: "D2" }, E3: { value: 220, formula: "E2+D3" } }),
    );
    await desk.read("B2:E5");
    await desk.press("Data");
    await desk.press("Sort A to Z");
    await desk.page
      .locator(".desk-message[data-tone=error]", { hasText: "E3 points at another row" })
      .waitFor();
    expect(await desk.page.title()).not.toMatch(/^\*/);
  });

  it("filters by several entries of several columns, in the file too", async () => {
    await desk.open("prices.xlsx", priceList());
    await desk.read("A3");
    await desk.press("Data");
    await desk.press("Filter by entries");
    const dialog = desk.page.getByRole("dialog", { name: "Filter by size" });
    await dialog.getByRole("checkbox", { name: "40 cm" }).uncheck();
    await dialog.getByRole("button", { name: "Filter", exact: true }).click();
    await changed();
    await desk.ready();
    let file = await saved();
    expect([...(file.model.sheets[0]?.hiddenRows ?? [])]).toEqual([3]);
    // A heading opens the filter by key.
    expect(await desk.read("C1")).toBe("C1 packs (Alt+Down filters)");
    await desk.page.keyboard.press("Alt+ArrowDown");
    const second = desk.page.getByRole("dialog", { name: "Filter by packs" });
    await second.getByRole("button", { name: "None" }).click();
    await second.getByRole("checkbox", { name: "10", exact: true }).check();
    await second.getByRole("checkbox", { name: "2", exact: true }).check();
    await desk.page.keyboard.press("Enter");
    await second.waitFor({ state: "detached" });
    await changed();
    await desk.ready();
    file = await saved();
    expect([...(file.model.sheets[0]?.hiddenRows ?? [])].sort()).toEqual([1, 3, 4]);
    const [part = ""] = file.parts.linked(file.model.sheets[0]?.part ?? "", "table");
    // ECMA-376 part 1, 18.3.2.7 and 18.3.2.8.
    expect(file.parts.readText(part)).toContain(
      '<filterColumn colId="0"><filters><filter val="28 cm"/><filter val="13 cm"/></filters></filterColumn>' +
        '<filterColumn colId="2"><filters><filter val="10"/><filter val="2"/></filters></filterColumn>',
    );
    await desk.read("A1");
    await desk.press("Data");
    await desk.press("Sort A to Z");
    await desk.page.locator(".desk-message[data-tone=error]", { hasText: "show all rows first" }).waitFor();
    await desk.press("Data");
    await desk.press("All rows");
    await expect.poll(async () => [...((await saved()).model.sheets[0]?.hiddenRows ?? [])]).toEqual([]);
  });

  it("opens the filter of a heading by its mark", async () => {
    await desk.open("prices.xlsx", priceList());
    // The mark is at the right end of A1: row headings are 46, column headings 20, columns 64 and rows 20 pixels.
    await desk.read("A1");
    await desk.press("Data");
    await desk.press("Only rows like this");
    await changed();
    await desk.ready();
    const canvas = await desk.page.locator(".desk-grid canvas").last().boundingBox();
    await desk.page.mouse.click((canvas?.x ?? 0) + 46 + 64 - 8, (canvas?.y ?? 0) + 20 + 12);
    const dialog = desk.page.getByRole("dialog", { name: "Filter by size" });
    await dialog.waitFor();
    await desk.page.keyboard.press("Escape");
    await dialog.waitFor({ state: "detached" });
  });
});
