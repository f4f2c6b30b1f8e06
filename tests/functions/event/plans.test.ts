import { describe, expect, it } from "vitest";
import { functionNamed } from "../../../src/functions/catalogue";
import type { Cell } from "../../../src/functions/definition";
import { evening, stand, type Rows } from "./worked-jobs";

/** The result of a call as records by header, whatever the order of the ranges. */
function plan(name: string, ...args: readonly unknown[]): readonly Readonly<Record<string, Cell>>[] {
  const outcome = functionNamed(name)?.call(args);
  if (outcome?.kind !== "table") throw new Error(JSON.stringify(outcome));
  const [head = [], ...rows] = outcome.rows;
  return rows.map((row) => Object.fromEntries(head.map((title, index) => [String(title), row[index] ?? ""])));
}
const isNotAvailable = (cell: Cell | undefined): boolean => typeof cell === "object" && cell.error === "#N/A";

const tablesOf = (job: Readonly<Record<string, Rows>>): readonly Rows[] => Object.values(job);

describe("the stand bouquet on the sheet", () => {
  it("costs 57.14 and sells for 95.23, with the tables in any order", () => {
    for (const tables of [tablesOf(stand), tablesOf(stand).toReversed()]) {
      const [bouquet, travel] = plan("COST_PLAN", ...tables);
      expect(bouquet).toMatchObject({
        materials: 15.83,
        goods: 7.6,
        work: 33.71,
        cost: 57.14,
        price: 95.23,
        bought: 92.5,
      });
      expect(travel).toMatchObject({ work: 66.67, travel: 27, cost: 93.67, price: 156.12 });
      expect(plan("OPTION_PLAN", ...tables)[0]).toMatchObject({
        price: 251.35,
        tax: 50.27,
        total: 301.62,
        budget: "",
      });
    }
  });

  it("needs nothing but its pieces for counts, air, ribbon and hours", () => {
    const rows = plan("PART_PLAN", stand["pieces"]);
    expect(rows.map(({ part, balloons, status }) => [part, balloons, status])).toEqual([
      ["sleeve", 1, "ok"],
      ["tied ball", 12, "ok"],
      ["cover", 45, "ok"],
      ["collar", 18, "ok"],
    ]);
    const total = (column: string): number => rows.reduce((sum, row) => sum + Number(row[column]), 0);
    expect(total("air L")).toBeCloseTo(752.1, 1);
    expect(total("ribbon m")).toBeCloseTo(25.74, 2);
    expect(total("hours") * 60).toBeCloseTo(92, 6);
  });

  it("moves every plan where one piece is typed under the others", () => {
    const pieces = [...(stand["pieces"] ?? []), ["Table", "count", 12, 11, "Outer", null, null, 30, null]];
    const tables = tablesOf({ ...stand, pieces });
    expect(plan("COST_PLAN", ...tables).map(({ name }) => name)).toEqual([
      "Stand bouquet",
      "Table",
      "travel and loading",
    ]);
    expect(plan("GOODS_PLAN", ...tables).find(({ item }) => item === "pole")).toMatchObject({ needed: 2 });
    expect(plan("PART_PLAN", ...tables)).toHaveLength(5);
  });
});

describe("the corporate evening on the sheet", () => {
  it("costs every piece to the cent and is 70.20 over its budget", () => {
    const rows = plan("COST_PLAN", ...tablesOf(evening));
    expect(rows.map(({ name, cost, each, price }) => [name, cost, each, price])).toEqual([
      ["Railing garland", 323.77, 588.67, 588.67],
      ["Door columns", 78.51, 71.37, 142.74],
      ["Logo wall", 157.54, 286.44, 286.44],
      ["Table bouquets", 442.76, 20.13, 805.2],
      ["travel and loading", 175.33, 318.78, 318.78],
    ]);
    expect(plan("OPTION_PLAN", ...tablesOf(evening))[0]).toMatchObject({
      balloons: 1244,
      people: 3,
      cost: 1177.91,
      price: 2141.83,
      total: 2570.2,
      over: 70.2,
    });
  });

  it("hires two cylinders and ten panels", () => {
    const goods = plan("GOODS_PLAN", ...tablesOf(evening));
    expect(goods.map(({ item, packs, cost }) => [item, packs, cost])).toEqual([
      ["strip", 2, 7.2],
      ["ties", 1, 2.25],
      ["pole", 2, 3],
      ["base", 2, 5],
      ["panel", 10, 12],
      ["weight", 4, 32],
      ["ribbon", 4, 12.96],
      ["cylinder", 2, 190],
    ]);
  });

  it("is cheaper without its foil by one cylinder", () => {
    const pieces = (evening["pieces"] ?? []).filter(([, kind]) => kind !== "foil");
    const [cylinder] = plan("GOODS_PLAN", ...tablesOf({ ...evening, pieces })).slice(-1);
    expect(cylinder).toMatchObject({ packs: 1, cost: 95 });
  });
});

