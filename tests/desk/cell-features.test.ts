import type { Locator } from "playwright-core";
import { describe, expect, it } from "vitest";
import { parseCell } from "../../src/formula/address";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { pictureParts } from "../workbook/picture-parts";
import { tinyWorkbook } from "../workbook/tiny-package";
import { PLAIN } from "./desk-page";
import { sharedDesk } from "./shared-desk";

const { desk } = await sharedDesk();

const text = (address: string, value: string): string =>
  `<c r="${address}" t="inlineStr"><is><t>${value}</t></is></c>`;
const number = (address: string, value: number): string => `<c r="${address}"><v>${String(value)}</v></c>`;

/** A job table: a gas and a colour from lists, a number of clusters within limits. */
const CHECKS =
  '<dataValidations count="3"><dataValidation type="list" allowBlank="1" showErrorMessage="1" sqref="A2:A9"><formula1>"air,helium"</formula1></dataValidation>' +
  '<dataValidation type="list" allowBlank="1" sqref="B2:B9"><formula1>$F$2:$F$4</formula1></dataValidation>' +
  '<dataValidation type="whole" operator="between" allowBlank="1" showErrorMessage="1" sqref="C2:C9"><formula1>1</formula1><formula2>$F$6</formula2></dataValidation></dataValidations>';
const JOB = tinyWorkbook({
  rows:
    `<row r="1">${text("A1", "gas")}${text("B1", "colour")}${text("C1", "clusters")}</row>` +
    `<row r="2">${text("A2", "air")}${text("F2", "gold")}</row>` +
    `<row r="3">${text("F3", "navy")}</row><row r="4">${text("F4", "ivory")}</row><row r="6">${number("F6", 40)}</row>`,
  behind: CHECKS,
});

const choices = (): Locator => desk.page.getByRole("listbox", { name: "Choices for the selected cell" });

/** What the saved file holds in a cell, and the markup of its sheet. */
async function saved(): Promise<{ cell(address: string): unknown; readonly sheet: string }> {
  const { bytes } = await desk.download("Save");
  const { model, parts } = openWorkbook(bytes);
  return {
    cell: (address) => {
      const place = parseCell(address);
      return model.sheets[0]?.cells.find(({ row, column }) => row === place?.row && column === place.column)
        ?.value;
    },
    sheet: parts.readText(model.sheets[0]?.part ?? ""),
  };
}

