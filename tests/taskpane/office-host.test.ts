import { OfficeMockObject } from "office-addin-mock";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { connectOffice } from "../../src/taskpane/connect-office";
import { officeHost } from "../../src/taskpane/office-host";
import { area, at } from "./fake-host";
import { stubExcel } from "./strict-excel";

// Microsoft's mock answers "Error, ..." for what was read before load and sync, so a missing one shows in the values. It
// knows plain objects only: what Excel's own collections do cannot be seen here.

type Plain = Record<string, unknown>;

const corners = { rowIndex: 2, columnIndex: 1, rowCount: 3, columnCount: 2 };
let written: Plain = {};

function excel(workbook: Plain): void {
  const mock = new OfficeMockObject({
    context: { workbook },
    run: async function (this: { context: unknown }, batch: (context: unknown) => Promise<unknown>) {
      return batch((this as { context: unknown }).context);
    },
    ClearApplyTo: { contents: "Contents" },
    RangeCopyType: { values: "Values" },
  });
  vi.stubGlobal("Excel", mock);
}

function sheetWith(range: Plain): Plain {
  return {
    getItem: () => ({
      getRangeByIndexes: function (this: Plain, ...numbers: number[]) {
        written["asked"] = numbers;
        return (globalThis as unknown as { Excel: { context: { workbook: { range: Plain } } } }).Excel.context
          .workbook.range;
      },
    }),
    ...range,
  };
}

beforeEach(() => {
  written = {};
});

