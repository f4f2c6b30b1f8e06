import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { changedRows, wholeRows, type Doubtful } from "../../../src/core/stock/doubtful";

interface Bag {
  readonly colour: string;
  readonly count: number;
}

const whole = (row: number, value: Bag): Doubtful<Bag> => ({
  row,
  place: `stock row ${row}`,
  cells: value,
  doubts: [],
  value,
});
const doubtful = (row: number, cells: Partial<Bag>): Doubtful<Bag> => ({
  row,
  place: `stock row ${row}`,
  cells,
  doubts: [`stock row ${row}: count must be whole`],
  value: undefined,
});

describe("wholeRows", () => {
  it("keeps rows that could be read, in order, whatever stands between them", () => {
    const rows = [
      whole(2, { colour: "Gold", count: 5 }),
      doubtful(3, { colour: "Navy" }),
      whole(4, { colour: "Sky", count: 0 }),
    ];
    expect(wholeRows(rows)).toEqual([
      { colour: "Gold", count: 5 },
      { colour: "Sky", count: 0 },
    ]);
    expect(wholeRows([])).toEqual([]);
  });

  it("never takes a doubtful row for a whole one", () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { maxLength: 20 }), (readable) => {
        const rows = readable.map((isWhole, index) =>
          isWhole ? whole(index, { colour: "Gold", count: index }) : doubtful(index, { colour: "Gold" }),
        );
        expect(wholeRows(rows).map(({ count }) => count)).toEqual(
          readable.flatMap((isWhole, index) => (isWhole ? [index] : [])),
        );
      }),
    );
  });
});

describe("changedRows", () => {
  const renamed = changedRows<Bag, { readonly shade: string }>(
    [whole(2, { colour: "Gold", count: 5 }), doubtful(3, { colour: "Navy" }), doubtful(4, {})],
    ({ colour }) => (colour === undefined ? {} : { shade: colour }),
  );

  it("changes whole rows and what could be read of the others", () => {
    expect(renamed.map(({ value }) => value)).toEqual([{ shade: "Gold" }, undefined, undefined]);
    expect(renamed.map(({ cells }) => cells)).toEqual([{ shade: "Gold" }, { shade: "Navy" }, {}]);
  });

  it("keeps rows, places and doubts", () => {
    expect(renamed.map(({ row, place, doubts }) => [row, place, doubts.length])).toEqual([
      [2, "stock row 2", 0],
      [3, "stock row 3", 1],
      [4, "stock row 4", 1],
    ]);
  });
});
