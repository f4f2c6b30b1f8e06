import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { CellChange, CellValue, WorkbookModel } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import { afterTyping, beside, blankRow, isError, planRows, tableRows, typed } from "./sample-cells";

const file = new Uint8Array(readFileSync("sample-workbooks/regatta-evening.xlsx"));
const { model } = openWorkbook(file);

const cents = (value: CellValue | undefined): number => Math.round(Number(value) * 100);
const sumCents = (values: readonly (CellValue | undefined)[]): number =>
  values.reduce<number>((sum, value) => sum + cents(value), 0);

const costs = planRows(model, "Costs", "event");
const verdict = (of: WorkbookModel): CellValue => beside(of, "Start", "Can this job go out?");
const offer = (of: WorkbookModel): ReadonlyMap<CellValue, CellValue> =>
  new Map(planRows(of, "Offer", "section").map(({ line, amount }) => [line ?? null, amount ?? null]));

/** A whole workbook is computed in each of these. */
const LONG = 30_000;

describe("the regatta evening", { timeout: LONG }, () => {
  it("is ready, and shows it on its first sheet", () => {
    expect(verdict(model)).toBe("ready");
    expect(planRows(model, "Start", "weight")[0]).toMatchObject({ weight: "ready" });
  });

  it("adds up from what each piece costs to what the client pays", () => {
    for (const row of costs) {
      const parts = ["materials", "goods", "work", "travel"].map((name) => row[name]);
      expect(sumCents(parts), String(row["name"])).toBe(cents(row["cost"]));
      // By hand: price each = cost / quantity / (1 - 45 %), to the cent.
      const each = Math.round(cents(row["cost"]) / Number(row["quantity"]) / 0.55);
      expect(cents(row["each"]), String(row["name"])).toBe(each);
      expect(cents(row["price"])).toBe(each * Number(row["quantity"]));
    }
    const subtotal = sumCents(costs.map((row) => row["price"]));
    const total = subtotal + Math.round(subtotal * 0.2);
    const lines = offer(model);
    expect(cents(lines.get("subtotal"))).toBe(subtotal);
    expect(cents(lines.get("total"))).toBe(total);
    expect(cents(lines.get("deposit")) + cents(lines.get("balance"))).toBe(total);
    expect(cents(beside(model, "Start", "Total to pay"))).toBe(total);
  });

  it("buys and takes from the shelf enough of every size, colour and type for what it packs", () => {
    const word = (row: Readonly<Record<string, CellValue>>): string =>
      `${String(row["printed in"])} in ${String(row["colour"])}${row["type"] === "foil" ? " foil" : ""}`;
    const had = new Map<string, number>();
    const add = (key: string, count: number): void => void had.set(key, (had.get(key) ?? 0) + count);
    for (const { cells } of tableRows(model, "Stock")) add(word(cells), Number(cells["count"]));
    const prices = tableRows(model, "Prices").map(({ cells }) => cells);
    const order = planRows(model, "Order", "section").filter(({ unit }) =>
      /^bags? of \d+$/.test(String(unit)),
    );
    expect(order.length).toBeGreaterThan(12);
    for (const { section, line, amount, unit } of order) {
      const bag = Number(String(unit).replace(/\D+/, ""));
      const row = prices.find(
        (price) => price["supplier"] === section && word(price) === line && price["bag"] === bag,
      );
      expect(row, `${String(section)} ${String(line)}`).toBeDefined();
      add(String(line), Number(amount) * Math.floor(bag * Number(row?.["good each"] ?? 1) + 1e-9));
    }
    const packed = planRows(model, "Packing", "section").filter(({ section }) => section === "balloons");
    expect(packed.length).toBeGreaterThan(10);
    for (const { line, amount } of packed)
      expect(had.get(String(line)) ?? 0, String(line)).toBeGreaterThanOrEqual(Number(amount));
  });

  it("shows two options, one over the budget and one within", () => {
    const options = planRows(model, "Options", "event");
    expect(options.map(({ option }) => option)).toEqual(["A", "B"]);
    for (const row of options) expect(cents(row["over"])).toBe(cents(row["total"]) - cents(row["budget"]));
    expect(Number(options[0]?.["over"])).toBeGreaterThan(0);
    expect(Number(options[1]?.["over"])).toBeLessThan(0);
  });

  it("follows a price from its cell to the offer and leaves counts alone", async () => {
    const rows = tableRows(model, "Prices").filter(
      ({ cells }) => cells["colour"] === "Navy" && cells["printed in"] === 11,
    );
    // Every bag of it, so that the order cannot step aside to another supplier.
    const { model: after, result } = await afterTyping(
      file,
      rows.map(({ row, cells }) => typed(model, "Prices", row, "price", Number(cells["price"]) * 2)),
    );
    expect(cents(offer(after).get("total"))).toBeGreaterThan(cents(offer(model).get("total")));
    const touched = new Set(result.changes.map(({ sheet }) => model.sheets[sheet]?.name));
    for (const sheet of ["Parts", "Packing", "Setup", "Returns", "Venue", "Clock"])
      expect(touched.has(sheet), sheet).toBe(false);
    for (const sheet of ["Start", "Options", "Costs", "Offer", "Order"])
      expect(touched.has(sheet), sheet).toBe(true);
  });

  it("takes a piece typed under the others everywhere, without a formula touched", async () => {
    const row = blankRow(model, "Pieces");
    const cells = {
      name: "Photo ball",
      kind: "ball",
      quantity: 1,
      "width m": 0.8,
      "printed in": 11,
      palette: "Regatta",
    };
    const { model: after, result } = await afterTyping(
      file,
      Object.entries(cells).map(([column, value]) => typed(model, "Pieces", row, column, value)),
    );
    expect(result.failing).toEqual([]);
    expect(verdict(after)).toBe("ready");
    for (const [sheet, first] of [
      ["Costs", "event"],
      ["Parts", "event"],
      ["Offer", "section"],
      ["Setup", "section"],
      ["Venue", "section"],
    ] as const) {
      const said = planRows(after, sheet, first).flatMap((one) => Object.values(one).map(String));
      expect(
        said.some((text) => text.includes("Photo ball")),
        sheet,
      ).toBe(true);
    }
    expect(cents(offer(after).get("total"))).toBeGreaterThan(cents(offer(model).get("total")));
  });
});

