import { describe, expect, it } from "vitest";
import { packingPaper, returnsPaper } from "../../../../src/core/event/papers/packing";
import { inches } from "../job-builder";
import { amounts, evening, line, stand } from "./paper-jobs";

describe("packing and returns", () => {
  it("begins each trip with the room it takes (by hand: 9.01 + 2 x 0.4872^2 x 3 = 10.44 of 11 m3)", () => {
    const rows = packingPaper(evening(), "");
    expect(rows[0]).toMatchObject({ section: "van, trip 1", line: "load", amount: 10.44, note: "of 11 m3" });
    expect(line(rows, "van, trip 1", "Door columns")?.amount).toBe(2);
  });

  it("takes every balloon with its spares, and marks what comes back", () => {
    const rows = packingPaper(stand(), "");
    expect(amounts(rows, "balloons")).toEqual([
      ["60 in White", 1],
      ["12 in Burgundy", 14],
      ["12 in Blush", 16],
      ["12 in Rose", 15],
      ["12 in Peach", 12],
      ["12 in Coral", 8],
      ["5 in Blush", 14],
      ["5 in Peach", 7],
    ]);
    expect(line(rows, "goods", "pole")?.note).toBe("comes back: 1");
    expect(line(rows, "goods", "dots")).toMatchObject({ amount: 1, unit: "pack of 100 pieces", note: "" });
  });

  it("lists what to count afterwards (by hand: 102 taken, round(96 / 0.97) = 99 used)", () => {
    const plan = stand({
      pieces: [{ name: "Arch", kind: "count", printed: inches(11), colour: "Navy", balloons: 96 }],
      price_list: [{ supplier: "Town", printed: inches(11), colour: "Navy", bag: 50, price: 10 }],
    });
    const rows = returnsPaper(plan, "");
    expect(amounts(rows, "unused balloons")).toEqual([["11 in Navy", 3]]);
    expect(amounts(returnsPaper(stand(), ""), "comes back")).toEqual([
      ["pole", 1],
      ["base", 1],
    ]);
  });
});
