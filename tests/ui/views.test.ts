import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { catalogue, offered } from "../../src/functions/catalogue";
import type { Example } from "../../src/functions/definition";
import { formulaText } from "../../src/functions/reference";
import { shortestWay } from "../../src/functions/shortest-way";
import { launchBrowser } from "../browser";
import { pageFaults } from "../page-faults";
import { servePage, type ServedPage } from "./bundle";

// A busy machine draws late; nothing here measures time.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 300_000 });
const eventually = <T>(read: () => T) => expect.poll(read, { timeout: 20_000 });

let served: ServedPage;
let browser: Browser;
let page: Page;
let complaints: string[] = [];

beforeAll(async () => {
  [served, browser] = await Promise.all([servePage("tests/ui/page.ts"), launchBrowser()]);
  page = await browser.newPage({ viewport: { width: 320, height: 700 }, colorScheme: "light" });
  page.on("pageerror", (error) => complaints.push(error.message));
  // The policy's refusals are errors on the console.
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
});

afterAll(async () => {
  await browser.close();
  await served.close();
});

beforeEach(async () => {
  complaints = [];
  await page.goto(served.address);
  return () => {
    expect(complaints).toEqual([]);
  };
});

const told = (): Promise<readonly unknown[]> => page.evaluate(() => window.views.told);
const result = (): ReturnType<Page["locator"]> => page.locator(".bln-result");
const field = (name: string): ReturnType<Page["locator"]> => page.locator(`[name=${name}]`);
const faultOf = (name: string): ReturnType<Page["locator"]> =>
  page.locator(".bln-field", { has: field(name) }).locator(".bln-fault");
const echoOf = (name: string): ReturnType<Page["locator"]> =>
  page.locator(".bln-field", { has: field(name) }).locator(".bln-echo");

const faultsOf = (view: string): Promise<readonly string[]> => pageFaults(page, view);

describe("the list", () => {
  beforeEach(() =>
    page.evaluate(() => {
      window.views.showList();
    }),
  );

  it("opens on the shortest way, every other function folded in its group", async () => {
    const way = shortestWay(offered).map(({ name }) => name);
    expect(way.length).toBeGreaterThanOrEqual(9);
    const shown = page.locator(".bln-option:visible .bln-name");
    expect(await shown.allTextContents()).toEqual(way);
    const groups = page.locator(".bln-list summary");
    expect(await groups.count()).toBe(
      new Set([
        "Counting",
        ...offered.filter(({ name }) => !way.includes(name)).map(({ category }) => category),
      ]).size,
    );
    expect(await page.locator(".bln-option").count()).toBe(offered.length + 2);
    await groups.filter({ hasText: "Price" }).click();
    await eventually(() => shown.allTextContents()).toContain("SELL_PRICE");
    // The arrows reach what was unfolded.
    await page.getByRole("combobox").focus();
    await page.keyboard.press("ArrowUp");
    const last = await page.locator('.bln-option[aria-selected="true"] .bln-name').textContent();
    expect(way).not.toContain(last);
  });

  it("is worked by keyboard alone", async () => {
    const box = page.getByRole("combobox");
    const active = async (): Promise<string> => {
      const id = await box.getAttribute("aria-activedescendant");
      return id === null ? "" : ((await page.locator(`#${id} .bln-name`).textContent()) ?? "");
    };
    await page.keyboard.press("ArrowDown");
    const first = await active();
    await page.keyboard.press("ArrowDown");
    expect(await active()).not.toBe(first);
    await page.keyboard.press("ArrowUp");
    expect(await active()).toBe(first);
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("ArrowDown");
    expect(await active()).toBe(first);
    await page.keyboard.type("how many in a stack");
    expect(await active()).toBe("TEST_STACK");
    await page.keyboard.press("Enter");
    expect(await told()).toEqual(["TEST_STACK"]);
    await page.keyboard.press("Escape");
    expect(await box.inputValue()).toBe("");
    expect(await page.getByRole("option").count()).toBe(shortestWay(offered).length);
  });

  it("opens what is clicked and says when there is nothing", async () => {
    await page.locator("summary", { hasText: "Price" }).click();
    await page.getByRole("option", { name: /^TEST_TOTALS/ }).click();
    expect(await told()).toEqual(["TEST_TOTALS"]);
    await page.getByRole("combobox").fill("zyxwv");
    expect(await page.getByRole("status").textContent()).toContain("Nothing found");
    await page.keyboard.press("Enter");
    expect(await told()).toEqual(["TEST_TOTALS"]);
  });
});

