import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Job } from "../../../src/core/event/job";
import { readJob } from "../../../src/functions/event/read-job";

type Rows = readonly (readonly unknown[])[];

const pieces: Rows = [
  ["Regatta evening", "", "", "", "", ""],
  ["name", "kind", "qty", "height ft", "size", "palette"],
  ["Door", "Column", 2, 6, 11, "Door"],
  ["", "", "", "", "", ""],
  ["Bar", "garland", "none", "", 11, "Door"],
];
const palettes: Rows = [
  ["palette", "color", "pattern"],
  ["Door", "Navy", 2],
  ["Door", "White", 2],
];
const prices: Rows = [
  ["vendor", "size", "color", "pack", "bag price", "rack"],
  ["Latex 11 inch", "", "", "", "", ""],
  ["Town", 11, "Navy", 50, 9.9, ""],
  ["Town", 11, "White", 50, "n/a", ""],
  ["Depot", "thirty", "White", 20000, 0, ""],
];
const terms: Rows = [
  ["term", "value"],
  ["Pay per hour", 20],
  ["crew", 2],
  ["travel", "30 min"],
  ["distance", 15],
  ["temperature", "68 F"],
  ["ready", 0.6],
  ["day start", "8:00"],
  ["collect", "no"],
  ["budget", 0],
  ["pay", ""],
];

const whats = (job: Job): readonly string[] => job.problems.map(({ weight, what }) => `${weight}: ${what}`);

