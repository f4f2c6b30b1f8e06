import type { Route } from "playwright-core";
import { describe, expect, it } from "vitest";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { parseCell } from "../../src/formula/address";
import type { CellStyle, SheetModel, WorkbookCell } from "../../src/workbook/model";
import { openDesk, PLAIN, quoteWorkbook } from "./desk-page";
import { openPhone } from "./phone";
import { sharedDesk } from "./shared-desk";

const { address, browser, desk } = await sharedDesk();

const open = (bytes = quoteWorkbook()): Promise<void> => desk.open("regatta-evening.xlsx", bytes);

interface Saved {
  sheet(index: number): SheetModel | undefined;
  cell(address: string, sheet?: number): WorkbookCell | undefined;
  style(address: string): CellStyle | undefined;
}

async function saved(): Promise<Saved> {
  const { model } = openWorkbook((await desk.download("Save")).bytes);
  const cell = (address: string, sheet = 0): WorkbookCell | undefined => {
    const place = parseCell(address);
    return model.sheets[sheet]?.cells.find(
      ({ row, column }) => row === place?.row && column === place.column,
    );
  };
  return {
    sheet: (index) => model.sheets[index],
    cell,
    style: (address) => model.styles[cell(address)?.style ?? 0],
  };
}

/** Pastes as another program's clipboard would. */
async function paste(html: string, text: string): Promise<void> {
  await desk.page.evaluate(
    ([markup, plain]) => {
      const clipboardData = new DataTransfer();
      if (markup !== "") clipboardData.setData("text/html", markup ?? "");
      clipboardData.setData("text/plain", plain ?? "");
      document.activeElement?.dispatchEvent(
        new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }),
      );
    },
    [html, text],
  );
}

