import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import { launchBrowser } from "../browser";
import { pageFaults } from "../page-faults";
import { routeOffice, serveFolder, servePane, type Served } from "./pane-server";
import type {} from "./fake-page";

// A busy machine draws late; nothing here measures time.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 300_000 });
const eventually = <T>(read: () => T) => expect.poll(read, { timeout: 20_000 });

/** Office's own telemetry frame and its style attribute, which the page's policy refuses. */
const OFFICE_REFUSED =
  /telemetryservice\.firstpartyapps\.oaspapps\.com|sha256-aqNNdDLnnrDOnTNdkJpYlAxKVJtLt9CtFLklmInuUAE=/;

let browser: Browser;
let served: Served;
let page: Page;
let complaints: string[] = [];
let refused: readonly string[] = [];

async function open(address: string): Promise<void> {
  page = await browser.newPage({ viewport: { width: 320, height: 700 } });
  complaints = [];
  page.on("pageerror", (error) => complaints.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error" && !OFFICE_REFUSED.test(message.text())) complaints.push(message.text());
  });
  refused = await routeOffice(page);
  await page.goto(address);
  await page.waitForSelector(".pane-nav");
}

beforeAll(async () => {
  [served, browser] = await Promise.all([servePane("tests/taskpane/fake-page.ts"), launchBrowser()]);
});

afterAll(async () => {
  await browser.close();
  await served.close();
});

afterEach(async () => {
  expect(complaints).toEqual([]);
  expect(refused).toEqual([]);
  await page.close();
});

const tab = async (name: string): Promise<void> => {
  await page.getByRole("navigation").getByRole("button", { name, exact: true }).click();
};
const button = (name: string | RegExp): Locator => page.locator("main").getByRole("button", { name });
const choose = (address: string): Promise<void> =>
  page.evaluate((chosen) => {
    window.choose(chosen);
  }, address);
const contentOf = (cell: string): Promise<unknown> =>
  page.evaluate((asked) => window.book.contentOf(asked), cell);
const text = (selector: string): Promise<string> => page.locator(selector).innerText();
const status = (): Promise<string> => page.locator("main [role=status]:not(:empty)").last().innerText();

const faults = (view: string): Promise<readonly string[]> => pageFaults(page, view);

it("says in each view that an older Excel is too old for, and leaves the others alone", async () => {
  await open(`${served.address}?excel=9`);
  for (const [view, version] of [
    ["Picture", "1.14"],
    ["Check", "1.12"],
    ["Share", "1.12"],
  ] as const) {
    await tab(view);
    expect(await text("main")).toContain(`${view} needs ExcelApi ${version}, which this Excel does not have`);
  }
  await tab("Prices");
  expect(await text("main")).toContain("Price review");
});

it("shows formulas as they are typed in this Excel, and hands them over as its interface takes them", async () => {
  await open(`${served.address}?decimal=,`);
  await page.locator("input[type=search]").fill("COUNT_COLUMN");
  await page.keyboard.press("Enter");
  await page.locator("[name=height]").fill("1.8");
  await page.locator("[name=balloon]").fill("9");
  await eventually(() => text("code.bln-formula >> nth=0")).toBe("=BLN.COUNT_COLUMN(1,8; 9)");
  await choose("Plan!H9");
  await button("Put in the selected cell").click();
  await eventually(() => contentOf("Plan!H9")).toBe("=BLN.COUNT_COLUMN(1.8, 9)");
  await choose("Plan!D2");
  await page.getByText("Fill a column of a list").click();
  await button("Look at the selected column").click();
  await page.locator(".pane-fill").getByLabel("height").selectOption("as in the form");
  await eventually(() => text(".pane-fill code")).toBe("=BLN.COUNT_COLUMN(1,8; [@[Balloon]])");
  await button("Fill 2 rows").click();
  await eventually(() => contentOf("Plan!D3")).toBe("=BLN.COUNT_COLUMN(1.8, [@[Balloon]])");
});

