import { describe, expect, it } from "vitest";
import { stockAfter } from "../../../src/core/stock/stock-after";
import { toSi } from "../../../src/core/units";

const item = (row: number, colour: string) => ({ row, printed: toSi(11, "in"), colour });

describe("stockAfter", () => {
  it("adds what came, takes what is used and never falls below nothing", () => {
    const rows = stockAfter(
      [
        { ...item(2, "Navy"), pieces: 40 },
        { ...item(3, "White"), pieces: 25 },
        { ...item(4, "navy "), pieces: 10 },
      ],
      [
        { ...item(2, "NAVY"), count: 120 },
        { ...item(3, "Wihte"), count: 5 },
      ],
      [
        { ...item(2, "Navy"), pieces: 100 },
        { ...item(3, "Gold"), pieces: 50 },
      ],
    );
    expect(
      rows.map(({ colour, before, bought, used, after, short, status }) => [
        colour,
        before,
        bought,
        used,
        after,
        short,
        status,
      ]),
    ).toEqual([
      ["Navy", 50, 100, 120, 30, 0, "ok"],
      ["White", 25, 0, 0, 25, 0, "ok"],
      ["Gold", 0, 50, 0, 50, 0, "ok"],
      ["Wihte", 0, 0, 0, 0, 5, 'short by 5; looks like "White"'],
    ]);
  });

  it("leaves stock alone where nothing is needed", () => {
    expect(stockAfter([{ ...item(2, "Navy"), pieces: 40 }], [])).toMatchObject([{ after: 40, used: 0 }]);
  });
});