/** What goes wrong in a workbook on any day, each as one thing that someone typed. */
const BREAKS: readonly (readonly [string, (of: WorkbookModel) => readonly CellChange[], RegExp])[] = [
  [
    "a colour is renamed in the price list",
    (of) =>
      tableRows(of, "Prices")
        .filter(({ cells }) => cells["colour"] === "White")
        .map(({ row }) => typed(of, "Prices", row, "colour", "Ivory")),
    /nobody sells .*White/,
  ],
  [
    "pcs is typed for piece",
    (of) => [typed(of, "Goods", 1, "per", "pcs")],
    /goods row 2: per must be one of/,
  ],
  ["the price of a good is blanked", (of) => [typed(of, "Goods", 1, "price", null)], /goods row 2: price/],
  [
    "the only price of a balloon is blanked",
    (of) =>
      tableRows(of, "Prices")
        .filter(({ cells }) => cells["colour"] === "Clear")
        .map(({ row }) => typed(of, "Prices", row, "price", null)),
    /price_list row \d+: price/,
  ],
  ["pay is blanked", (of) => [termCell(of, "pay per hour", null)], /pay must be given/],
  ["the margin is blanked", (of) => [termCell(of, "margin", null)], /margin must be given/],
  ["a palette is misspelled", (of) => [typed(of, "Pieces", 1, "palette", "Dor")], /palette/],
  [
    "hours of a past job are words",
    (of) => [typed(of, "PastJobs", 1, "hours", "four")],
    /past_jobs row 2: hours/,
  ],
  ["a quantity is words", (of) => [typed(of, "Pieces", 1, "quantity", "a few")], /quantity/],
  [
    "an error stands in a price",
    (of) =>
      tableRows(of, "Prices")
        .filter(({ cells }) => cells["colour"] === "Clear")
        .map(({ row }) => typed(of, "Prices", row, "price", { error: "#N/A" })),
    /price_list row \d+: price/,
  ],
];

function termCell(of: WorkbookModel, term: string, value: CellValue): CellChange {
  const found = tableRows(of, "Terms").find(({ cells }) => cells["term"] === term);
  return typed(of, "Terms", found?.row ?? 0, "value", value);
}

describe("the regatta evening, when something is typed wrong", { timeout: LONG }, () => {
  it.each(BREAKS)("is not ready and gives no total: %s", async (_, breaking, reason) => {
    const { model: after, result } = await afterTyping(file, breaking(model));
    expect(verdict(after)).toBe("not ready");
    const stops = planRows(after, "Start", "weight").filter(({ weight }) => weight === "stop");
    expect(stops.map(({ what }) => String(what)).join("\n")).toMatch(reason);
    expect(stops.every((row) => String(row["do"] ?? "") !== "")).toBe(true);
    expect(isError(beside(after, "Start", "Total to pay"))).toBe(true);
    const shown = after.sheets.find(({ name }) => name === "Offer")?.cells ?? [];
    const numbers = shown.filter(
      ({ value, formula, column }) => column === 2 && formula === undefined && typeof value === "number",
    );
    expect(numbers).toEqual([]);
    expect(result.failing.some(({ sentence }) => reason.test(sentence))).toBe(true);
  });
});