describe("the pane beside a workbook", () => {
  beforeEach(() => open(served.address));

  it("finds a function by words, checks what is typed, and puts it in the selected cell, replacing only when asked twice", async () => {
    await page.locator("input[type=search]").fill("how many balloons for a column");
    await page.keyboard.press("Enter");
    await page.locator("[name=height]").fill("-1");
    await eventually(() => text(".bln-field:has([name=height]) .bln-fault")).toContain("height must be");
    await page.locator("[name=height]").fill("6 ft");
    await choose("Plan!C2");
    await page.getByRole("button", { name: "Use selection for balloon" }).click();
    await eventually(() => page.locator("[name=balloon]").inputValue()).toBe("=Plan!C2");
    const column = catalogue.find(({ name }) => name === "COUNT_COLUMN")?.call(["6 ft", 10]);
    await eventually(() => text(".bln-value")).toBe(String(column?.kind === "value" ? column.value : ""));
    await choose("Plan!H9");
    await button("Put in the selected cell").click();
    await eventually(status).toBe("Put in Plan!H9");
    expect(await contentOf("Plan!H9")).toBe('=BLN.COUNT_COLUMN("6 ft", Plan!C2)');
    await choose("Plan!A2");
    await button("Put in the selected cell").click();
    await eventually(status).toContain("Plan!A2 holds Door, left: press again to replace it");
    expect(await contentOf("Plan!A2")).toBe("Door, left");
    await button("Put in the selected cell").click();
    await eventually(() => contentOf("Plan!A2")).toBe('=BLN.COUNT_COLUMN("6 ft", Plan!C2)');
    expect(await faults("form")).toEqual([]);
  });

  it("follows the sheet: a changed cell changes the result", async () => {
    await page.locator("input[type=search]").fill("air litres");
    await page.keyboard.press("Enter");
    await page.locator("[name=balloon]").fill("=Plan!C2");
    await eventually(() => page.locator(".bln-value").count()).toBe(1);
    const before = await text(".bln-value");
    await page.evaluate(() => {
      window.book.fill("Plan!C2", [[20]]);
      window.book.events?.changed();
    });
    await eventually(() => text(".bln-value")).not.toBe(before);
  });

  it("fills a column of a table with arguments from the columns of their names", async () => {
    await page.locator("input[type=search]").fill("COUNT_COLUMN");
    await page.keyboard.press("Enter");
    await choose("Plan!D2");
    await page.getByText("Fill a column of a list").click();
    await button("Look at the selected column").click();
    await eventually(() => text(".pane-fill")).toContain("The table Pieces: Count, 2 rows.");
    await button("Fill 2 rows").click();
    await eventually(() => contentOf("Plan!D3")).toBe("=BLN.COUNT_COLUMN([@[Height]], [@[Balloon]])");
    await button("Look at the selected column").click();
    await eventually(() => text(".pane-fill")).toContain("and replace 2 filled cells");
    expect(await faults("fill")).toEqual([]);
  });

  it("fills no column through a filter or into merged cells, and says what to do", async () => {
    await page.locator("input[type=search]").fill("COUNT_COLUMN");
    await page.keyboard.press("Enter");
    await choose("Plan!D2");
    await page.getByText("Fill a column of a list").click();
    await button("Look at the selected column").click();
    await page.evaluate(() => {
      window.book.blocked = ["Plan!D2:D3 is merged: unmerge it first"];
    });
    await button("Fill 2 rows").click();
    await eventually(status).toContain("nothing was filled: Plan!D2:D3 is merged: unmerge it first");
    expect(await contentOf("Plan!D2")).toBe("");
  });

  it("draws the piece of the selected cell in colours of palette cells, puts it beside the cell and draws it anew", async () => {
    await tab("Picture");
    await eventually(() => text("main")).toContain("Select a cell with a formula that describes a piece");
    await choose("Plan!F1");
    await eventually(() => page.locator(".bln-picture circle").count()).toBeGreaterThan(100);
    await page.evaluate(() => {
      window.book.fill("Plan!M1", [["#123456"], ["#abcdef"]]);
    });
    await choose("Plan!M1:M2");
    await button("Colours from the selected cells").click();
    await eventually(() => page.locator(".bln-well").count()).toBe(2);
    await button("Put beside the cell").click();
    await eventually(status).toContain("Put beside Plan!F1");
    const pictures = () => page.evaluate(() => [...window.book.pictures.values()]);
    const [first] = await pictures();
    expect(first?.beside).toEqual({ sheet: "Plan", row: 0, column: 5 });
    // The signature of a PNG file (ISO/IEC 15948), in base64.
    expect(first?.png.startsWith("iVBORw0KGgo")).toBe(true);
    await page.evaluate(() => {
      window.book.fill("Plan!F1", [["=BLN.COUNT_ARCH(6, 2.8, 9)"]]);
      window.book.events?.changed();
    });
    await eventually(async () => (await pictures())[0]?.png !== first?.png).toBe(true);
    expect(await pictures()).toHaveLength(1);
    expect(await faults("picture")).toEqual([]);
  });

  it("fills in the tables of a job from the workbook, and draws all pieces of the formula beside its cell", async () => {
    await page.evaluate(() => {
      window.book.fill("Plan!P1", [
        ["name", "kind", "printed", "colour", "balloons", "ribbon"],
        ["Table", "bouquet", 11, "Navy", 5, 1.2],
        ["Gate", "count", 11, "Gold", 7, ""],
      ]);
    });
    // Without a formula its pieces are drawn from the tables.
    await choose("Plan!Q2");
    await tab("Picture");
    await eventually(() => text("main")).toContain("Drawn from the tables Plan!P1:U3");
    await eventually(() => page.getByLabel("Show").locator("option").allTextContents()).toContain("Gate");
    await button("Put beside the cell").click();
    await eventually(() => text("main")).toContain("select a cell with a formula of the job first");
    await tab("Find");
    await page.locator("input[type=search]").fill("PART_PLAN");
    await page.keyboard.press("Enter");
    await eventually(() => text(".bln-form ul")).toContain("The selected cell is in Plan!P1:U3");
    await button("Put in the selected cell").click();
    // Said above the fields, and again below the button that was pressed.
    await eventually(async () => (await text("main")).split("select one outside of it").length).toBe(3);
    expect(await contentOf("Plan!Q2")).toBe("bouquet");
    await choose("Plan!P8");
    await button("Look for the tables again").click();
    // The table keeps free rows down to the selected cell, one blank row before it; the price list is a table of the workbook.
    const formula = "=BLN.PART_PLAN(Plan!P1:U6, Prices[#All])";
    await eventually(() => text(".bln-formula")).toBe(formula);
    await eventually(() => text(".bln-form ul")).toContain("Plan!P1:U6 read as pieces, 2 rows");
    await eventually(() => page.locator(".bln-picture g[stroke-width='0.6'] circle").count()).toBe(12);
    await choose("Plan!W1");
    await button("Put in the selected cell").click();
    await eventually(() => contentOf("Plan!W1")).toBe(formula);
    await tab("Picture");
    await page.getByLabel("Show").selectOption("Gate");
    await button("Put beside the cell").click();
    await eventually(status).toContain("Put beside Plan!W1");
    const pictures = () => page.evaluate(() => [...window.book.pictures.values()]);
    const [first] = await pictures();
    expect(first?.png.startsWith("iVBORw0KGgo")).toBe(true);
    // Only the piece that was chosen is followed.
    await page.evaluate(() => {
      window.book.fill("Plan!P2", [["Table", "bouquet", 11, "Navy", 6, 1.2]]);
      window.book.events?.changed();
    });
    await eventually(() => page.getByLabel("Show").inputValue()).toBe("Gate");
    expect((await pictures())[0]?.png).toBe(first?.png);
    await page.evaluate(() => {
      window.book.fill("Plan!P3", [["Gate", "count", 11, "Gold", 9, ""]]);
      window.book.events?.changed();
    });
    await eventually(async () => (await pictures())[0]?.png !== first?.png).toBe(true);
    expect(await faults("picture of pieces")).toEqual([]);
  });

  it("checks the workbook, goes to a cell and repairs", async () => {
    await tab("Check");
    await button(/^Check$/).click();
    await eventually(() => text("main")).toContain("balloon must be from 1 to 120 in, found 250 in");
    expect(await faults("check")).toEqual([]);
    await button("Plan!F2").click();
    await eventually(() => page.evaluate(() => window.book.selected.range)).toMatchObject({
      firstRow: 1,
      firstColumn: 5,
    });
    await button("Repair 1 cell").click();
    await eventually(status).toContain(
      "Entered 1 formula anew. 5 cells with these functions, 1 error, 0 to repair.",
    );
  });

  it("takes a snapshot of prices that stays in the workbook, and shows what quotes earn", async () => {
    await tab("Prices");
    await choose("Plan!A20:E22");
    await button("Use selection for price list").click();
    await eventually(() => page.getByLabel("Price list").first().inputValue()).toBe("Prices[#All]");
    await choose("Plan!A30:C32");
    await button("Use selection for quotes").click();
    await eventually(() => page.getByLabel("Quotes").first().inputValue()).toBe("Quotes[#All]");
    await button("Take a snapshot").click();
    await eventually(status).toContain("Kept 3 rows of prices in this workbook");
    await tab("Find");
    await tab("Prices");
    await eventually(() => page.getByLabel("Compare with the snapshot of").innerText()).toContain(
      "2027-06-19 10:00",
    );
    await page.evaluate(() => void window.book.fill("Plan!E21", [[10]]).fill("Plan!C22", [["ivory"]]));
    await button("Compare with today").click();
    const changes = page.getByRole("region", { name: "Result of PRICE_CHANGES" }).locator("tbody tr");
    // By hand: 10 / 8 - 1 = 25%.
    await eventually(() => changes.allInnerTexts()).toHaveLength(3);
    expect((await changes.allInnerTexts()).map((row) => row.split("\t").at(-1)?.trim()).sort()).toEqual([
      "dearer",
      "gone",
      "new",
    ]);
    expect((await changes.allInnerTexts()).join()).toContain("25%");
    expect(await text("main")).toContain("Regatta: raise it from 500.00 to 583.34");
    // By hand: 350 / 0.6 = 583.333, up to the cent.
    await eventually(() => text("main")).toContain("583.34");
    expect(await faults("prices")).toEqual([]);
  });

  it("makes a partner copy after a preview and puts it back", async () => {
    const before = await page.evaluate(() => JSON.stringify(window.book.snapshot()));
    await tab("Share");
    await button("Show what would change").click();
    await eventually(() => text("main")).toContain("its sheet is protected");
    expect(await page.evaluate(() => JSON.stringify(window.book.snapshot()))).toBe(before);
    expect(await faults("share")).toEqual([]);
    await button("Make the partner copy: 3 formulas").click();
    await eventually(status).toContain("3 formulas became values");
    expect(await contentOf("Plan!F1")).toBe(220);
    await button("Show what would be put back").click();
    await button("Put back 3 formulas").click();
    await eventually(status).toContain("3 formulas put back");
    expect(await page.evaluate(() => JSON.stringify(window.book.snapshot()))).toBe(before);
  });

  it("says what failed, and that nothing changed", async () => {
    await tab("Share");
    await button("Show what would change").click();
    await page.evaluate(() => {
      window.book.beforeCall = (name) => {
        if (name === "freeze") throw new Error("Excel went away");
      };
    });
    await button("Make the partner copy: 3 formulas").click();
    await eventually(status).toBe("the partner copy failed, the workbook is as it was: Excel went away");
  });

  it("keeps choices in the workbook and on this computer", async () => {
    await tab("Settings");
    await page.getByLabel("Start with this workbook").check();
    await page.getByLabel("Do not ask partners to trust the add-in").check();
    await eventually(() => page.evaluate(() => window.book.settings)).toEqual({
      startsOnOpen: true,
      hidesTrustPrompt: true,
    });
    await page.getByLabel("Feet and inches").check();
    expect(await faults("settings")).toEqual([]);
    await page.reload();
    await page.locator("input[type=search]").fill("COUNT_COLUMN");
    await page.keyboard.press("Enter");
    await eventually(() => text(".pane-hint")).toContain('Type lengths as "6 ft"');
  });

  it("is worked with the keyboard alone and says where one is", async () => {
    const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.textContent ?? "");
    await page.keyboard.press("Tab");
    expect(await focused()).toBe("Find");
    for (const name of ["Picture", "Check"]) {
      await page.keyboard.press("Tab");
      expect(await focused()).toBe(name);
    }
    await page.keyboard.press("Enter");
    await eventually(() => page.locator("[aria-current=page]").innerText()).toBe("Check");
    for (
      let presses = 0;
      presses < 5 && (await page.evaluate(() => document.activeElement?.closest("main"))) === null;
      presses++
    ) {
      await page.keyboard.press("Tab");
    }
    await page.keyboard.press("Enter");
    await eventually(() => text("main")).toContain("5 cells with these functions");
  });

  it("passes the accessibility checks in the dark too", async () => {
    await page.emulateMedia({ colorScheme: "dark" });
    const found: string[] = [];
    for (const name of ["Find", "Picture", "Check", "Prices", "Share", "Settings"]) {
      await tab(name);
      found.push(...(await faults(name)));
    }
    expect(found).toEqual([]);
  });
});