describe("tables of a job", () => {
  it("are known by their headers, read in SI units, each cell under its own column name", () => {
    const job = readJob([terms, prices, null, palettes, pieces]);
    expect(job.pieces.map(({ place, cells, doubts }) => ({ place, cells, doubts }))).toEqual([
      {
        place: "pieces row 3",
        cells: {
          name: "Door",
          kind: "column",
          quantity: 2,
          height: 6 * 0.3048,
          printed: 11 * 0.0254,
          palette: "Door",
        },
        doubts: [],
      },
      {
        place: "pieces row 5",
        cells: { name: "Bar", kind: "garland", quantity: 0, printed: 11 * 0.0254, palette: "Door" },
        doubts: [],
      },
    ]);
    expect(job.palettes.map(({ cells }) => cells)).toEqual([
      { palette: "Door", colour: "Navy", pattern: 2 },
      { palette: "Door", colour: "White", pattern: 2 },
    ]);
    const typed = job.terms.filter(({ cells }) => cells.value !== undefined);
    expect(Object.fromEntries(typed.map(({ cells }) => [cells.term, cells.value]))).toEqual({
      pay: 20,
      crew: 2,
      travel: 1800,
      distance: 15000,
      temperature: 293.15,
      ready: 0.6,
      "day start": 1 / 3,
      collect: false,
    });
    expect([...job.given].sort()).toEqual(["palettes", "pieces", "price_list", "terms"]);
  });

  it("keep every row with all sentences of all its bad cells", () => {
    const { price_list } = readJob([prices]);
    expect(price_list.map(({ row, doubts }) => [row, doubts])).toEqual([
      [3, []],
      [4, ['price_list row 4: price must be an amount of money such as 14.90, found "n/a"']],
      [
        5,
        [
          'price_list row 5: printed must be an inflated size such as 11 or "28 cm", found "thirty"',
          "price_list row 5: bag must be from 1 to 10000, found 20000",
          "price_list row 5: price is 0 or a blank cell: type the number, or none for zero",
        ],
      ],
    ]);
    expect(price_list[1]?.cells).toEqual({
      supplier: "Town",
      printed: 11 * 0.0254,
      colour: "White",
      bag: 50,
    });
  });

  it("say what each range was read as, what was left out and what was not read", () => {
    expect(whats(readJob([terms, prices]))).toEqual([
      "note: table 1 read as terms, 10 rows",
      "note: table 2 read as price_list, 3 rows; not read: rack",
      "note: price_list row 2 is left out as a title",
    ]);
  });

  it("are stacked where one sort comes twice, and sentences number them", () => {
    const second: Rows = [prices[0] ?? [], ["Depot", 5, "Navy", 100, -1]];
    const { price_list } = readJob([prices, second]);
    expect(price_list).toHaveLength(4);
    expect(price_list[3]?.doubts).toEqual([
      "price_list 2 row 2: price must be from 0 to 1000000000, found -1",
    ]);
  });

  it.each<[string, Rows, string]>([
    [
      "of no known sort",
      [
        ["item", "qty"],
        ["pole", 3],
      ],
      `table 1 must be one of the job's tables, found the columns item, qty; nearest is goods, which also needs "per"`,
    ],
    [
      "with the signs of two",
      [["supplier", "charge", "task", "where"]],
      "table 1 must be one table, found the headings of delivery and work",
    ],
    [
      "that is a result",
      [["printed in", "inflated in", "colour", "count", "with spares", "status", "type"]],
      "table 1 must be a table of your own, found the result of NEEDS_PLAN",
    ],
    ["without a column that every row needs", [["colour", "count"]], 'stock must have a column "printed"'],
  ])("%s end the plan", async (_, range, sentence) => {
    await import("../../../src/functions/catalogue");
    const found = readJob([range]).problems.filter(({ reach }) => reach.of === "tables");
    expect(found.map(({ weight, what }) => `${weight}: ${what}`)).toEqual([`stop: ${sentence}`]);
  });

  it("stop the job where two ranges are the same or one holds a second header", () => {
    expect(whats(readJob([palettes, palettes]))).toContain(
      "stop: table 2 must be given once, found the same cells as table 1",
    );
    const job = readJob([[...palettes, ["name", "kind"], ["Door", "arch"]]]);
    expect(job.palettes).toHaveLength(2);
    expect(whats(job)).toContain(
      "stop: palettes row 4 must not be a second header: one table for each range",
    );
  });

  it("check headings that nobody reads: a slip of a letter, and numbers", () => {
    const slipped: Rows = [
      ["name", "kind", "quantity", "heigth", "rack"],
      ["Door", "column", 2, 1.8, "left"],
    ];
    expect(whats(readJob([slipped]))).toContain(
      'check: pieces: column "heigth" holds numbers that are not read; did you mean "height"',
    );
    const uncounted: Rows = [
      ["name", "kind", "no"],
      ["Table", "foil", 12],
    ];
    expect(whats(readJob([uncounted]))).toContain(
      'stop: pieces: column "no" holds numbers that are not read, and no column says "quantity"',
    );
  });

  it("leave out totals, and never take them for pieces", () => {
    const job = readJob([[...palettes, ["Total", "", 4]]]);
    expect(job.palettes).toHaveLength(2);
    expect(whats(job)).toContain("note: palettes row 4 is left out as a total");
  });

  it("name error cells by row and column, in every form", () => {
    for (const cell of [{ error: "#N/A" }, "#N/A", { type: "Error", basicValue: "#N/A" }]) {
      const rows: Rows = [...prices.slice(0, 3), ["Town", 11, "Gold", 50, cell, ""]];
      expect(readJob([rows]).price_list[1]?.doubts).toEqual([
        "price_list row 4: price must be an amount of money such as 14.90, found #N/A",
      ]);
    }
  });

  it("read lengths in feet and distances in miles where the terms say so", () => {
    const feet: Rows = [...terms, ["lengths", "ft"], ["distances", "mi"]];
    const metric: Rows = [
      ["name", "kind", "quantity", "height", "width m"],
      ["Door", "arch", 1, 6, 2],
    ];
    const job = readJob([feet, metric]);
    expect(job.pieces[0]?.cells).toMatchObject({ height: 6 * 0.3048, width: 2 });
    const distance = job.terms.find(({ cells }) => cells.term === "distance");
    expect(distance?.cells.value).toBe(15 * 1609.344);
  });

  it("read the size codes of long balloons: 260 is 2 in across and 60 in long", () => {
    const { pieces: rows, price_list } = readJob([
      [
        ["name", "kind", "printed", "quantity", "height"],
        ["Stand", "sleeve", 260, 1, "6 ft"],
        ["Stand", "column", 260, 1, "6 ft"],
      ],
      [
        ["supplier", "printed", "colour", "bag", "price", "type"],
        ["Town", "260", "White", 100, 9, "long"],
      ],
    ]);
    expect(rows[0]?.cells).toMatchObject({ printed: 60 * 0.0254, code: 260 });
    expect(rows[1]?.doubts).toEqual([
      "pieces row 3: printed must be from 1 to 120 in, found 260 in; a size code such as 260 needs type long",
    ]);
    expect(price_list[0]?.cells).toMatchObject({ printed: 60 * 0.0254, code: 260, type: "long" });
  });

  it("count helium in litres in whatever unit its pack is sold", () => {
    const { goods } = readJob([
      [
        ["item", "per", "pack", "unit", "price"],
        ["gas", "helium litre", "3.5 m3", "", 95],
        ["gas", "helium litre", 3.5, "m3", 95],
        ["gas", "helium litre", 3500, "", 95],
        ["pole", "piece", "", "", ""],
      ],
    ]);
    expect(goods.slice(0, 3).map(({ cells }) => [cells.pack, cells.unit])).toEqual(
      Array(3).fill([3500, "L"]),
    );
    expect(goods[3]?.doubts).toEqual([
      "goods row 5: price is 0 or a blank cell: type the number, or none for zero",
    ]);
  });

  it("refuse a bare 0 that would lower a cost, save where another row of the piece says how many", () => {
    const header = ["name", "kind", "quantity", "printed"];
    const refused = readJob([[header, ["Door", "column", 0, 11], ["Gate", "column", 2, 11]]]);
    expect(refused.pieces.map(({ doubts }) => doubts)).toEqual([
      ["pieces row 2: quantity is 0 or a blank cell: type the number, or none for zero"],
      [],
    ]);
    const told = readJob([[header, ["Door", "column", 0, 11], ["door ", "count", 2, 5]]]);
    expect(told.pieces.map(({ cells, doubts }) => [cells.quantity, doubts])).toEqual([
      [undefined, []],
      [2, []],
    ]);
    const work = readJob([
      [
        ["term", "value"],
        ["pay", 0],
        ["temperature", 0],
        ["day start", 0],
        ["collect", 0],
        ["marign", 0.4],
        ["tax", 0],
        ["crew", 2],
        ["crew", 3],
      ],
    ]);
    expect(work.terms.flatMap(({ doubts }) => doubts)).toEqual([
      "terms row 2: pay is 0 or a blank cell: type the number, or none for zero",
      'terms row 3: temperature is 0 or a blank cell: type "0 C" for zero',
      'terms row 4: day start is 0 or a blank cell: type "0:00" for midnight',
      "terms row 5: collect is 0 or a blank cell: type yes or no",
      'terms row 6: term must be one of the terms, found "marign"; did you mean "margin"',
      "terms row 9: crew must stand once, found another value in terms row 8",
    ]);
  });

  it("refuse a past job of which more popped or came back than were taken", () => {
    const { past_jobs } = readJob([
      [
        ["job", "taken", "popped", "left"],
        ["1", 10, 50, 11],
        ["2", 10, "none", 10],
        ["3", "", 5, 7],
      ],
    ]);
    expect(past_jobs.map(({ doubts }) => doubts)).toEqual([
      [
        "past_jobs row 2: popped must be at most the 10 taken, found 50",
        "past_jobs row 2: left must be at most the 10 taken, found 11",
      ],
      [],
      [],
    ]);
  });

  it("are the same job, remembered, for the same content in new arrays", () => {
    const copy = (rows: Rows): Rows => rows.map((row) => [...row]);
    expect(readJob([copy(pieces), copy(terms)])).toBe(readJob([copy(pieces), copy(terms)]));
    expect(readJob([pieces])).not.toBe(readJob([palettes]));
  });

  it("do not depend on the order of tables and columns", () => {
    const shuffled = <Item>(items: readonly Item[]): fc.Arbitrary<Item[]> =>
      fc.shuffledSubarray([...items], { minLength: items.length });
    fc.assert(
      fc.property(
        shuffled([pieces, palettes, prices, terms]),
        shuffled([0, 1, 2, 3, 4, 5]),
        (tables, order) => {
          const moved = tables.map((rows) =>
            rows === pieces || rows === prices ? rows.map((row) => order.map((at) => row[at] ?? "")) : rows,
          );
          const job = readJob(moved);
          const plain = readJob([pieces, palettes, prices, terms]);
          expect(job.pieces).toEqual(plain.pieces);
          expect(job.terms).toEqual(plain.terms);
          expect(job.price_list.map(({ cells }) => cells)).toEqual(
            plain.price_list.map(({ cells }) => cells),
          );
        },
      ),
      { numRuns: 50 },
    );
  });
});
