import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type AxisShift, movedIndex, movedSpan } from "../../src/formula/axis-shift";

const ROWS = 40;
const shifts: fc.Arbitrary<AxisShift> = fc
  .record({
    kind: fc.constantFrom("insert" as const, "delete" as const, "move" as const),
    at: fc.nat({ max: ROWS }),
    count: fc.integer({ min: 1, max: 8 }),
    to: fc.nat({ max: ROWS }),
  })
  .map(({ kind, at, count, to }) => ({
    kind,
    axis: "row" as const,
    at,
    count,
    to: to > at && to < at + count ? at : to,
  }));
const spans = fc
  .tuple(fc.nat({ max: ROWS }), fc.nat({ max: ROWS }))
  .map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const);

describe("rows that move", () => {
  it("follow as Excel's references do", () => {
    // By hand: a price list in rows 2 to 6, counted from 1 as a person sees it.
    const list = [1, 5] as const;
    const insert = (at: number): AxisShift => ({ kind: "insert", axis: "row", at, count: 1 });
    expect(movedSpan(insert(3), list)).toEqual([1, 6]);
    expect(movedSpan(insert(1), list)).toEqual([2, 6]);
    expect(movedSpan(insert(6), list)).toEqual([1, 5]);
    const remove = (at: number, count: number): AxisShift => ({ kind: "delete", axis: "row", at, count });
    expect(movedSpan(remove(0, 2), list)).toEqual([0, 3]);
    expect(movedSpan(remove(5, 9), list)).toEqual([1, 4]);
    expect(movedSpan(remove(1, 5), list)).toBeUndefined();
    const move = (at: number, to: number): AxisShift => ({ kind: "move", axis: "row", at, count: 1, to });
    expect(movedSpan(move(5, 1), list)).toEqual([1, 5]);
    expect(movedSpan(move(1, 6), list)).toEqual([1, 5]);
    expect(movedSpan(move(3, 20), list)).toEqual([1, 4]);
    expect(movedSpan(move(20, 3), list)).toEqual([1, 6]);
    expect(movedSpan(move(3, 20), [3, 3])).toEqual([19, 19]);
  });

  it("keep a reference to whole columns", () => {
    const shift: AxisShift = { kind: "delete", axis: "row", at: 3, count: 2 };
    expect(movedSpan(shift, [0, 1_048_575])).toEqual([0, 1_048_575]);
  });

  it("never share a row, and a move loses none", () => {
    fc.assert(
      fc.property(shifts, (shift) => {
        const images = Array.from({ length: ROWS + 20 }, (_, index) => movedIndex(shift, index));
        const kept = images.filter((image) => image !== undefined);
        expect(new Set(kept).size).toBe(kept.length);
        if (shift.kind === "move") expect(kept).toHaveLength(images.length);
      }),
    );
  });

  it("leave in a stretch every row that stays where it is beside its neighbours", () => {
    fc.assert(
      fc.property(shifts, spans, (shift, span) => {
        const moved = movedSpan(shift, span);
        const { at, count } = shift;
        const isInBlock = (index: number): boolean =>
          shift.kind !== "insert" && index >= at && index < at + count;
        const members = Array.from({ length: span[1] - span[0] + 1 }, (_, index) => span[0] + index);
        for (const index of members.filter((index) => !isInBlock(index))) {
          const image = movedIndex(shift, index) ?? -1;
          expect(moved && image >= moved[0] && image <= moved[1], `${index} of ${span.join()}`).toBe(true);
        }
        if (moved === undefined) expect(members.every(isInBlock)).toBe(true);
      }),
    );
  });
});