describe("a job table with drop-downs", { timeout: 60_000 }, () => {
  it("offers the choices by key and by pointer, and keeps them in the file", async () => {
    await desk.open("job.xlsx", JOB);
    await desk.page.locator(".desk-message", { hasText: /also has/ }).waitFor({ state: "detached" });
    await expect.poll(() => desk.read("A3")).toBe("A3  (Alt+Down offers a list)");
    await desk.page.keyboard.press("Alt+ArrowDown");
    const list = choices();
    await list.waitFor();
    expect(await list.getByRole("option").allTextContents()).toEqual(["air", "helium"]);
    await desk.page.keyboard.press("h");
    await desk.page.keyboard.press("Enter");
    await desk.ready();
    await expect.poll(() => desk.read("A3")).toBe("A3 helium (Alt+Down offers a list)");
    // The keys are back on the sheet.
    await desk.page.keyboard.press("ArrowRight");
    await desk.page.locator(".desk-message", { hasText: /^B3 / }).waitFor();
    const arrow = desk.page.locator(".desk-arrow");
    await arrow.click();
    const [cell, options] = await Promise.all([arrow.boundingBox(), list.boundingBox()]);
    expect(options?.y).toBeCloseTo((cell?.y ?? 0) + (cell?.height ?? 0), -1);
    await list.getByRole("option", { name: "ivory" }).click();
    await expect.poll(() => desk.read("B3")).toContain("B3 ivory");
    await desk.read("D3");
    expect(await arrow.isVisible()).toBe(false);
    // The list begins where the cell is.
    await desk.read("A3");
    await desk.page.keyboard.press("Alt+ArrowDown");
    expect(await choices().locator("[aria-selected=true]").textContent()).toBe("helium");
    await desk.page.keyboard.press("Escape");
    const file = await saved();
    expect([file.cell("A3"), file.cell("B3")]).toEqual(["helium", "ivory"]);
    expect(file.sheet).toContain(CHECKS);
  });

  it("leaves the list by Escape with nothing chosen, and follows the cell when the sheet scrolls", async () => {
    await desk.open("job.xlsx", JOB);
    await desk.read("A5");
    await desk.page.keyboard.press("Alt+ArrowDown");
    await choices().waitFor();
    await desk.page.keyboard.press("Escape");
    expect(await choices().isVisible()).toBe(false);
    await expect.poll(() => desk.read("A5")).toBe("A5  (Alt+Down offers a list)");
    const arrow = desk.page.locator(".desk-arrow");
    const before = (await arrow.boundingBox())?.y ?? 0;
    await desk.page.mouse.move(300, 400);
    await desk.page.mouse.wheel(0, 40);
    await expect.poll(async () => (await arrow.boundingBox())?.y ?? 0).toBeLessThan(before - 10);
    await desk.page.mouse.wheel(0, 2000);
    await expect.poll(() => arrow.isVisible()).toBe(false);
  });

  it("refuses what the file forbids with a sentence, and lets through what it allows", async () => {
    await desk.open("job.xlsx", JOB);
    await desk.read("A4");
    await desk.page.keyboard.type("argon");
    await desk.page.keyboard.press("Enter");
    const fault = desk.page.locator(".desk-message[data-tone=error]");
    await fault.filter({ hasText: 'A4 must be one of air, helium, found "argon"' }).waitFor();
    // Its cell is still the selected one.
    await desk.read("A6");
    await expect.poll(() => desk.read("A4")).toContain("A4  (");
    await desk.read("C2");
    await desk.page.keyboard.type("41");
    await desk.page.keyboard.press("Enter");
    await fault.filter({ hasText: "C2 must be a whole number from 1 to 40, found 41" }).waitFor();
    await desk.type("C2", "40");
    await desk.type("B4", "teal");
    const file = await saved();
    expect([file.cell("A4"), file.cell("C2"), file.cell("B4")]).toEqual([undefined, 40, "teal"]);
  });
});

describe("lists and checks that a formula answers", { timeout: 60_000 }, () => {
  const rows =
    `<row r="1">${text("A1", "gold")}${text("B1", "navy")}</row><row r="2">${text("A2", "Pale")}</row>` +
    `<row r="3"/><row r="6">${text("F6", "sky")}${text("G6", "sand")}</row>`;
  const behind =
    '<dataValidations count="2"><dataValidation type="list" showErrorMessage="1" sqref="C2"><formula1>INDIRECT(A2)</formula1></dataValidation>' +
    '<dataValidation type="custom" showErrorMessage="1" sqref="D2:D9"><formula1>LEN(D2)=3</formula1></dataValidation></dataValidations>';
  const workbook = tinyWorkbook({
    rows,
    behind,
    workbookBehind:
      "<definedNames><definedName name=\"Pale\">'Sheet one'!$F$6:$G$6</definedName></definedNames>",
  });

  it("offers the list of a computed range, and says which value does not pass with a way back", async () => {
    await desk.open("computed.xlsx", workbook);
    await desk.page.locator(".desk-message", { hasText: /also has/ }).waitFor({ state: "detached" });
    await desk.read("C2");
    await desk.page.keyboard.press("Alt+ArrowDown");
    await choices().waitFor();
    expect(await choices().getByRole("option").allTextContents()).toEqual(["sky", "sand"]);
    await desk.page.keyboard.press("Enter");
    await desk.ready();
    await expect.poll(() => desk.read("C2")).toContain("C2 sky");
    const fault = desk.page.locator(".desk-message[data-tone=error]");
    await desk.type("C2", "grey");
    await fault.filter({ hasText: 'C2 must be one of sky, sand, found "grey"' }).waitFor();
    await desk.press("Take it back");
    await expect.poll(() => desk.read("C2")).toContain("C2 sky");
    await desk.type("D3", "abcd");
    await fault.filter({ hasText: 'D3 must be such that =LEN(D3)=3 holds, found "abcd"' }).waitFor();
    await desk.press("Take it back");
    await expect.poll(() => desk.read("D3")).toBe("D3 ");
    await desk.type("D3", "abc");
    await expect.poll(() => desk.read("D3")).toBe("D3 abc");
    expect((await saved()).sheet).toContain(behind);
  });
});

