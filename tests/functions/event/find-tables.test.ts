import { describe, expect, it } from "vitest";
import {
  placedTables,
  rangeWords,
  sortOfRange,
  tablesOnSheet,
  type FoundTable,
} from "../../../src/functions/event/find-tables";
import { functionNamed } from "../../../src/functions/catalogue";

const HEADER = ["name", "kind", "printed", "colour", "height"];
const DOOR = ["Door", "column", 11, "Navy", 2];
const GATE = ["Gate", "column", 11, "White", 2];
const PIECES = [HEADER, DOOR, GATE];

describe("what a range is read as", () => {
  it("says its sort, its rows and what is not read", () => {
    expect(sortOfRange(PIECES)).toEqual({ sort: "pieces", rows: 2 });
    expect(rangeWords(PIECES)).toBe("read as pieces, 2 rows");
    const noted = PIECES.map((row, index) => [...row, index === 0 ? "rack" : "B"]);
    expect(rangeWords(noted)).toBe("read as pieces, 2 rows; not read: rack");
  });

  it("says why it is none", () => {
    expect(
      rangeWords([
        ["item", "qty"],
        ["pump", 2],
      ]),
    ).toContain("it must be one of the job's tables");
    expect(sortOfRange([["item", "qty"]])).toBeUndefined();
    expect(rangeWords([[null]])).toBeUndefined();
  });
});

describe("tables on a sheet", () => {
  it("finds each by its header, beside and below each other, under a title, over a blank row", () => {
    const rows = [
      ["Summer party", null, null, null, null, null, null, null, null],
      [...HEADER, null, "palette", "colour", "share"],
      [...DOOR, null, "Door", "Navy", 2],
      [null, null, null, null, null, null, "Door", "White", 1],
      [...GATE, null, null, null, null],
      [null, null, null, null, null, null, null, null, null],
      [null, null, null, null, null, null, null, null, null],
      ["term", "value", null, null, null, null, null, null, null],
      ["pay", 20, null, null, null, null, null, null, null],
    ];
    expect(tablesOnSheet(rows)).toEqual([
      { sort: "pieces", rows: 2, firstRow: 1, firstColumn: 0, lastRow: 4, lastColumn: 4 },
      { sort: "palettes", rows: 2, firstRow: 1, firstColumn: 6, lastRow: 3, lastColumn: 8 },
      { sort: "terms", rows: 1, firstRow: 7, firstColumn: 0, lastRow: 8, lastColumn: 1 },
    ]);
  });

  it("ends a table where another begins, without a blank row too", () => {
    const rows = [
      ["term", "value"],
      ["pay", 20],
      ["vehicle", "m3"],
      ["van", 11],
    ];
    expect(tablesOnSheet(rows).map(({ sort, firstRow, lastRow }) => [sort, firstRow, lastRow])).toEqual([
      ["terms", 0, 1],
      ["vehicles", 2, 3],
    ]);
  });

  it("reads on over one column without a heading", () => {
    const rows = [
      ["name", "kind", null, "printed", "colour", "height"],
      ["Door", "column", "left", 11, "Navy", 2],
    ];
    expect(tablesOnSheet(rows)).toEqual([expect.objectContaining({ sort: "pieces", lastColumn: 5 })]);
  });

  it("does not run into a result of our own beside it", () => {
    const outcome = functionNamed("PART_PLAN")?.call([PIECES]);
    const spilled = outcome?.kind === "table" ? outcome.rows : [];
    const beside = PIECES.map((row, index) => [...row, null, ...(spilled[index] ?? [])]);
    expect(tablesOnSheet(beside)).toEqual([expect.objectContaining({ sort: "pieces", lastColumn: 4 })]);
    const note = PIECES.map((row, index) => [...row, null, index === 0 ? "see the plan" : null]);
    expect(tablesOnSheet(note)).toEqual([expect.objectContaining({ sort: "pieces", lastColumn: 4 })]);
  });

  it("takes no result of our own, and nothing that is taken already", () => {
    const outcome = functionNamed("PART_PLAN")?.call([PIECES]);
    const spilled = outcome?.kind === "table" ? outcome.rows : [];
    expect(spilled.length).toBe(3);
    expect(tablesOnSheet(spilled)).toEqual([]);
    const taken = { firstRow: 0, firstColumn: 0, lastRow: 2, lastColumn: 4 };
    expect(tablesOnSheet(PIECES, [taken])).toEqual([]);
  });
});

describe("tables in their fields", () => {
  const NAMES = ["pieces", "palettes", "prices", "terms", "more", "more_2"];
  const table = (sort: FoundTable["sort"], reference: string): FoundTable => ({ sort, reference, rows: 1 });
  const placed = (...tables: readonly FoundTable[]): readonly string[] =>
    [...placedTables(tables, NAMES).fields].map(([name, { reference }]) => `${name} ${reference}`).sort();

  it("gives each sort its field, further price lists the fields that are free", () => {
    const lists = [1, 2, 3, 4].map((number) => table("price_list", `P${number}`));
    expect(placed(table("terms", "T"), ...lists, table("pieces", "A"))).toEqual([
      "more P2",
      "more_2 P3",
      "palettes P4",
      "pieces A",
      "prices P1",
      "terms T",
    ]);
  });

  it("leaves alone what a function has no field for", () => {
    const { fields, leftOut } = placedTables(
      [table("goods", "G"), table("pieces", "A")],
      ["pieces", "palettes"],
    );
    expect([...fields.keys()]).toEqual(["pieces"]);
    expect(leftOut).toEqual([]);
  });

  it("leaves out a second table of what a job has once, and says which", () => {
    const { fields, leftOut } = placedTables([table("pieces", "A"), table("pieces", "B")], NAMES);
    expect([...fields.values()].map(({ reference }) => reference)).toEqual(["A"]);
    expect(leftOut.map(({ reference }) => reference)).toEqual(["B"]);
  });
});
