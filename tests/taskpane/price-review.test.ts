import { describe, expect, it } from "vitest";
import {
  changesSummary,
  comparedPrices,
  quotesUnder,
  raises,
  readPriceBook,
  withSnapshot,
  writePriceBook,
} from "../../src/taskpane/price-review";
import { FakeHost } from "./fake-host";

const snapshot = (taken: string) => ({
  taken,
  prices: [
    ["item", "price"],
    ["11 in <red> & é", 14.9],
  ],
  quotes: [],
});

describe("price snapshots", () => {
  it("travel in the workbook and come back as they were", async () => {
    const host = new FakeHost().addSheet("Plan");
    expect(await readPriceBook(host)).toEqual({ prices: "", quotes: "", snapshots: [] });
    const book = withSnapshot(
      { prices: "Prices[#All]", quotes: "Plan!A1:C3", snapshots: [] },
      snapshot("2027-01-01"),
    );
    await writePriceBook(host, book);
    expect(await readPriceBook(host)).toEqual(book);
    expect(host.parts.size).toBe(1);
  });

  it("are at most so many, the oldest going first", () => {
    let book = { prices: "", quotes: "", snapshots: [] as readonly ReturnType<typeof snapshot>[] };
    for (let day = 1; day <= 40; day++) book = withSnapshot(book, snapshot(String(day))) as typeof book;
    expect(book.snapshots.length).toBeLessThan(40);
    expect(book.snapshots.at(-1)?.taken).toBe("40");
  });

  it("that are damaged count as none", async () => {
    const host = new FakeHost().addSheet("Plan");
    await writePriceBook(host, { prices: "", quotes: "", snapshots: [] });
    const [namespace = ""] = host.parts.keys();
    for (const xml of [
      "<a/>",
      "<data",
      `<data xmlns="${namespace}">{</data>`,
      `<data xmlns="${namespace}">[1]</data>`,
    ]) {
      host.parts.set(namespace, xml);
      expect((await readPriceBook(host)).snapshots).toEqual([]);
    }
  });

  it("show what became dearer, cheaper, new and gone", () => {
    const titles = ["supplier", "printed", "colour", "bag", "price"];
    const before = [
      titles,
      ["Town", 11, "Navy", 50, 10],
      ["Town", 11, "White", 50, 8],
      ["Town", 5, "Gold", 100, 9],
    ];
    const now = [
      titles,
      ["Town", 11, "Navy", 50, 12],
      ["Town", 5, "Gold", 100, 6.3],
      ["Town", 5, "White", 100, 7],
    ];
    const { outcome } = comparedPrices(before, now) ?? {};
    const rows = outcome?.kind === "table" ? outcome.rows.slice(1) : [];
    // By hand: 12 / 10 - 1 = 20%, 6.3 / 9 - 1 = -30%.
    expect(rows.map((row) => row.at(-1)).sort()).toEqual(["cheaper", "dearer", "gone", "new"]);
    expect(rows.find((row) => row.at(-1) === "dearer")?.[6]).toBeCloseTo(0.2, 12);
    expect(rows.find((row) => row.at(-1) === "cheaper")?.[6]).toBeCloseTo(-0.3, 12);
    const changes = comparedPrices(before, now);
    const counts = changes === undefined ? "" : changesSummary(changes);
    expect(counts.split(", ").sort()).toEqual(["1 cheaper", "1 dearer", "1 gone", "1 new"]);
    const none = comparedPrices(before, before);
    expect(none && changesSummary(none)).toBe("");
  });

  it("show quotes under their margin with the price that restores it", () => {
    const quotes = [
      ["name", "price", "cost"],
      ["Regatta", 500, 350],
      ["Birthday", 200, 100],
    ];
    const under = quotesUnder(quotes, "40%", "price");
    const { outcome } = under ?? {};
    expect(under && raises(under)).toEqual(["Regatta: raise it from 500.00 to 583.34"]);
    // By hand: 350 / 0.6 = 583.333, up to the cent.
    expect(outcome).toMatchObject({ kind: "table" });
    expect(outcome?.kind === "table" ? outcome.rows.slice(1).map((row) => row[4]) : []).toEqual([
      583.34, 200,
    ]);
  });
});