describe("tables that are not ready", () => {
  it("Z8: keeps the row of a quantity that may be blank, and the others their numbers", () => {
    const rows = plan("PART_PLAN", [
      ["name", "kind", "quantity", "height", "printed", "palette", "option"],
      ["Door", "column", 0, 1.8, 11, "P", null],
      ["Gate", "column", 2, 1.8, 11, "P", null],
    ]);
    expect(rows[0]?.["status"]).toBe(
      "stop: pieces row 2: quantity is 0 or a blank cell: type the number, or none for zero",
    );
    expect(isNotAvailable(rows[0]?.["balloons"])).toBe(true);
    expect(rows[1]).toMatchObject({ balloons: 88, status: "ok" });
  });

  it("Z9: parks a row of quantity none", () => {
    const rows = plan("PART_PLAN", [
      ["name", "kind", "quantity", "height", "printed", "palette"],
      ["Door", "column", "none", 1.8, 11, "P"],
    ]);
    expect(rows[0]).toMatchObject({ quantity: 0, balloons: 0, status: "ok" });
  });

  it("spills one row of #N/A without the tables that it needs", () => {
    for (const name of ["PART_PLAN", "GOODS_PLAN", "COST_PLAN", "OPTION_PLAN"]) {
      const rows = plan(name, stand["palettes"]);
      expect(rows).toHaveLength(1);
      expect(String(rows[0]?.["status"])).toMatch(/^stop: .*pieces must be given, found nothing/);
    }
  });

  it("withholds exactly what an unknown term or a missing price takes away", () => {
    const terms = [...(stand["terms"] ?? []), ["discout", 0.1]];
    const rows = plan("COST_PLAN", ...tablesOf({ ...stand, terms }));
    for (const row of rows) expect(isNotAvailable(row["cost"])).toBe(true);
    expect(String(rows.at(-1)?.["status"])).toContain('did you mean "discount"');
    const prices = (stand["prices"] ?? []).filter(([, , colour]) => colour !== "Coral");
    const [bouquet, travel] = plan("COST_PLAN", ...tablesOf({ ...stand, prices }));
    expect(isNotAvailable(bouquet?.["materials"])).toBe(true);
    expect(bouquet?.["work"]).toBe(33.71);
    expect(travel?.["cost"]).toBe(93.67);
  });

  it("withholds only the row of travel where a vehicle cannot be what was meant", () => {
    const vehicles: Rows = [
      ["vehicle", "m3"],
      ["van", 1e-9],
    ];
    const rows = plan("COST_PLAN", ...tablesOf({ ...evening, vehicles }));
    expect(rows.map(({ cost }) => isNotAvailable(cost))).toEqual([false, false, false, false, true]);
    expect(String(rows.at(-1)?.["status"])).toMatch(/^stop: vehicles must carry/);
  });

  it("takes options side by side where they can stand so, and asks for one where not", () => {
    const pieces: Rows = [
      ["name", "kind", "printed", "balloons", "colour", "option"],
      ["Arch", "count", 12, 20, "Rose", "A"],
      ["Arch", "count", 12, 30, "Rose", "B"],
    ];
    const tables = tablesOf({ ...stand, pieces });
    expect(plan("OPTION_PLAN", ...tables)).toHaveLength(2);
    const [goods] = plan("GOODS_PLAN", ...tables);
    expect(goods?.["status"]).toBe('stop: option must be chosen in terms, one of "A", "B"');
    expect(plan("NEEDS_PLAN", pieces, null, null, null, "B")[0]).toMatchObject({ count: 30 });
  });

  it("reads needs from ranges without headings, as old workbooks have them", () => {
    const rows = plan("NEEDS_PLAN", stand["pieces"], (stand["palettes"] ?? []).slice(1));
    expect(rows.map(({ colour, count }) => [colour, count])).toContainEqual(["Coral", 7]);
  });
});