/** The colour of a point of the sheet's canvas, some pixels from the left and top edge of a cell. */
async function inkAt(address: string, right: number, down: number): Promise<string> {
  // The grid has no element for a cell: its column and row headings are 46 and 20 pixels, rows 20 and columns 64.
  const place = parseCell(address) ?? { row: 0, column: 0 };
  return desk.page.evaluate(
    ([x, y]) => {
      const canvases = [...document.querySelectorAll<HTMLCanvasElement>(".desk-grid canvas")];
      const canvas = canvases.sort((a, b) => b.width * b.height - a.width * a.height)[0];
      const [scale, context] = [devicePixelRatio, canvas?.getContext("2d")];
      const [r, g, b, alpha] = context?.getImageData((x ?? 0) * scale, (y ?? 0) * scale, 1, 1).data ?? [];
      return alpha === 0 ? "nothing" : [r, g, b].join(",");
    },
    [46 + place.column * 64 + right, 20 + place.row * 20 + down],
  );
}

describe("looks under conditions", { timeout: 60_000 }, () => {
  const LATE = tinyWorkbook({
    styles:
      '<dxfs count="1"><dxf><font><b/></font><fill><patternFill><bgColor rgb="FFFFC7CE"/></patternFill></fill></dxf></dxfs>',
    rows:
      `<row r="1">${number("A1", 3)}${number("B1", 10)}${number("C1", 0)}</row>` +
      `<row r="2">${number("A2", 8)}${number("C2", 50)}</row><row r="3">${number("A3", 9)}${number("C3", 100)}</row>`,
    behind:
      '<conditionalFormatting sqref="A1:A3"><cfRule type="expression" dxfId="0" priority="1"><formula>A1&lt;$B$1-1</formula></cfRule></conditionalFormatting>' +
      '<conditionalFormatting sqref="C1:C3"><cfRule type="colorScale" priority="2"><colorScale><cfvo type="min"/><cfvo type="max"/><color rgb="FFFF0000"/><color rgb="FF00FF00"/></colorScale></cfRule></conditionalFormatting>',
  });

  it("paints the cells that a formula means, and others once a cell changes", async () => {
    await desk.open("late.xlsx", LATE);
    const away = "E9";
    const at = async (address: string): Promise<string> => {
      await desk.read(away);
      return inkAt(address, 20, 4);
    };
    await expect.poll(() => at("A1")).toBe("255,199,206");
    expect(await at("A2")).toBe("255,199,206");
    expect(await at("A3")).toBe("nothing");
    await desk.type("B1", "4.5");
    await expect.poll(() => at("A2")).toBe("nothing");
    expect(await at("A1")).toBe("255,199,206");
    // Halfway between red and green.
    expect([await at("C1"), await at("C2"), await at("C3")]).toEqual(["255,0,0", "128,128,0", "0,255,0"]);
    const { sheet } = await saved();
    expect(sheet).toContain("<formula>A1&lt;$B$1-1</formula>");
    expect(sheet).not.toContain('r="A1" s=');
  });
});