describe("work on a sheet", { timeout: 90_000 }, () => {
  it("says the whole value of a number that its column is too narrow for, and draws no part of it", async () => {
    const wide = createWorkbook({
      ...PLAIN,
      sheets: [
        {
          name: "S",
          columnWidths: { A: 5 },
          cells: { A1: { value: 1234567.89, style: { numberFormat: "#,##0.00" } }, B1: { value: "beside" } },
        },
      ],
    });
    // What is drawn is seen where text is written onto the canvas.
    const page = await openDesk(browser, address, wide, {});
    await page.page.addInitScript(() => {
      const drawn: string[] = [];
      Object.assign(window, { drawn });
      const { fillText } = CanvasRenderingContext2D.prototype;
      CanvasRenderingContext2D.prototype.fillText = function (...args) {
        drawn.push(args[0]);
        fillText.apply(this, args);
      };
    });
    await page.page.reload();
    await page.ready();
    await expect.poll(() => page.read("A1")).toBe("A1 1,234,567.89");
    const drawn = await page.page.evaluate(() => (window as unknown as { drawn: readonly string[] }).drawn);
    expect(drawn.filter((text) => /^#+$/.test(text)).length).toBeGreaterThan(0);
    expect(drawn.filter((text) => text.startsWith("1,2"))).toEqual([]);
    await page.close();
  });

  it("shows the amounts of a plan as money as soon as it is typed", async () => {
    const rows = [
      ["text", "kind", "cost", "quantity"],
      ["Balloons", "materials", 120, 1],
    ];
    const cells = Object.fromEntries(
      rows.flatMap((row, down) =>
        row.map((value, across) => [`${"ABCD".charAt(across)}${String(down + 1)}`, { value }]),
      ),
    );
    await open(createWorkbook({ ...PLAIN, sheets: [{ name: "Job", cells }] }));
    await desk.type("F1", "=BLN.QUOTE_PLAN(A1:D2,0.4)");
    // 120 with a margin of 0.4 is 120 / 0.6.
    await expect.poll(() => desk.read("G2")).toBe("G2 200.00");
    expect((await saved()).style("G2")?.numberFormat).toBe("#,##0.00");
  });

  it("filters a list by what a cell shows, in the file too, and takes it back", async () => {
    const rows = ["colour", "Gold", "Navy", "Gold"];
    const cells = Object.fromEntries(rows.map((value, row) => [`A${String(row + 1)}`, { value }]));
    await open(
      createWorkbook({
        ...PLAIN,
        sheets: [{ name: "List", cells, tables: [{ name: "Colours", range: "A1:A4" }] }],
      }),
    );
    await desk.read("A2");
    await desk.press("Data");
    await desk.press("Only rows like this");
    await desk.page.waitForFunction(() => document.title.startsWith("* "));
    await desk.ready();
    expect([...((await saved()).sheet(0)?.hiddenRows ?? [])]).toEqual([2]);
    await desk.press("Data");
    await desk.press("All rows");
    await desk.page.waitForFunction(() => document.title.startsWith("* "));
    await desk.ready();
    expect([...((await saved()).sheet(0)?.hiddenRows ?? [])]).toEqual([]);
  });

  it("puts a supplier row inside the sum's range, takes it back and does it again", async () => {
    const list = createWorkbook({
      ...PLAIN,
      sheets: [
        {
          name: "List",
          cells: {
            A1: { value: "price" },
            A2: { value: 2 },
            A3: { value: 3 },
            A4: { value: 5, formula: "SUM(A2:A3)" },
          },
        },
      ],
    });
    await open(list);
    await desk.read("A3");
    await desk.press("Rows");
    await desk.press("Insert above");
    await expect.poll(() => desk.read("A5")).toBe("A5 5");
    await desk.type("A3", "10");
    // 2 + 10 + 3
    await expect.poll(() => desk.read("A5")).toBe("A5 15");
    await desk.press("Undo");
    await expect.poll(() => desk.read("A5")).toBe("A5 5");
    await desk.press("Undo");
    await expect.poll(() => desk.read("A4")).toBe("A4 5");
    expect(await desk.page.title()).not.toMatch(/^\*/);
    await desk.press("Redo");
    await expect.poll(() => desk.read("A5")).toBe("A5 5");
    await desk.press("Redo");
    await expect.poll(() => desk.read("A5")).toBe("A5 15");
    const file = await saved();
    expect(file.cell("A5")).toMatchObject({ value: 15, formula: { text: "SUM(A2:A4)" } });
  });

  it("adds, copies and removes sheets, and says why something cannot be", async () => {
    await open();
    await desk.press("Sheet");
    await desk.page.locator(".desk-tools").getByRole("button", { name: "Copy", exact: true }).click();
    await desk.page.getByRole("tab", { name: "Quote (2)" }).waitFor();
    await desk.press("Sheet");
    await desk.page.locator(".desk-tools").getByRole("button", { name: "Add", exact: true }).click();
    await desk.page.getByRole("tab", { name: "Sheet4" }).waitFor();
    await desk.ready();
    const file = await saved();
    expect([0, 1, 2, 3].map((at) => file.sheet(at)?.name)).toEqual([
      "Quote",
      "Quote (2)",
      "Sheet4",
      "Prices",
    ]);
    const alone = createWorkbook({ ...PLAIN, sheets: [{ name: "Only", cells: {} }] });
    await open(alone);
    await desk.press("Sheet");
    await desk.page
      .locator(".desk-tools .desk-menu")
      .getByRole("button", { name: "Hide", exact: true })
      .last()
      .click();
    await desk.page.locator(".desk-message[data-tone=error]", { hasText: "only one in sight" }).waitFor();
  });

  it("keeps looks and number formats in the file", async () => {
    await open();
    await desk.read("B3");
    await desk.page.keyboard.press("Control+b");
    await desk.page.getByLabel("Number format").selectOption("0.0%");
    await desk.page.getByLabel("Font", { exact: true }).selectOption("Georgia");
    await desk.page.getByLabel("Size", { exact: true }).selectOption("16");
    await desk.press("Borders");
    await desk.press("Around");
    await desk.press("Align");
    await desk.press("Centre");
    await desk.page.getByLabel("Fill", { exact: true }).evaluate((input: HTMLInputElement) => {
      input.value = "#ffff00";
      input.dispatchEvent(new Event("change"));
    });
    const file = await saved();
    expect(file.style("B3")).toMatchObject({
      bold: true,
      fontName: "Georgia",
      fontSize: 16,
      numberFormat: "0.0%",
      horizontal: "center",
      fill: "#ffff00",
      borders: {
        top: { style: "thin" },
        bottom: { style: "thin" },
        left: { style: "thin" },
        right: { style: "thin" },
      },
    });
    expect(file.style("B4")).toEqual(openWorkbook(quoteWorkbook()).model.styles[file.cell("B4")?.style ?? 0]);
  });

  it("keeps frozen panes and widths in the file", async () => {
    await open();
    await desk.read("C3");
    await desk.press("Sheet");
    await desk.press("Freeze here");
    await desk.read("A3");
    await desk.press("Columns");
    await desk.press("Fit width");
    const file = await saved();
    expect(file.sheet(0)).toMatchObject({ frozenRows: 2, frozenColumns: 2 });
    expect(file.sheet(0)?.columnWidths.get(0)).not.toBe(22);
  });

  it("takes cells from another program's clipboard, with styles that the policy would refuse", async () => {
    await open();
    await desk.read("H2");
    await paste(
      '<style>.xl65 {mso-number-format:"\\#\\,\\#\\#0\\.00";}</style><table><tr><td class=xl65 style="color:red">1,234.50</td><td>red</td></tr><tr><td>7</td></tr></table>',
      "1,234.50\tred\r\n7",
    );
    await expect.poll(() => desk.read("H2")).toBe("H2 1,234.50");
    await expect.poll(() => desk.read("I2")).toBe("I2 red");
    await desk.read("K2");
    await paste("", "5%\t2027-06-19\n");
    await expect.poll(() => desk.read("L2")).toBe("L2 2027-06-19");
    await desk.read("M2");
    await paste("", "");
    await desk.page.locator(".desk-message[data-tone=error]", { hasText: "nothing was pasted" }).waitFor();
    const file = await saved();
    expect(file.cell("H2")?.value).toBe(1234.5);
    expect(file.cell("H3")?.value).toBe(7);
    expect(file.cell("K2")?.value).toBe(0.05);
    // Day 1 is 1900-01-01 and 1900 counts as a leap year (ECMA-376 part 1, 18.17.4.1).
    expect(file.cell("L2")?.value).toBe(46_557);
    expect(file.style("H2")?.numberFormat).toBe("#,##0.00");
  });

  it("leaves a formula that cannot be meant so in its cell, with what was meant", async () => {
    await open();
    await desk.type("H2", "=COUNT_SPHERE(2)");
    await expect.poll(() => desk.read("H2")).toContain("no function is called COUNT_SPHERE");
    await desk.press("Did you mean =BLN.COUNT_SPHERE(2)");
    await expect.poll(() => desk.read("H2")).not.toContain("COUNT_SPHERE(2) is not computed");
    await desk.type("H3", "=SUM(B3;B6)");
    await expect
      .poll(() => desk.read("H3"))
      .toMatch(/^H3 =SUM\(B3;B6\) is not computed: commas stand between/);
    await desk.type("H4", "=SUM(B3");
    const file = await saved();
    expect(file.cell("H3")).toMatchObject({ value: "=SUM(B3;B6)" });
    expect(file.cell("H3")?.formula).toBeUndefined();
  });

  it("reads dates and amounts as the reader writes them, and formats results", async () => {
    await open();
    await desk.page.getByLabel("Numbers and dates as written in").selectOption("de-DE");
    await desk.type("H2", "19.06.2027");
    await desk.type("H3", "€ 12,50");
    await desk.type("H4", "=TODAY()");
    await desk.page.getByLabel("Numbers and dates as written in").selectOption("en-US");
    const file = await saved();
    expect([file.cell("H2")?.value, file.style("H2")?.numberFormat]).toEqual([46_557, "dd.mm.yyyy"]);
    expect([file.cell("H3")?.value, file.style("H3")?.numberFormat]).toEqual([12.5, '"€" #,##0.00']);
    expect(file.style("H4")?.numberFormat).toBe("yyyy-mm-dd");
  });

  it("does not call a workbook changed because a cell was only looked at", async () => {
    await open();
    await desk.read("B3");
    await desk.page.keyboard.press("F2");
    await desk.page.keyboard.press("Enter");
    await expect.poll(() => desk.read("B3")).toBe("B3 120");
    expect(await desk.page.title()).not.toMatch(/^\*/);
  });

  it("asks before the form replaces a filled cell", async () => {
    await open();
    await desk.page.getByRole("tab", { name: "Functions" }).click();
    await desk.read("A3");
    await desk.page.getByRole("combobox", { name: "What do you need to know?" }).fill("feet to metres");
    await desk.page.keyboard.press("Enter");
    await desk.page.getByLabel("length", { exact: true }).fill("3 ft");
    await desk.press("Put in the selected cell");
    await desk.page.getByText("A3 holds balloons.").waitFor();
    await desk.press("Cancel");
    await expect.poll(() => desk.read("A3")).toBe("A3 balloons");
  });

  it("sorts rows, and replaces a text everywhere", async () => {
    const list = createWorkbook({
      ...PLAIN,
      sheets: [
        {
          name: "List",
          cells: {
            A1: { value: "red satin" },
            B1: { value: 3 },
            A2: { value: "blue satin" },
            B2: { value: 1 },
            A3: { value: "gold" },
            B3: { value: 2 },
          },
        },
      ],
    });
    await open(list);
    await desk.read("A1:B3");
    await desk.press("Data");
    await desk.press("Sort A to Z");
    await expect.poll(() => desk.read("A1")).toBe("A1 blue satin");
    await expect.poll(() => desk.read("B1")).toBe("B1 1");
    await desk.page.keyboard.press("Control+f");
    await desk.page.getByLabel("Find", { exact: true }).fill("satin");
    await desk.page.getByLabel("Replace with", { exact: true }).fill("pearl");
    await desk.press("Replace all");
    await desk.page.getByText("2 cells were changed").waitFor();
    await desk.press("Close");
    await expect.poll(() => desk.read("A3")).toBe("A3 red pearl");
  });

  it("offers work back after its page went away", async () => {
    const context = await browser.newContext({ serviceWorkers: "block" });
    const first = await context.newPage();
    const serve = (route: Route): Promise<void> => route.fulfill({ body: Buffer.from(quoteWorkbook()) });
    await first.route("**/regatta-evening.xlsx", serve);
    await first.goto(address);
    await first.locator(".desk-grid[aria-busy=false]").waitFor();
    const box = first.locator(".desk-grid input").first();
    await box.click();
    await box.fill("B3");
    await box.press("Enter");
    await first.keyboard.type("200");
    await first.keyboard.press("Enter");
    await first.waitForFunction(() => document.title.startsWith("* "));
    await first.waitForTimeout(1500);
    await first.close({ runBeforeUnload: false });
    const second = await context.newPage();
    await second.route("**/regatta-evening.xlsx", serve);
    await second.goto(address);
    await second.getByRole("button", { name: "Go on with them" }).click();
    await second.waitForFunction(() => document.title.startsWith("* regatta-evening"));
    await second.locator(".desk-grid[aria-busy=false]").waitFor();
    const again = second.locator(".desk-grid input").first();
    await again.click();
    await again.fill("B4");
    await again.press("Enter");
    // 200 x 0.25
    await second.locator(".desk-message", { hasText: "B4 50.00" }).waitFor();
    await context.close();
  });
});

describe("fingers and other senses", { timeout: 90_000 }, () => {
  it("scrolls under a swipe, chooses by a tap and selects by a long press", async () => {
    const rows = Object.fromEntries(
      Array.from({ length: 120 }, (_, row) => [`A${row + 1}`, { value: row + 1 }]),
    );
    const long = createWorkbook({ ...PLAIN, sheets: [{ name: "Long", cells: rows }] });
    const { phone, touch } = await openPhone(browser, address, long);
    const line = (): Promise<string | null> => phone.page.locator(".desk-message").textContent();
    const top = await phone.page.locator(".desk-grid canvas").last().boundingBox();
    const [x, y] = [80, (top?.y ?? 300) + 50];
    await touch("touchStart", x, y);
    await touch("touchEnd");
    await expect.poll(line).toMatch(/^A\d+ \d+$/);
    const before = await line();
    await touch("touchStart", x, y + 300);
    for (let step = 1; step <= 15; step++) await touch("touchMove", x, y + 300 - 20 * step);
    await touch("touchEnd");
    expect(await line()).toBe(before);
    await phone.page.waitForTimeout(300);
    await touch("touchStart", x, y);
    await touch("touchEnd");
    // What is under the finger now was out of sight before.
    await expect
      .poll(async () => Number((await line())?.split(" ")[1]))
      .toBeGreaterThan(Number(before?.split(" ")[1]) + 5);
    expect(phone.faults).toEqual([]);
    await phone.close();
  });

  it("writes the sheet out as a table, and turns sheets by key", async () => {
    await open();
    await desk.page.getByRole("tab", { name: "Table" }).click();
    await desk.page.getByRole("cell", { name: "balloons" }).waitFor();
    await desk.page.getByRole("cell", { name: "30.00" }).waitFor();
    await desk.read("A1");
    await desk.page.keyboard.press("Control+PageDown");
    await desk.page.getByRole("cell", { name: "price" }).waitFor();
    await desk.page.getByRole("tab", { name: "Functions" }).click();
  });

  it("keeps the file's colours in the dark", async () => {
    const yellow = createWorkbook({
      ...PLAIN,
      sheets: [{ name: "S", cells: { B2: { value: 1, style: { fill: "#ffff00" } } } }],
    });
    const dark = await openDesk(browser, address, yellow, { colorScheme: "dark" });
    const colors = await dark.page.evaluate(() => {
      const found = new Map<string, number>();
      for (const canvas of document.querySelectorAll<HTMLCanvasElement>(".desk-grid canvas")) {
        const { width, height } = canvas;
        const data =
          width > 100 && height > 100 && canvas.getContext("2d")?.getImageData(0, 0, width, height).data;
        if (!data) continue;
        for (let at = 0; at < data.length; at += 4) {
          const color = [...data.slice(at, at + 3)].join();
          found.set(color, (found.get(color) ?? 0) + 1);
        }
      }
      return [...found].sort((a, b) => b[1] - a[1]).map(([color]) => color);
    });
    expect(colors).toContain("255,255,0");
    // The sheet around it, which is most of what is seen, is dark.
    expect(Math.max(...(colors[0] ?? "").split(",").map(Number))).toBeLessThan(60);
    await dark.close();
  });

  it("writes on in light ink where a text goes on beyond its filled cell in the dark", async () => {
    const cells = { B2: { value: "longer than its narrow cell", style: { fill: "#ffff00" } } };
    const dark = await openDesk(
      browser,
      address,
      createWorkbook({ ...PLAIN, sheets: [{ name: "S", cells }] }),
      { colorScheme: "dark" },
    );
    await dark.page.addInitScript(() => {
      const inks: string[] = [];
      Object.assign(window, { inks });
      const { fillText } = CanvasRenderingContext2D.prototype;
      CanvasRenderingContext2D.prototype.fillText = function (...args) {
        if (args[0].startsWith("longer")) inks.push(String(this.fillStyle));
        fillText.apply(this, args);
      };
    });
    await dark.page.reload();
    await dark.ready();
    await expect
      .poll(async () => {
        const inks = await dark.page.evaluate(() => (window as unknown as { inks: readonly string[] }).inks);
        return [...new Set(inks)].map((ink) => Number.parseInt(ink.slice(1, 3), 16) > 128).sort();
      })
      .toEqual([false, true]);
    await dark.close();
  });

  it("stops within a second whatever a formula does, and keeps what was typed", async () => {
    // Every cell needs the one before it and a whole column: long enough to be stopped in the middle.
    const cells = Object.fromEntries(
      Array.from({ length: 3000 }, (_, row) => [
        `B${row + 1}`,
        { value: 0, formula: `SUMPRODUCT((A1:A3000<>${row + 1})*(A1:A3000<>"")*1)` },
      ]),
    );
    const slow = createWorkbook({
      ...PLAIN,
      sheets: [{ name: "Slow", cells: { A1: { value: 1 }, ...cells } }],
    });
    await desk.page.setInputFiles("input[type=file]", {
      name: "slow.xlsx",
      mimeType: "",
      buffer: Buffer.from(slow),
    });
    await desk.page.waitForFunction(() => document.title.startsWith("slow.xlsx"));
    await desk.page.locator(".desk-work", { hasText: "Computing" }).waitFor();
    const box = desk.page.locator(".desk-grid input").first();
    await box.click();
    await box.fill("A7");
    await box.press("Enter");
    await desk.page.keyboard.type("77");
    await desk.page.keyboard.press("Enter");
    const started = Date.now();
    await desk.press("Stop");
    await desk.page.locator(".desk-message[data-tone=error]", { hasText: "nothing typed is lost" }).waitFor();
    // The clock of a busy machine, so with room: the page itself waits 0.6 s.
    expect(Date.now() - started).toBeLessThan(5000);
    await expect.poll(() => desk.read("A7")).toBe("A7 77");
    expect(await desk.page.title()).toMatch(/^\* slow\.xlsx/);
    await desk.press("Save");
    await desk.page.locator(".desk-working").waitFor();
    await desk.press("Stop");
    await desk.page.locator(".desk-message[data-tone=error]", { hasText: "was not saved" }).waitFor();
  });
});
