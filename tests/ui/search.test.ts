import { describe, expect, it } from "vitest";
import { catalogue, offered } from "../../src/functions/catalogue";
import { isOneTypoApart, makeSearch, stem } from "../../src/ui/search";

const search = makeSearch(catalogue);
const names = (query: string): readonly string[] => search(query).map(({ fn }) => fn.name);

describe("search", () => {
  it.each(offered.flatMap((fn) => [fn.text, ...fn.asks].map((ask) => [ask, fn.name] as const)))(
    "%s: %s",
    (ask, name) => {
      expect(names(ask).slice(0, 3)).toContain(name);
    },
  );

  it.each(offered.map((fn) => [fn.name] as const))("finds %s first by its name", (name) => {
    expect(names(name)[0]).toBe(name);
    expect(names(name.toLowerCase().replaceAll("_", " "))[0]).toBe(name);
  });

  // What a decorator would type, and the function meant; nothing here is copied from a definition.
  it.each([
    ["how many for an arch", "COUNT_ARCH"],
    ["helium balloons float", "FLOAT_HOURS"],
    ["helium baloons float", "FLOAT_HOURS"],
    ["columns", "COUNT_COLUMN"],
    ["colum height", "COUNT_COLUMN"],
    ["how long will they float", "FLOAT_HOURS"],
    ["wind", "WIND_NEWTONS"],
    ["is it safe", "CAUTIONS"],
    ["bags cheapest", "BAG_PLAN"],
    ["deposit quote", "QUOTE_PLAN"],
    ["feet to metres", "METRES"],
    ["how many people do I need", "COUNT_CREW"],
    ["ribbons", "RIBBON_METRES"],
    ["how heavy must the base be", "ANCHOR_KILOGRAMS"],
    ["stand", "ANCHOR_KILOGRAMS"],
    ["falls over", "ANCHOR_KILOGRAMS"],
    ["wind", "ANCHOR_KILOGRAMS"],
    ["van", "TRANSPORT_CUBIC_METRES"],
    ["VAT", "QUOTE_PLAN"],
    ["double stuffed", "NEEDS_PLAN"],
    ["invoice", "QUOTE_PLAN"],
    ["insurance", "CAUTIONS"],
    ["sizer", "SIZED_INCHES"],
    ["hydrogen", "CAUTIONS"],
  ])("%s: %s in the first three", (query, name) => {
    expect(names(query).slice(0, 3)).toContain(name);
  });

  it.each([
    ["how many for an arch", "COUNT_ARCH"],
    ["how many for a column", "COUNT_COLUMN"],
    ["how many on a wall", "COUNT_WALL"],
    ["number of balloons in a net", "COUNT_NET"],
    ["how many rolls", "COUNT_ROLLS"],
  ])("%s: %s first", (query, name) => {
    expect(names(query)[0]).toBe(name);
  });

  it("shows everything in catalogue order for an empty query, nothing for words nobody uses", () => {
    expect(names(" ")).toEqual(offered.map((fn) => fn.name));
    expect(names("zyxwv qqqq")).toEqual([]);
    expect(names("!?")).toEqual(offered.map((fn) => fn.name));
  });

  it("gives the same order every time, best first", () => {
    const matches = search("balloons");
    expect(search("balloons")).toEqual(matches);
    const scores = matches.map(({ score }) => score);
    expect(scores).toEqual([...scores].sort((a, b) => b - a));
  });

  it("searches while a word is typed", () => {
    for (const query of ["arc", "arch"]) expect(names(query).slice(0, 3)).toContain("COUNT_ARCH");
    expect(names("heli").length).toBeGreaterThan(0);
  });
});

it("takes plural and verb endings off", () => {
  const groups = [
    ["price", "prices", "priced", "pricing"],
    ["inflate", "inflates", "inflated", "inflating"],
    ["box", "boxes"],
    ["party", "parties"],
    ["arch", "arches"],
    ["balloon", "balloons"],
  ];
  for (const group of groups) expect(new Set(group.map(stem)).size, group.join(" ")).toBe(1);
  expect(["glass", "bus"].map(stem)).toEqual(["glass", "bus"]);
});

it("knows one slip from two", () => {
  for (const slip of ["baloon", "balllon", "ballono", "xballoon", "balloom", "ablloon"]) {
    expect(isOneTypoApart(slip, "balloon"), slip).toBe(true);
    expect(isOneTypoApart("balloon", slip), slip).toBe(true);
  }
  for (const far of ["balloon", "baln", "noollab", "abllono", "balloonss", ""]) {
    expect(isOneTypoApart(far, "balloon"), far).toBe(false);
  }
});