describe("notes, links and pictures", { timeout: 60_000 }, () => {
  it("hangs a picture where the file has it, follows wider columns and keeps it", async () => {
    await desk.open("picture.xlsx", tinyWorkbook(pictureParts()));
    await desk.read("A20");
    // From 10 pixels inside C2 to the corner of E7.
    await expect.poll(() => inkAt("D4", 10, 10)).toBe("0,0,255");
    expect(await inkAt("C2", 6, 10)).toBe("nothing");
    expect(await inkAt("E4", 10, 10)).toBe("nothing");
    await desk.type("A1", "a very long text that makes its column much wider");
    await desk.read("A1");
    await desk.press("Columns");
    await desk.press("Fit width");
    await desk.read("A20");
    await expect.poll(() => inkAt("C4", 20, 10)).toBe("nothing");
    const { bytes } = await desk.download("Save");
    const { parts } = openWorkbook(bytes);
    const before = openWorkbook(tinyWorkbook(pictureParts())).parts;
    for (const part of ["xl/media/image1.png", "xl/drawings/drawing1.xml"])
      expect(parts.read(part)).toEqual(before.read(part));
  });

  it("goes where a link inside the file leads, and offers the address of one outside", async () => {
    const links = tinyWorkbook({
      rows: `<row r="1">${text("A1", "order")}${text("B1", "down")}</row>`,
      behind:
        '<hyperlinks><hyperlink ref="A1" r:id="rId1"/><hyperlink ref="B1" location="\'Sheet one\'!C9"/></hyperlinks>',
      parts: {
        "xl/worksheets/_rels/sheet1.xml.rels":
          '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/hyperlink" Target="https://example.com/order" TargetMode="External"/></Relationships>',
      },
    });
    await desk.open("links.xlsx", links);
    await desk.read("A1");
    await desk.page.getByRole("button", { name: "Open https://example.com/order" }).waitFor();
    await desk.read("B1");
    await desk.press("Go to 'Sheet one'!C9");
    await desk.page.locator(".desk-message", { hasText: /^C9 / }).waitFor();
  });

  it("follows a link at a click and by key, opens what is safe and says why nothing else", async () => {
    const relation = (id: string, target: string): string =>
      `<Relationship Id="${id}" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/hyperlink" Target="${target}" TargetMode="External"/>`;
    const links = tinyWorkbook({
      rows: `<row r="1">${text("A1", "order")}${text("B1", "down")}${text("C1", "script")}</row>`,
      behind:
        '<hyperlinks><hyperlink ref="A1" r:id="rId1"/><hyperlink ref="B1" location="\'Sheet one\'!C9"/><hyperlink ref="C1" r:id="rId2"/></hyperlinks>',
      parts: {
        "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${relation("rId1", "https://example.com/order")}${relation("rId2", "javascript:alert(1)")}</Relationships>`,
      },
    });
    await desk.open("links.xlsx", links);
    await desk.page.evaluate(() => {
      const opened: unknown[] = [];
      Object.assign(window, { opened });
      window.open = (...args) => {
        opened.push(args);
        return null;
      };
    });
    const opened = (): Promise<unknown> =>
      desk.page.evaluate(() => (window as never as { opened: unknown }).opened);
    const click = async (column: number): Promise<void> => {
      const box = await desk.page.locator(".desk-grid canvas").last().boundingBox();
      await desk.page.mouse.click((box?.x ?? 0) + 46 + column * 64 + 20, (box?.y ?? 0) + 20 + 10);
    };
    await click(0);
    await expect.poll(opened).toEqual([["https://example.com/order", "_blank", "noopener,noreferrer"]]);
    await click(1);
    await desk.page.locator(".desk-message", { hasText: /^C9 / }).waitFor();
    await desk.read("B1");
    await desk.page.keyboard.press("Alt+ArrowDown");
    await desk.page.locator(".desk-message", { hasText: /^C9 / }).waitFor();
    await click(2);
    const fault = desk.page.locator(".desk-message[data-tone=error]");
    await fault.filter({ hasText: "the link to javascript:alert(1) is not opened" }).waitFor();
    await desk.page.keyboard.press("Alt+ArrowDown");
    // By keys alone a cell is only selected.
    await desk.read("A1");
    expect(await opened()).toHaveLength(1);
  });

  it("marks a number that is kept as a text, and no other text", async () => {
    const rows = `<row r="1">${text("A1", "120")}${text("B1", "item 7")}</row>`;
    await desk.open("texts.xlsx", tinyWorkbook({ rows }));
    await desk.read("D9");
    const isGreen = async (address: string): Promise<boolean> => {
      const [red = 0, green = 0, blue = 0] = (await inkAt(address, 2, 2)).split(",").map(Number);
      return green > red + 40 && green > blue + 40;
    };
    await expect.poll(() => isGreen("A1")).toBe(true);
    expect(await isGreen("B1")).toBe(false);
  });

  it("marks the cells that have a note, and says it", async () => {
    const cells = { B2: { value: 12 } };
    const sheets = [{ name: "S", cells, notes: { B2: "ask for the new price" } }];
    await desk.open("notes.xlsx", createWorkbook({ ...PLAIN, sheets }));
    expect(await desk.read("B2")).toBe("B2 12 (note: ask for the new price)");
    await desk.read("E9");
    await expect.poll(() => inkAt("B2", 62, 2)).toBe("192,57,43");
    expect(await inkAt("B3", 62, 2)).not.toBe("192,57,43");
  });
});
