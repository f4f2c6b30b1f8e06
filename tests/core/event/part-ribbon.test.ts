import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { partRibbon, ribbonCount } from "../../../src/core/event/part-ribbon";
import { inches } from "./job-builder";
import { partOfRow, pieceOfRows } from "./planned";

const ball = { kind: "tied ball", printed: inches(12), inflated: inches(10), balloons: 12 } as const;
const cover = { kind: "cover", printed: inches(12), inflated: inches(11) } as const;

describe("ribbonCount", () => {
  it("K5: counts 22 on a full cover of 45 (half of 45 is 22.5, the one halfway carries none)", () => {
    const part = pieceOfRows([ball, { ...cover, ribbon: 0.65 }]).parts[1];
    expect(part?.each).toBe(45);
    expect(part && ribbonCount(part)).toBe(22);
  });

  it("counts one for each balloon of a bouquet, and none where no ribbon was typed", () => {
    expect(ribbonCount(partOfRow({ kind: "bouquet", balloons: 5, ribbon: 1.2 }))).toBe(5);
    expect(ribbonCount(partOfRow({ kind: "bouquet", balloons: 5 }))).toBe(0);
    expect(ribbonCount(partOfRow({ kind: "bouquet", balloons: 5, ribbon: 0 }))).toBe(0);
  });
});

describe("partRibbon", () => {
  it("K7: gathers 25.74 m below the stand bouquet (by hand: 22.437 + 22 x 0.15 m of knots)", () => {
    const part = pieceOfRows([ball, { ...cover, ribbon: 0.65 }]).parts[1];
    expect(part && partRibbon(part)).toBeCloseTo(25.737, 2);
  });

  it("takes pieces x balloons x (ribbon + 0.15 m of knot and tail, common practice)", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 12 }),
        fc.integer({ min: 1, max: 50 }),
        (quantity, balloons, decimetres) => {
          const ribbon = decimetres / 10;
          const part = partOfRow({ kind: "bouquet", quantity, balloons, ribbon });
          expect(partRibbon(part)).toBeCloseTo(quantity * balloons * (ribbon + 0.15), 9);
        },
      ),
      { numRuns: 40 },
    );
  });

  it("asks for the ball where a cover hangs ribbons from none", () => {
    const part = partOfRow({ ...cover, balloons: 45, ribbon: 0.65 });
    expect(() => partRibbon(part)).toThrow(
      "pieces row 2: ribbon must hang from a cover with a tied ball in the same piece",
    );
  });
});
