import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PieceCells } from "../../../src/core/event/cells";
import type { Line } from "../../../src/core/event/job";
import { oneOf, pieceRowsOf, quantityOf } from "../../../src/core/event/piece-rows";
import { chosenScenario, jobScope } from "../../../src/core/event/scope";
import { jobOf, type Row, type Tables } from "./job-builder";

const linesOf = (...rows: readonly Row<PieceCells>[]): readonly Line<PieceCells>[] =>
  jobOf({ pieces: rows.map((row) => ({ name: "Arch", kind: "count", ...row })) }).pieces;
const quantities = (...rows: readonly Row<PieceCells>[]): readonly number[] => {
  const lines = linesOf(...rows);
  return lines.map((line) => quantityOf(line, lines));
};
const piecesOf = (tables: Tables, option = ""): readonly (readonly unknown[])[] => {
  const scope = jobScope(jobOf(tables));
  const inForce =
    option === "" ? chosenScenario(scope) : scope.events.map(({ name }) => [name, option] as const);
  return pieceRowsOf(scope, inForce).map(({ event, name, lines }) => [
    event.name,
    name,
    lines.map(({ row }) => row),
  ]);
};

describe("pieceRowsOf", () => {
  it("makes one piece of all rows of a name, however it is spelled, wherever they stand", () => {
    const pieces = [{ name: "Door arch" }, { name: "Table" }, { name: " door  ARCH" }];
    expect(piecesOf({ pieces })).toEqual([
      ["", "Door arch", [2, 4]],
      ["", "Table", [3]],
    ]);
  });

  it("keeps the pieces of two events apart, and gives a row of every event to each", () => {
    const pieces = [
      { name: "Arch", event: "Friday" },
      { name: "Arch", event: "Sunday" },
      { name: "Sign", event: "every" },
    ];
    expect(piecesOf({ pieces })).toEqual([
      ["Friday", "Arch", [2]],
      ["Friday", "Sign", [4]],
      ["Sunday", "Arch", [3]],
      ["Sunday", "Sign", [4]],
    ]);
  });

  it("builds the rows of the option in force and those without one", () => {
    const pieces = [{ name: "Arch" }, { name: "Arch", option: "A" }, { name: "Arch", option: "B" }];
    expect(piecesOf({ pieces })).toEqual([["", "Arch", [2]]]);
    expect(piecesOf({ pieces }, "b")).toEqual([["", "Arch", [2, 4]]]);
  });

  it("takes a row without a name for a piece of its own", () => {
    expect(piecesOf({ pieces: [{}, {}] })).toEqual([
      ["", "", [2]],
      ["", "", [3]],
    ]);
  });
});

describe("quantityOf", () => {
  it("K10: takes the one number typed in the piece, and 1 where none is", () => {
    expect(quantities({ quantity: 40 }, {})).toEqual([40, 40]);
    expect(quantities({}, { quantity: 40 })).toEqual([40, 40]);
    expect(quantities({}, {})).toEqual([1, 1]);
  });

  it("leaves a parked row parked, and lets a blank beside only parked ones be parked too", () => {
    expect(quantities({ quantity: 0 }, { quantity: 2 }, {})).toEqual([0, 2, 2]);
    expect(quantities({ quantity: 0 }, {})).toEqual([0, 0]);
  });

  it("refuses a blank beside two numbers", () => {
    expect(() => quantities({ quantity: 2 }, { quantity: 3 }, {})).toThrow(
      "pieces row 4: quantity must be typed, other rows of this piece have 2 and 3",
    );
  });

  it("does not guess a blank beside a number that cannot be read", () => {
    expect(() => quantities({ doubt: "quantity must be whole, found 2.5" }, {})).toThrow(
      "pieces row 2: quantity must be whole, found 2.5",
    );
  });

  it("does not depend on the order of rows", () => {
    const row = fc.record({ quantity: fc.option(fc.constantFrom(0, 7), { nil: undefined }) });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 6 }), (drafts) => {
        const rows = drafts.map(({ quantity }) => (quantity === undefined ? {} : { quantity }));
        expect(quantities(...rows.toReversed())).toEqual(quantities(...rows).toReversed());
      }),
    );
  });
});

describe("oneOf", () => {
  it("is the one number above 0 of a column, and none where no row has one", () => {
    const lines = linesOf({ width: 0.4 }, { width: 0 }, {});
    const [first] = lines;
    expect(first && oneOf(first, lines, "width")).toBe(0.4);
    expect(first && oneOf(first, lines, "length")).toBeUndefined();
  });
});
