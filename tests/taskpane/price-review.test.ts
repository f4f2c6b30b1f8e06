import { describe, expect, it } from "vitest";
import { quotesUnder, readPriceBook, withSnapshot, writePriceBook } from "../../src/taskpane/price-review";
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

  it("show quotes under their margin with the price that restores it", () => {
    const quotes = [
      ["name", "price", "cost"],
      ["Regatta", 500, 350],
      ["Birthday", 200, 100],
    ];
    const { outcome } = quotesUnder(quotes, "40%", "price") ?? {};
    // By hand: 350 / 0.6 = 583.333, up to the cent.
    expect(outcome).toMatchObject({ kind: "table" });
    expect(outcome?.kind === "table" ? outcome.rows.slice(1).map((row) => row[4]) : []).toEqual([
      583.34, 200,
    ]);
  });
});