/** Sentences of the numbers that an example's own table shows as withheld. */
function withheldIn({ gives }: Example): readonly string[] {
  const rows = Array.isArray(gives) ? (gives as readonly (readonly unknown[])[]) : [];
  return rows
    .filter((row) => row.includes("#N/A"))
    .flatMap((row) => row.filter((cell) => typeof cell === "string" && cell.startsWith("stop: ")))
    .map((status) => String(status).slice("stop: ".length));
}

describe("the form", () => {
  it("checks while a person types, with the sentences of the cell", async () => {
    await page.evaluate(() => {
      window.views.showForm("TEST_STACK");
    });
    await eventually(() => result().textContent()).toBe("Fill in height and balloon.");
    expect(await page.locator(".bln-fault").allTextContents()).toEqual(["", "", "", "", ""]);
    await field("balloon").fill("250");
    await eventually(() => faultOf("balloon").textContent()).toBe(
      "balloon must be from 1 to 120 in, found 250 in",
    );
    expect(await field("balloon").getAttribute("aria-invalid")).toBe("true");
    const described = (await field("balloon").getAttribute("aria-describedby"))?.split(" ") ?? [];
    expect(described).toContain(await faultOf("balloon").getAttribute("id"));
    await field("balloon").fill("12");
    await field("height").fill("6 ft");
    await eventually(() => result().locator(".bln-value").textContent()).toBe("6");
    expect(await field("balloon").getAttribute("aria-invalid")).toBeNull();
    expect(await echoOf("height").textContent()).toBe("6 ft = 1.83 m");
    await field("height").fill("15");
    await eventually(() => echoOf("height").textContent()).toContain("did you mean feet?");
    await field("height").fill("");
    await eventually(() => faultOf("height").textContent()).toBe("height must be given, found nothing");
  });

  it("writes the formula and hands it over, by the button and by Enter", async () => {
    await page.evaluate(() => {
      window.views.showForm("TEST_STACK");
    });
    await page.getByRole("button", { name: "Put in the selected cell" }).click();
    expect(await told()).toEqual([]);
    expect(await field("height").evaluate((control) => control === document.activeElement)).toBe(true);
    await field("height").fill("6'2\"");
    await field("balloon").fill("12");
    await page.getByText("3 more, all optional").click();
    await field("tied").selectOption("TRUE");
    await eventually(() => page.locator(".bln-formula").textContent()).toBe(
      '=BLN.TEST_STACK("6\'2""", 12, , TRUE)',
    );
    await page.getByRole("button", { name: "Put in the selected cell" }).click();
    await eventually(told).toEqual(['=BLN.TEST_STACK("6\'2""", 12, , TRUE)']);
    expect(await page.locator(".bln-view > [role=status]").textContent()).toBe("put in B4");
    await field("balloon").press("Enter");
    await eventually(async () => (await told()).length).toBe(2);
    await page.getByRole("button", { name: "All functions" }).click();
    await eventually(async () => (await told()).at(-1)).toBe("back");
  });

  it("draws the piece and takes its colours", async () => {
    await page.evaluate(() => {
      window.views.showForm("TEST_STACK");
      window.views.fill(["6 ft", 12]);
    });
    await eventually(() => page.locator(".bln-picture circle").count()).toBe(6);
    expect(
      await page.getByRole("img", { name: /TEST_STACK\("6 ft", 12\) seen from the front/ }).count(),
    ).toBe(1);
    await page.getByRole("button", { name: "Add a colour" }).click();
    expect(await page.locator(".bln-picture radialGradient").count()).toBe(5);
    await page.getByRole("button", { name: "Remove the last" }).click();
    expect(await page.locator(".bln-picture radialGradient").count()).toBe(4);
    await page.getByRole("button", { name: "Save" }).click();
    await eventually(() => page.locator(".bln-picture-view [role=status]").textContent()).toBe("saved");
    await field("balloon").fill("none");
    await eventually(() => page.locator(".bln-picture circle").count()).toBe(0);
  });

  it("reads typed rows into a table", async () => {
    await page.evaluate(() => {
      window.views.showForm("TEST_TOTALS");
    });
    await field("lines").fill("arch\t220\t0.5\nwall\t169\t1234.5");
    await eventually(() => result().locator("tbody tr").count()).toBe(2);
    expect(await result().locator("th").allTextContents()).toEqual(["item", "total"]);
    expect(await result().locator("td").allTextContents()).toEqual([
      "arch",
      "110.00",
      "wall",
      "208\u202f630.50",
    ]);
    expect(await page.locator(".bln-formula").textContent()).toBe(
      '=BLN.TEST_TOTALS({"arch",220,0.5;"wall",169,1234.5})',
    );
    await field("lines").fill("arch, many, 1");
    await eventually(() => faultOf("lines").textContent()).toContain(
      "lines row 1: count must be a whole number",
    );
  });

  it("asks the host for references, and leaves to the sheet what the host does not know", async () => {
    await page.evaluate(() => {
      window.views.showForm(
        "TEST_TOTALS",
        {
          "Lines!A1:C2": [
            ["arch", 2, 3],
            ["wall", 1, 1],
          ],
          one: [[0.1]],
        },
        "Lines!A1:C2",
      );
    });
    await page.getByRole("button", { name: "Use selection for lines" }).click();
    await eventually(() => result().locator("td").allTextContents()).toEqual([
      "arch",
      "6.00",
      "wall",
      "1.00",
    ]);
    expect(await echoOf("lines").textContent()).toBe("2 x 3 cells read");
    expect(await page.locator(".bln-formula").textContent()).toBe("=BLN.TEST_TOTALS(Lines!A1:C2)");
    await field("rates").fill("one");
    await eventually(() => page.locator(".bln-formula").textContent()).toBe(
      "=BLN.TEST_TOTALS(Lines!A1:C2, one)",
    );
    await field("rates").fill("B2:B9");
    await eventually(() => echoOf("rates").textContent()).toBe("B2:B9 is read in the sheet");
    await eventually(() => result().textContent()).toBe("The result shows in the sheet.");
    // A name that the workbook does not have is a typed word.
    await field("rates").fill("nobody");
    await eventually(() => faultOf("rates").textContent()).toContain(
      'rates cell 1 must be a share such as 0.1 or "10%", found "nobody"',
    );
  });

  it("looks for tables of a job only where a function takes them in any place", async () => {
    await page.evaluate(() => {
      window.views.showForm("EACH", undefined, undefined, []);
    });
    await page.getByRole("button", { name: "Put in the selected cell" }).waitFor();
    expect(await page.getByRole("button", { name: "Look for the tables again" }).count()).toBe(0);
  });

  it("fills in the tables of the workbook, says which was read as what, and draws their pieces", async () => {
    await page.evaluate(() => {
      window.views.showForm(
        "PART_PLAN",
        {
          "Pieces[#All]": [
            [
              "name",
              "kind",
              "printed",
              "palette",
              "colour",
              "height",
              "balloons",
              "ribbon",
              "quantity",
              "inflated",
            ],
            ["Door", "column", 11, "Sea", null, 2, null, null, 2, 10],
            ["Table", "bouquet", 11, null, "Gold", null, 3, 1.2, 10, null],
            ["Lamp", "foil", null, null, "Gold", null, null, null, 1, null],
          ],
          "Job!A1:C50": [
            ["palette", "colour", "share"],
            ["Sea", "Navy", 1],
            ["Sea", "Foam 3", 1],
          ],
        },
        undefined,
        [
          { sort: "pieces", reference: "Pieces[#All]", rows: 3 },
          { sort: "pieces", reference: "Old!A1:B9", rows: 8 },
          { sort: "palettes", reference: "Job!A1:C50", rows: 2 },
        ],
      );
    });
    await eventually(() => page.locator(".bln-formula").textContent()).toBe(
      "=BLN.PART_PLAN(Pieces[#All], Job!A1:C50)",
    );
    const said = page.locator(".bln-form .bln-quiet li");
    expect(await said.allTextContents()).toEqual([
      "Pieces[#All] read as pieces, 3 rows",
      "Job!A1:C50 read as palettes, 2 rows",
      "Old!A1:B9 is left out: another table is read as pieces",
    ]);
    expect(await echoOf("pieces").textContent()).toBe("read as pieces, 3 rows");
    expect(await field("pieces").isVisible()).toBe(true);
    expect(await field("goods").isVisible()).toBe(false);
    expect(await page.locator("summary", { hasText: "12 more, all optional" }).count()).toBe(1);
    // A column of 2 m of 10 in balloons as COUNT_COLUMN has it, and three on ribbons.
    const column = catalogue.find(({ name }) => name === "COUNT_COLUMN")?.call([2, 10]);
    const balloons = column?.kind === "value" ? Number(column.value) : NaN;
    const circles = page.locator(".bln-picture svg > g[stroke-width] circle");
    expect(await circles.count()).toBe(balloons + 3);
    const words = await page.locator(".bln-picture text").allTextContents();
    expect(words).toEqual(expect.arrayContaining(["2 x Door", "10 x Table", "Navy", "Foam 3 *"]));
    expect(await page.locator(".bln-picture-view li").allTextContents()).toEqual([
      expect.stringContaining("not drawn: pieces row 4: "),
    ]);
    await page.getByLabel("Show").selectOption("Table");
    expect(await circles.count()).toBe(3);
    await page.getByRole("button", { name: "Save" }).click();
    await eventually(() => page.locator(".bln-picture-view [role=status]").textContent()).toBe("saved");
    await page.getByRole("button", { name: "Put in the selected cell" }).click();
    await eventually(told).toEqual(["=BLN.PART_PLAN(Pieces[#All], Job!A1:C50)"]);
    expect(await faultsOf("form of tables")).toEqual([]);
  });

  it("fills in an example", async () => {
    await page.evaluate(() => {
      window.views.showForm("TEST_STACK");
    });
    await page.getByText("Examples").click();
    await page.getByRole("button", { name: "Fill in" }).click();
    await eventually(() => result().locator(".bln-value").textContent()).toBe("6");
    expect(await field("form").inputValue()).toBe("leaning");
    expect(await field("form").isVisible()).toBe(true);
  });

  it.each(catalogue.map((fn) => [fn.name, fn] as const))(
    "of %s shows every example's formula and no error but what the example withholds",
    async (name, fn) => {
      await page.evaluate((shown) => {
        window.views.showForm(shown);
      }, name);
      for (const [index, example] of fn.examples.entries()) {
        const formula = await page.evaluate(([shown, at]) => window.views.fillExample(shown, at), [
          name,
          index,
        ] as const);
        expect(formula).toBe(formulaText(fn, example.args));
        expect(await page.locator(".bln-fault:not(:empty), .bln-error").allTextContents()).toEqual(
          withheldIn(example),
        );
        expect(await result().textContent()).not.toMatch(/NaN|undefined|null|Infinity|Fill in/);
      }
    },
  );
});