describe("the add-in as it is shipped", () => {
  let shipped: Served;
  beforeAll(async () => {
    shipped = await serveFolder("dist/addin");
  });
  afterAll(() => shipped.close());

  it("starts with Microsoft's office.js under the page's policy, registers its functions and says that Excel is missing", async () => {
    await open(shipped.address);
    expect(await text(".pane-notice")).toContain("not open in Excel");
    const registered = await page.evaluate(() => {
      const { CustomFunctions } = globalThis as unknown as {
        CustomFunctions: { _association: { mappings: object } };
      };
      return Object.keys(CustomFunctions._association.mappings).sort();
    });
    expect(registered).toEqual(catalogue.map(({ name }) => name).sort());
    await page.locator("input[type=search]").fill("COUNT_COLUMN");
    await page.keyboard.press("Enter");
    await page.locator("[name=height]").fill("1.8");
    await page.locator("[name=balloon]").fill("10");
    await eventually(() => page.locator(".bln-value").count()).toBe(1);
    expect(await faults("outside of Excel")).toEqual([]);
  });

  it.each(["Web$16.01", "Win32$16.01", "Mac$16.00"])(
    "loads Excel's library for %s under that policy",
    async (platform) => {
      page = await browser.newPage();
      complaints = [];
      page.on("console", (message) => {
        if (message.type() === "error" && !OFFICE_REFUSED.test(message.text()))
          complaints.push(message.text());
      });
      refused = await routeOffice(page);
      await page.goto(`${shipped.address}?_host_Info=Excel$${platform}$en-US$$$$0`);
      await eventually(() =>
        page.evaluate(() => typeof (globalThis as { Excel?: { run?: unknown } }).Excel?.run),
      ).toBe("function");
    },
  );
});
