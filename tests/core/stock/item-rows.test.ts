import { expect, it } from "vitest";
import { itemKey } from "../../../src/core/stock/item";
import { piecesByItem } from "../../../src/core/stock/item-rows";

it("adds up the pieces of an item, however its colour is written", () => {
  const rows = [
    { row: 2, printed: 11, colour: "Navy", pieces: 30 },
    { row: 3, printed: 5, colour: "Navy", pieces: 4 },
    { row: 4, printed: 11, colour: " navy ", pieces: 12 },
  ];
  const pieces = piecesByItem(rows);
  expect(pieces.get(itemKey({ printed: 11, colour: "Navy" }))).toBe(42);
  expect(pieces.get(itemKey({ printed: 5, colour: "Navy" }))).toBe(4);
  expect(pieces.size).toBe(2);
});