describe("the workbook through Office.js", () => {
  it("reads formulas and values after loading both", async () => {
    excel({ worksheets: sheetWith({}), range: { formulas: [["=1+1", "x"]], values: [[2, "x"]] } });
    expect(await officeHost.read([area("Plan!B3:C3")])).toEqual([
      { formulas: [["=1+1", "x"]], values: [[2, "x"]] },
    ]);
    expect(written["asked"]).toEqual([2, 1, 1, 2]);
  });

  it.each([
    [false, true, []],
    [true, true, [expect.stringContaining("rows are hidden")]],
    [null, false, [expect.stringContaining("rows are hidden"), "Plan!B3:B4 is merged: unmerge it first"]],
  ])("tells hidden rows (%s) and cells that are not merged (%s)", async (rowHidden, isNullObject, found) => {
    vi.stubGlobal("Office", { context: { requirements: { isSetSupported: () => true } } });
    const range = {
      rowHidden,
      getMergedAreasOrNullObject: () => ({ isNullObject, address: "Plan!B3:B4" }),
    };
    stubExcel({ worksheets: { getItem: () => ({ getRangeByIndexes: () => range }) } });
    expect(await officeHost.obstacles(area("Plan!B3:B9"))).toEqual(found);
  });

  it("asks an Excel only for what it says it has", async () => {
    const asked: string[] = [];
    const isSetSupported = (set: string, version: string): boolean => {
      asked.push(`${set} ${version}`);
      return false;
    };
    vi.stubGlobal("Office", { context: { requirements: { isSetSupported } } });
    const log = stubExcel({});
    expect(await officeHost.decimalMark()).toBeUndefined();
    expect(await officeHost.obstacles(area("Plan!B3:B9"))).toEqual([
      expect.stringContaining("cannot tell merged cells"),
    ]);
    expect(asked).toEqual(["ExcelApi 1.11", "ExcelApi 1.13"]);
    expect(log).toEqual([]);
  });

  it("reads the selection and the region around a cell", async () => {
    excel({
      worksheets: { ...sheetWith({}), getActiveWorksheet: () => excelNow()["sheet"] },
      sheet: { name: "Plan" },
      first: corners,
      range: { getSurroundingRegion: () => excelNow()["first"] },
      getSelectedRanges: () => ({ areas: { getItemAt: () => excelNow()["first"] } }),
    });
    expect(await officeHost.selection()).toEqual(area("Plan!B3:C5"));
    expect(await officeHost.surrounding(at("Plan!B3"))).toEqual(area("Plan!B3:C5").range);
  });

  it("reads what a cell fills, and knows the cell of another's spill", async () => {
    const none = { isNullObject: true };
    const filled = { isNullObject: false, ...corners };
    const cell = {
      getSpillingToRangeOrNullObject: () => none,
      getSpillParentOrNullObject: () => ({ ...filled }),
    };
    const anchor = { ...cell, getSpillingToRangeOrNullObject: () => ({ ...filled }) };
    stubExcel({
      worksheets: {
        getItem: () => ({ getRangeByIndexes: (row: number) => (row === 2 ? { ...anchor } : { ...cell }) }),
      },
    });
    expect(await officeHost.spills([at("Plan!B3"), at("Plan!B4")])).toEqual([
      area("Plan!B3:C5").range,
      undefined,
    ]);
  });

  it("reads what the workbook consists of in two goes", async () => {
    const sheet = (name: string, used: Plain): Plain => ({
      name,
      getUsedRangeOrNullObject: () => used,
      protection: { protected: name === "Locked" },
      names: { items: [{ name: "Floor", formula: "=Plan!$A$1" }] },
    });
    const log = stubExcel({
      worksheets: {
        items: [sheet("Plan", { isNullObject: false, ...corners }), sheet("Locked", { isNullObject: true })],
      },
      tables: {
        items: [
          {
            name: "Prices",
            showHeaders: true,
            showTotals: false,
            getRange: () => ({ ...corners }),
            worksheet: { name: "Plan" },
            columns: { items: [{ name: "Item" }, { name: "Price" }] },
          },
        ],
      },
      names: { items: [{ name: "Everywhere", formula: "=Plan!$B$2" }] },
    });
    const { sheets, tables, names } = await officeHost.outline();
    expect(sheets).toEqual([
      { name: "Plan", isProtected: false, used: area("Plan!B3:C5").range },
      { name: "Locked", isProtected: true },
    ]);
    expect(tables).toEqual([
      { name: "Prices", ...area("Plan!B3:C5"), columns: ["Item", "Price"], headerRows: 1, totalsRows: 0 },
    ]);
    expect(names).toEqual([
      { name: "Everywhere", reference: "Plan!$B$2" },
      { name: "Floor", sheet: "Plan", reference: "Plan!$A$1" },
      { name: "Floor", sheet: "Locked", reference: "Plan!$A$1" },
    ]);
    expect(log.filter((entry) => entry === "sync")).toHaveLength(2);
  });

  it("enters any number of formulas in one go, and empties first what they will fill", async () => {
    const log = stubExcel({
      worksheets: { getItem: () => ({ getRangeByIndexes: () => ({ clear: () => undefined }) }) },
    });
    await officeHost.enter([
      { ...at("Plan!A1"), formula: "=BLN.METRES(1)" },
      { ...at("Plan!B2"), formula: "=BLN.BAG_PLAN(1)", filled: area("Plan!B2:C4").range },
    ]);
    const after = log.map((entry) => entry.replace(/^.*getRangeByIndexes\./, ""));
    expect(after.filter((entry) => entry === "sync")).toHaveLength(1);
    expect(
      log
        .filter((entry) => /formulas = |clear/.test(entry))
        .map((entry) => entry.split(".").slice(4).join(".")),
    ).toEqual(['formulas = [["=BLN.METRES(1)"]]', 'clear("Contents")', 'formulas = [["=BLN.BAG_PLAN(1)"]]']);
  });

  it("turns areas into values by copying them onto themselves", async () => {
    const log = stubExcel({
      worksheets: { getItem: () => ({ getRangeByIndexes: () => ({ copyFrom: () => undefined }) }) },
    });
    await officeHost.freeze([area("Plan!A1"), area("Plan!B2:C4")]);
    expect(log.filter((entry) => entry.includes('copyFrom(object, "Values")'))).toHaveLength(2);
    expect(log.at(-1)).toBe("sync");
  });

  it("writes the sheet of kept formulas as text before anything can compute", async () => {
    const range = {};
    const sheet = {
      isNullObject: true,
      getRange: () => ({ clear: () => undefined }),
      getRangeByIndexes: () => ({ ...range, getEntireColumn: () => ({ format: {} }) }),
    };
    const log = stubExcel({
      worksheets: { getItemOrNullObject: () => ({ isNullObject: true }), add: () => sheet },
    });
    await officeHost.writeSheet("Kept formulas", [["=1"], ["a", "b"]], [20, 10]);
    const steps = log
      .filter((entry) => /numberFormat|values = |columnWidth/.test(entry))
      .map((entry) => entry.split(".").at(-1));
    expect(steps).toEqual([
      'numberFormat = [["@"]]',
      'values = [["=1",""],["a","b"]]',
      "columnWidth = 112",
      "columnWidth = 56",
    ]);
  });

  it("keeps one part of a namespace", async () => {
    const part = (): Plain => ({
      id: "1",
      getXml: () => ({ value: "<data/>" }),
      setXml: () => undefined,
      delete: () => undefined,
    });
    const workbook = (items: readonly Plain[]): Plain => ({
      customXmlParts: { getByNamespace: () => ({ items }), add: () => undefined },
    });
    stubExcel(workbook([]));
    expect(await officeHost.readPart("urn:x")).toBeUndefined();
    stubExcel(workbook([part()]));
    expect(await officeHost.readPart("urn:x")).toBe("<data/>");
    const changes = async (items: readonly Plain[], xml: string | undefined): Promise<readonly string[]> => {
      const log = stubExcel(workbook(items));
      await officeHost.writePart("urn:x", xml);
      return log.flatMap((entry) => /\.(add|setXml|delete)\(/.exec(entry)?.[1] ?? []);
    };
    expect(await changes([], "<a/>")).toEqual(["add"]);
    expect(await changes([part()], "<a/>")).toEqual(["setXml"]);
    expect(await changes([part(), part()], "<a/>")).toEqual(["delete", "setXml"]);
    expect(await changes([part()], undefined)).toEqual(["delete"]);
  });

  it("puts a new picture beside its cell, and one that is there already where a person has moved it", async () => {
    const picture = {
      name: "p",
      beside: at("Plan!B3"),
      png: "AAAA",
      width: 200,
      height: 100,
      text: "an arch",
    };
    const put = async (before: Plain): Promise<readonly string[]> => {
      const cell = { left: 50, top: 40, width: 30 };
      const log = stubExcel({
        worksheets: {
          getItem: () => ({
            getRangeByIndexes: () => cell,
            shapes: { getItemOrNullObject: () => before, addImage: () => ({}) },
          }),
        },
      });
      await officeHost.putPicture(picture);
      return log.flatMap(
        (entry) =>
          /\.((?:left|top|width|height|name|altTextDescription) = .*|delete\(.*)$/.exec(entry)?.[1] ?? [],
      );
    };
    expect(await put({ isNullObject: true })).toEqual([
      'name = "p"',
      'altTextDescription = "an arch"',
      "left = 92",
      "top = 40",
      "width = 200",
      "height = 100",
    ]);
    expect(await put({ isNullObject: false, left: 7, top: 8, width: 100, delete: () => undefined })).toEqual([
      "delete()",
      'name = "p"',
      'altTextDescription = "an arch"',
      "left = 7",
      "top = 8",
      "width = 100",
      "height = 50",
    ]);
  });

  it("tells errors of Excel in a sentence", async () => {
    vi.stubGlobal("Excel", {
      run: () => Promise.reject(Object.assign(new Error("raw"), { code: "AccessDenied" })),
    });
    await expect(officeHost.outline()).rejects.toThrow("the sheet or the workbook is protected");
    vi.stubGlobal("Excel", { run: () => Promise.reject(new Error("something of Excel's own")) });
    await expect(officeHost.outline()).rejects.toThrow("something of Excel's own");
  });
});

describe("Office around the pane", () => {
  const office = (context: Plain, host: string | null = "Excel"): void => {
    vi.stubGlobal("Office", {
      onReady: () => Promise.resolve({ host }),
      HostType: { Excel: "Excel" },
      context,
    });
  };

  it.each([
    [{ officeTheme: { isDarkTheme: true } }, "dark"],
    [{ officeTheme: { isDarkTheme: false } }, "light"],
    [{ officeTheme: { bodyBackgroundColor: "#262626" } }, "dark"],
    [{ officeTheme: { bodyBackgroundColor: "#F3F2F1" } }, "light"],
    [{ officeTheme: undefined }, undefined],
    [{}, undefined],
  ])("%o is %s", async (context, theme) => {
    office(context);
    expect((await connectOffice()).theme).toBe(theme);
  });

  it("gives no host outside of Excel", async () => {
    office({}, null);
    expect((await connectOffice()).host).toBeUndefined();
    vi.stubGlobal("Office", { onReady: () => Promise.resolve({ host: null }), HostType: { Excel: "Excel" } });
    expect(await connectOffice()).toEqual({ host: undefined, theme: undefined, partition: "" });
  });

  it("keeps the choice about the trust prompt in the document's settings, where Excel has it", async () => {
    const kept = new Map<string, unknown>();
    const settings = {
      get: (name: string) => kept.get(name) ?? null,
      set: (name: string, value: unknown) => void kept.set(name, value),
      remove: (name: string) => void kept.delete(name),
      saveAsync: (done: (result: unknown) => void) => {
        done({ status: "succeeded" });
      },
    };
    const shared = {
      AsyncResultStatus: { Failed: "failed" },
      PlatformType: { PC: "PC", Mac: "Mac", OfficeOnline: "OfficeOnline" },
      StartupBehavior: { load: "Load", none: "None" },
      addin: { getStartupBehavior: () => Promise.resolve("Load") },
    };
    vi.stubGlobal("Office", { ...shared, context: { platform: "PC", document: { settings } } });
    expect(await officeHost.choices()).toEqual({ startsOnOpen: true, hidesTrustPrompt: false });
    await officeHost.setHidesTrustPrompt(true);
    expect([...kept]).toEqual([["Office.DisableTrustUX", true]]);
    expect(await officeHost.choices()).toEqual({ startsOnOpen: true, hidesTrustPrompt: true });
    await officeHost.setHidesTrustPrompt(false);
    expect(kept.size).toBe(0);
    vi.stubGlobal("Office", { ...shared, context: { platform: "OfficeOnline", document: { settings } } });
    expect((await officeHost.choices()).hidesTrustPrompt).toBeUndefined();
  });
});

function excelNow(): Record<string, Plain> {
  return (globalThis as unknown as { Excel: { context: { workbook: Record<string, Plain> } } }).Excel.context
    .workbook;
}
