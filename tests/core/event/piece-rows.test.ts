import { describe, expect, it } from "vitest";
import type { PieceCells } from "../../../src/core/event/job";
import { pieceRowsOf, quantityOf } from "../../../src/core/event/piece-rows";
import { scopeOf } from "../../../src/core/event/scope";
import { jobOf, type Row } from "./job-builder";

const rowsOf = (pieces: readonly Row<PieceCells>[], option = ""): readonly string[] => {
  const scope = scopeOf(jobOf({ pieces }));
  return pieceRowsOf(scope, [["", option]]).map(({ name, lines }) => `${name} ${lines.length}`);
};
const quantities = (...numbers: readonly (number | undefined)[]): readonly number[] => {
  const pieces = numbers.map((quantity) => ({ name: "X", ...(quantity !== undefined && { quantity }) }));
  const { pieces: lines } = jobOf({ pieces });
  return lines.map((line) => quantityOf(line, lines));
};

describe("pieceRowsOf", () => {
  it("takes rows of one name as one piece, with those of the option in force", () => {
    const pieces = [
      { name: "Arch" },
      { name: "Bar" },
      { name: " arch ", option: "A" },
      { name: "Arch", option: "B" },
    ];
    expect(rowsOf(pieces)).toEqual(["Arch 1", "Bar 1"]);
    expect(rowsOf(pieces, "a")).toEqual(["Arch 2", "Bar 1"]);
  });

  it("never takes two rows without a name as one piece", () => {
    expect(rowsOf([{ kind: "count" }, { kind: "count" }])).toEqual([" 1", " 1"]);
  });
});

describe("quantityOf", () => {
  it("takes the one number of the piece for a blank, and 1 where there is none", () => {
    expect(quantities(undefined, 40)).toEqual([40, 40]);
    expect(quantities(undefined, undefined)).toEqual([1, 1]);
    expect(quantities(2, 3)).toEqual([2, 3]);
  });

  it("parks a blank with its piece, but not with one parked row beside a number", () => {
    expect(quantities(0, undefined)).toEqual([0, 0]);
    expect(quantities(0, undefined, 7)).toEqual([0, 7, 7]);
  });

  it("does not guess between two numbers", () => {
    expect(() => quantities(2, undefined, 3)).toThrow(
      "pieces row 3: quantity must be typed, other rows of this piece have 2 and 3",
    );
  });
});
