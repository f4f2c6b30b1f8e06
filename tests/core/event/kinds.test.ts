import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { PART_KINDS, type PartKind, type PieceCells } from "../../../src/core/event/cells";
import {
  dimensionOf,
  KINDS,
  ringLength,
  type PartBox,
  type Core,
  type SizedPart,
} from "../../../src/core/event/kinds";
import { feet, inches } from "./job-builder";

const sized = (kind: PartKind, cells: Partial<PieceCells>, more: Partial<SizedPart> = {}): SizedPart => ({
  kind,
  place: "pieces row 2",
  cells,
  inflated: inches(9),
  ...more,
});
const count = (
  kind: PartKind,
  cells: Partial<PieceCells>,
  more: Partial<SizedPart> = {},
): number | undefined => KINDS[kind].count?.(sized(kind, cells, more));
const box = (
  kind: PartKind,
  cells: Partial<PieceCells>,
  more: Partial<SizedPart> = {},
): PartBox | undefined => KINDS[kind].box?.(sized(kind, cells, more));
const core: Core = { balloons: 12, inflated: inches(10), spacing: undefined };

describe("counts by kind", () => {
  it("K2: a column of 1.8 m takes 44 of 9 in (by hand: 11 clusters of 4)", () => {
    expect(count("column", { height: 1.8 })).toBe(44);
  });

  it("K3: a ball of twelve of 10 in takes a cover of 45 of 11 in, half of it half (common practice 40 to 50)", () => {
    expect(count("cover", {}, { core, inflated: inches(11) })).toBe(45);
    const half = count("cover", { covered: 0.5 }, { core, inflated: inches(11) }) ?? 0;
    expect(Math.abs(half - 22.5)).toBeLessThanOrEqual(0.5);
  });

  it("a logo wall of 4 x 2.4 m takes 286 of 9 in (worked example of the design)", () => {
    expect(count("wall", { width: 4, height: 2.4 })).toBe(286);
  });

  it("a pole of 6 ft takes one sleeve of 60 in, and one more where it is longer (common practice)", () => {
    expect(count("sleeve", { printed: inches(60), height: feet(6) })).toBe(1);
    expect(count("sleeve", { printed: inches(60), length: feet(6) })).toBe(1);
    expect(count("sleeve", { printed: inches(60), height: feet(6.1) })).toBe(2);
  });

  it("a foil is one; a bouquet, a count, a mix and a collar count nothing by themselves", () => {
    expect(count("foil", {})).toBe(1);
    for (const kind of ["bouquet", "count", "mix", "collar"] as const)
      expect(KINDS[kind].count).toBeUndefined();
  });

  it("asks for the tied ball under a cover", () => {
    expect(() => count("cover", {})).toThrow(
      "pieces row 2: cover must have a tied ball in the same piece, or balloons",
    );
  });

  it("asks for every dimension that a kind needs, by name", () => {
    for (const kind of PART_KINDS) {
      const { needs, count: counted } = KINDS[kind];
      if (counted === undefined || needs.length === 0) continue;
      expect(() => counted(sized(kind, {}))).toThrow(
        `pieces row 2: ${needs[0] ?? ""} must be given for kind "${kind}", found nothing`,
      );
    }
  });

  it("never takes fewer balloons for a longer, wider or higher piece", () => {
    const built = PART_KINDS.filter((kind) => kind !== "cover" && KINDS[kind].count !== undefined);
    const metres = fc.integer({ min: 6, max: 40 }).map((quarters) => quarters / 4);
    const grown = fc.constantFrom("width", "height", "length");
    fc.assert(
      fc.property(
        fc.constantFrom(...built),
        metres,
        metres,
        metres,
        grown,
        (kind, width, height, length, side) => {
          const cells = { width, height, length, printed: inches(60) };
          const more = { ...cells, [side]: cells[side as "width"] + 0.5 };
          expect(count(kind, more)).toBeGreaterThanOrEqual(count(kind, cells) ?? 0);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe("dimensionOf", () => {
  it("gives a dimension that is above 0 and refuses one that is not", () => {
    expect(dimensionOf(sized("wall", { width: 4 }), "width")).toBe(4);
    expect(() => dimensionOf(sized("wall", { width: 0 }), "width")).toThrow(
      'pieces row 2: width must be above 0 m for kind "wall", found 0',
    );
  });

  it("lets a number of balloons be none", () => {
    expect(dimensionOf(sized("count", { balloons: 0 }), "balloons")).toBe(0);
  });
});

describe("boxes of ready-built pieces", () => {
  it("T5: a column of four is 0.4872 m across (by hand)", () => {
    // Four balls of 9 in on a square with sides of 0.8 of their size: d (1 + 0.8 sqrt 2) = 0.2286 x 2.1314. Spacing of 0.8:
    // common practice, no source.
    const [width = 0, depth = 0, height = 0] = box("column", { height: 3 }) ?? [];
    expect([width, depth]).toEqual([width, width]);
    expect(width).toBeCloseTo(0.4872, 3);
    expect(height).toBe(3);
  });

  it("an arch stands wider than it is measured by what it is thick", () => {
    const [width = 0, depth = 0, height = 0] = box("arch", { width: 3, height: 2.4 }) ?? [];
    expect(width).toBeCloseTo(3 + 0.4872, 3);
    expect(depth).toBeCloseTo(0.4872, 3);
    expect(height).toBe(2.4);
  });

  it("a wall is one balloon deep, a sleeved pole as thick as a wrist (common practice 0.05 m)", () => {
    expect(box("wall", { width: 4, height: 2.4 })).toEqual([4, inches(9), 2.4]);
    expect(box("sleeve", { height: 1.8 })).toEqual([0.05, 0.05, 1.8]);
  });

  it("K11: a covered ball of 12 and 45 is 1.109 m across (by hand: 2 x 16.33 in + 11 in)", () => {
    const sides = box("cover", {}, { core, inflated: inches(11) }) ?? [];
    expect(sides.map((side) => side.toFixed(3))).toEqual(["1.109", "1.109", "1.109"]);
  });

  it("there is none for what gives way, and none without dimensions", () => {
    for (const kind of ["garland", "strand", "ceiling", "net", "mix", "foil", "bouquet"] as const)
      expect(KINDS[kind].box).toBeUndefined();
    expect(box("column", {})).toBeUndefined();
    expect(box("count", { width: 1 })).toBeUndefined();
    expect(box("tied ball", {}, { balloons: 0 })).toBeUndefined();
  });
});

it("K9: the ring of a collar 0.9 m wide and 0.25 m thick is 2.0420 m (by hand: pi x 0.65)", () => {
  expect(ringLength(0.9, 0.25)).toBeCloseTo(2.042, 4);
});