it("lists cells, goes to them, and asks before a change", async () => {
  await page.evaluate(() => {
    window.views.showWorkbook();
  });
  for (const name of ["Pieces!C4", "Quote!B2", "Needs!A2", "Make the copy"])
    await page.getByRole("button", { name }).click();
  expect(await told()).toEqual([7, 8, 9, "apply"]);
  expect(await page.getByText("Every formula was computed.").count()).toBe(1);
});

describe.each(["light", "dark"] as const)("in %s, 320 px wide", (scheme) => {
  it("has no view that an accessibility checker faults", async () => {
    await page.evaluate((theme) => {
      document.documentElement.dataset["theme"] = theme;
    }, scheme);
    const faults: string[] = [];
    await page.evaluate(() => {
      window.views.showList();
    });
    faults.push(...(await faultsOf("list")));
    await page.keyboard.type("stack");
    faults.push(...(await faultsOf("search")));
    await page.evaluate(() => {
      window.views.showForm("TEST_STACK", {}, "A1");
    });
    faults.push(...(await faultsOf("empty form")));
    await field("height").fill("15");
    await field("balloon").fill("250");
    await eventually(() => faultOf("balloon").textContent()).not.toBe("");
    for (const summary of await page.locator("summary").all()) await summary.click();
    faults.push(...(await faultsOf("form with an error")));
    await page.evaluate(() => {
      window.views.fill(["6 ft", 12]);
    });
    await eventually(() => page.locator(".bln-picture circle").count()).toBe(6);
    faults.push(...(await faultsOf("form with a picture")));
    await page.evaluate(() => {
      window.views.showForm("TEST_TOTALS");
      window.views.fill([[["a rather long word for an item", 1, 123456]]]);
    });
    await eventually(() => result().locator("td").count()).toBe(2);
    faults.push(...(await faultsOf("form with a table")));
    await page.evaluate(() => {
      window.views.showWorkbook();
    });
    faults.push(...(await faultsOf("workbook")));
    expect(faults).toEqual([]);
  });

  it("shows the theme of the system and the one chosen", async () => {
    const background = (): Promise<string> =>
      page
        .locator(".bln-view")
        .first()
        .evaluate((view) => getComputedStyle(view).backgroundColor);
    await page.evaluate(() => {
      window.views.showList();
    });
    await page.emulateMedia({ colorScheme: scheme });
    const ofSystem = await background();
    await page.evaluate(
      (theme) => {
        document.documentElement.dataset["theme"] = theme;
      },
      scheme === "light" ? "dark" : "light",
    );
    expect(await background()).not.toBe(ofSystem);
    await page.evaluate((theme) => {
      document.documentElement.dataset["theme"] = theme;
    }, scheme);
    expect(await background()).toBe(ofSystem);
    await page.emulateMedia({ colorScheme: "light" });
  });
});

it("makes a PNG of a picture", async () => {
  const bytes = await page.evaluate(() =>
    window.views.png(
      '<svg xmlns="http://www.w3.org/2000/svg" width="64" height="32"><rect width="64" height="32"/></svg>',
      128,
    ),
  );
  // PNG (ISO/IEC 15948) 5.2 and 11.2.2: signature, then IHDR with width and height as four bytes each.
  expect(bytes.slice(0, 8)).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
  expect(bytes.slice(16, 24)).toEqual([0, 0, 0, 128, 0, 0, 0, 64]);
});
