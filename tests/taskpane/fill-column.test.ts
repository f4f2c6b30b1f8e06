import { describe, expect, it } from "vitest";
import { functionNamed } from "../../src/functions/catalogue";
import type { CatalogueFunction } from "../../src/functions/definition";
import {
  columnFor,
  columnFormulas,
  fillFault,
  listAtSelection,
  missingSources,
  targetRange,
  type ArgumentSource,
  type TitledList,
} from "../../src/taskpane/fill-column";
import { addressOf } from "../../src/formula/resolve";
import { area, FakeHost } from "./fake-host";

function fn(name: string): CatalogueFunction {
  const found = functionNamed(name);
  if (found === undefined) throw new Error(`no function ${name}`);
  return found;
}

const countColumn = fn("COUNT_COLUMN");

function book(): FakeHost {
  return new FakeHost().addSheet("Plan").fill("Plan!B2", [
    ["Piece", "Height ft", "Balloon", "Count"],
    ["Door", 6, 10, ""],
    ["Stage", 7, 11, ""],
    ["Total", "", "", "=1"],
  ]);
}

async function listAt(host: FakeHost, selected: string): Promise<TitledList | undefined> {
  host.selected = area(selected);
  return listAtSelection(host, await host.outline());
}

function mapped(list: TitledList): readonly ArgumentSource[] {
  return countColumn.params.map((param) => {
    const column = columnFor(param, list.titles, list.target);
    return column === undefined ? { text: "" } : { column };
  });
}

describe("filling a column", () => {
  it("maps arguments to columns by their titles and gives a title's unit along", async () => {
    const host = book().table("Pieces", "Plan!B2:E5", 1);
    const list = await listAt(host, "Plan!E4");
    if (list === undefined) throw new Error("no list");
    expect(columnFormulas(countColumn, mapped(list), list)).toEqual([
      ['=BLN.COUNT_COLUMN([@[Height ft]]&" ft", [@[Balloon]])'],
      ['=BLN.COUNT_COLUMN([@[Height ft]]&" ft", [@[Balloon]])'],
    ]);
    expect(addressOf(targetRange(list))).toBe("Plan!E3:E4");
    const [[formula]] = columnFormulas(countColumn, mapped(list), list) as [[string]];
    await host.enter([{ sheet: "Plan", row: 2, column: 4, formula: "=1" }]);
    expect(formula).not.toContain(",,");
  });

  it("computes the same as the function with the unit in its text", () => {
    expect(countColumn.call(["6 ft", 10])).toEqual(countColumn.call([1.8288, 10]));
  });

  it("writes addresses where the list is no table, and takes a free column right of it", async () => {
    const host = new FakeHost().addSheet("Plan").fill("Plan!A1", [
      ["Height", "Balloon (cm)", "Notes"],
      [1.8, 28, "x"],
      [2, 30, "y"],
    ]);
    const list = await listAt(host, "Plan!D3");
    if (list === undefined) throw new Error("no list");
    expect(list.target).toBe(3);
    expect(columnFormulas(countColumn, mapped(list), list)).toEqual([
      ['=BLN.COUNT_COLUMN(A2, B2&" cm")'],
      ['=BLN.COUNT_COLUMN(A3, B3&" cm")'],
    ]);
  });

  it("keeps the texts of the form and says what is missing", async () => {
    const list = await listAt(book(), "Plan!E3");
    if (list === undefined) throw new Error("no list");
    const sources: readonly ArgumentSource[] = [
      { column: 1 },
      { text: '"28 cm"' },
      { text: "" },
      { text: "0.9" },
    ];
    expect(columnFormulas(countColumn, sources, list)[0]).toEqual([
      '=BLN.COUNT_COLUMN(C3&" ft", "28 cm", , 0.9)',
    ]);
    expect(missingSources(countColumn, [{ text: "" }, { column: 0 }])).toEqual(["height"]);
  });

  it("does not map the column that is filled, nor a title that only begins alike", () => {
    const [height] = countColumn.params;
    if (height === undefined) throw new Error("no parameter");
    expect(columnFor(height, ["Height", "x"], 0)).toBeUndefined();
    expect(columnFor(height, ["Height of the room", "Heights"], 5)).toBeUndefined();
    expect(columnFor(height, ["x", "HEIGHT [cm]"], 5)).toBe(1);
  });

  it("finds no list where there is none", async () => {
    expect(await listAt(new FakeHost().addSheet("Plan"), "Plan!B2")).toBeUndefined();
    const numbers = new FakeHost().addSheet("Plan").fill("Plan!A1", [[1], [2]]);
    expect(await listAt(numbers, "Plan!A2")).toBeUndefined();
  });

  it("refuses functions that give several cells", () => {
    expect(fillFault(fn("BAG_PLAN"))).toContain("gives a table");
    expect(fillFault(countColumn)).toBeUndefined();
  });
});
