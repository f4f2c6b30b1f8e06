import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { CellValue } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import { afterTyping, beside, isError, planRows, tableRows, typed, type Rows } from "./sample-cells";

const LONG = 30_000;
const file = new Uint8Array(readFileSync("sample-workbooks/two-events-week.xlsx"));
const { model } = openWorkbook(file);

const itemOf = (row: Readonly<Record<string, CellValue>>): string =>
  `${String(row["printed in"])} in ${String(row["colour"])}`;

function byItem(rows: Rows): ReadonlyMap<string, Rows> {
  const items = new Map<string, Rows>();
  for (const row of rows) items.set(itemOf(row), [...(items.get(itemOf(row)) ?? []), row]);
  return items;
}

describe("the week with two events", { timeout: LONG }, () => {
  const book = byItem(planRows(model, "Stock book", "date"));

  it("is ready", () => {
    expect(beside(model, "Start", "Can this job go out?")).toBe("ready");
  });

  it("keeps a book that adds up row by row and never falls below nothing", () => {
    expect(book.size).toBe(5);
    for (const [item, rows] of book) {
      let balance = 0;
      for (const row of rows) {
        balance += Number(row["in"] ?? 0) - Number(row["out"] ?? 0);
        expect(row["balance"], `${item} ${String(row["what"])}`).toBe(balance);
        expect(balance).toBeGreaterThanOrEqual(0);
      }
      expect(rows.map(({ what }) => what).at(0)).toBe("opening");
      expect(rows.map(({ what }) => what).at(-1)).toBe("closing");
    }
  });

  it("orders once for both what the book buys", () => {
    for (const { line, amount, unit } of planRows(model, "Order", "section")) {
      const bought = book.get(String(line))?.find(({ what }) => what === "bought");
      if (bought === undefined) continue;
      expect(Number(amount) * Number(String(unit).replace(/\D+/, "")), String(line)).toBe(bought["in"]);
    }
    // Friday's left-overs are back on the shelf before Sunday takes them.
    const navy = book.get("11 in Navy") ?? [];
    const rowAt = (what: string): number => navy.findIndex((row) => row["what"] === what);
    expect(rowAt("back")).toBeGreaterThan(rowAt("out"));
    expect(navy.map(({ what }) => what)).toEqual([
      "opening",
      "bought",
      "out",
      "back",
      "out",
      "back",
      "closing",
    ]);
  });

  it("learns its pace: three jobs of clusters by hand, normal with known variance", () => {
    const jobs = tableRows(model, "PastJobs").filter(({ cells }) => cells["style"] === "clusters");
    // y = ln(minutes each / 0.5), variance 0.3^2 + 1/n, prior normal round 0 with 0.4 (terms job spread, own spread).
    const told = jobs.map(({ cells }) => ({
      y: Math.log((Number(cells["hours"]) * 60) / Number(cells["balloons"]) / 0.5),
      precision: 1 / (0.3 ** 2 + 1 / Number(cells["balloons"])),
    }));
    const precision = 1 / 0.4 ** 2 + told.reduce((sum, one) => sum + one.precision, 0);
    const mean = told.reduce((sum, one) => sum + one.y * one.precision, 0) / precision;
    const learned = planRows(model, "Learned", "measure").find(
      ({ measure, of }) => measure === "pace" && of === "clusters",
    );
    expect(learned?.["jobs"]).toBe(3);
    expect(Number(learned?.["estimate"])).toBeCloseTo(0.5 * Math.exp(mean), 3);
  });

  it("uses what past jobs teach: without them the hours and the price are others", async () => {
    const blanks = tableRows(model, "PastJobs").flatMap(({ row, cells }) =>
      Object.keys(cells).map((column) => typed(model, "PastJobs", row, column, null)),
    );
    const { model: after } = await afterTyping(file, blanks);
    expect(Number(beside(after, "Start", "Person-hours for it"))).toBeLessThan(
      Number(beside(model, "Start", "Person-hours for it")),
    );
    expect(Number(beside(after, "Start", "To pay for it"))).toBeLessThan(
      Number(beside(model, "Start", "To pay for it")),
    );
  });

  it("turns every paper to the event that is chosen", async () => {
    const place = model.names.find(({ name }) => name === "ShownEvent")?.text ?? "";
    const row = Number(/\d+$/.exec(place)?.[0]) - 1;
    const { model: after, result } = await afterTyping(file, [
      { sheet: 0, row, column: 1, value: "Naming day" },
    ]);
    expect(result.failing).toEqual([]);
    const said = (sheet: string): string => JSON.stringify(planRows(after, sheet, "section"));
    for (const sheet of ["Offer", "Setup", "Venue"]) {
      expect(said(sheet), sheet).toContain("Garden arch");
      expect(said(sheet), sheet).not.toContain("Back wall");
    }
    expect(planRows(after, "Order", "section")).toEqual(planRows(model, "Order", "section"));
    expect(beside(after, "Offer", "For")).toBe("The Hill family");
  });

  it("is not ready while a row of pieces names no event", async () => {
    const { model: after } = await afterTyping(file, [typed(model, "Pieces", 1, "event", null)]);
    expect(beside(after, "Start", "Can this job go out?")).toBe("not ready");
    expect(isError(beside(after, "Start", "To pay for it"))).toBe(true);
  });
});
