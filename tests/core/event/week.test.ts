import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  itemBook,
  itemWeek,
  overlapping,
  plannedUse,
  type BreakingCount,
  type ItemEvent,
} from "../../../src/core/event/week";
import { countWithSpares } from "../../../src/core/stock/spares";

const spares = (needs: readonly BreakingCount[]): number =>
  countWithSpares(
    needs.reduce((sum, { count }) => sum + count, 0),
    needs[0]?.breakage ?? 0,
    0.95,
  );

const friday: ItemEvent = { event: "Friday", out: 10, back: 11, needs: [{ count: 96, breakage: 0.03 }] };
const sunday: ItemEvent = { event: "Sunday", out: 12, back: 13, needs: [{ count: 90, breakage: 0.03 }] };

describe("itemWeek", () => {
  it("orders up to 196 for 96 and then 90 (published: negative binomial; by hand: max(196, 99 + 96))", () => {
    const week = itemWeek([sunday, friday], spares);
    expect(week.orderUpTo).toBe(196);
    expect(week.groups.map((group) => group.map(({ event, take }) => [event, take]))).toEqual([
      [["Friday", 102]],
      [["Sunday", 96]],
    ]);
    expect(week.groups[0]?.[0]?.returns).toBe(3);
  });

  it("adds up what events take that are away at the same time (by hand: 102 + 96)", () => {
    expect(itemWeek([friday, { ...sunday, out: 10.5 }], spares).orderUpTo).toBe(198);
    expect(itemWeek([friday, { event: "Sunday", needs: sunday.needs }], spares).orderUpTo).toBe(198);
  });

  it("takes what really came back", () => {
    const week = itemWeek([{ ...friday, returned: 0 }, sunday], spares);
    expect(week.orderUpTo).toBe(102 + 96);
    expect(week.groups[0]?.[0]).toMatchObject({ returns: 0, isCounted: true });
  });

  it("plans the mean use (by hand: 96 / 0.97 = 98.97)", () => {
    expect(plannedUse([{ count: 96, breakage: 0.03 }])).toBe(99);
    expect(
      plannedUse([
        { count: 1, breakage: 0.5 },
        { count: 1, breakage: 0.5 },
      ]),
    ).toBe(4);
  });
});

describe("itemBook", () => {
  it("has the balances 47, 197, 95, 98, 2, 5 (by hand)", () => {
    const book = itemBook(itemWeek([friday, sunday], spares), 47, 150);
    expect(book.map(({ what, balance }) => [what, balance])).toEqual([
      ["opening", 47],
      ["bought", 197],
      ["out", 95],
      ["back", 98],
      ["out", 2],
      ["back", 5],
      ["closing", 5],
    ]);
    expect(book[2]).toMatchObject({ fromShelf: 47, fromOrder: 55 });
  });

  const event = fc
    .record({
      out: fc.integer({ min: 0, max: 12 }),
      days: fc.integer({ min: 1, max: 4 }),
      count: fc.integer({ min: 1, max: 150 }),
    })
    .map(({ out, days, count }) => ({ out, back: out + days, needs: [{ count, breakage: 0.06 }] }));
  const events = fc
    .array(event, { minLength: 1, maxLength: 5 })
    .map((list) => list.map((item, index): ItemEvent => ({ ...item, event: `${index}` })));

  it("never plans a balance below 0, and one balloon less would break a rule (every event tried)", () => {
    fc.assert(
      fc.property(events, fc.integer({ min: 0, max: 100 }), (list, shelf) => {
        const week = itemWeek(list, spares);
        const bought = Math.max(0, week.orderUpTo - shelf);
        const lowest = (amount: number): number =>
          Math.min(...itemBook(week, shelf, amount).map(({ balance }) => balance));
        expect(lowest(bought)).toBeGreaterThanOrEqual(0);
        if (bought === 0) return;
        const together = spares(list.flatMap(({ needs }) => needs));
        expect(lowest(bought - 1) < 0 || shelf + bought - 1 < together).toBe(true);
      }),
    );
  });

  it("takes every balloon from shelf or order, never more from the order than was bought", () => {
    fc.assert(
      fc.property(events, fc.integer({ min: 0, max: 100 }), (list, shelf) => {
        const week = itemWeek(list, spares);
        const bought = Math.max(0, week.orderUpTo - shelf);
        const outs = itemBook(week, shelf, bought).filter(({ what }) => what === "out");
        for (const { out, fromShelf, fromOrder } of outs) expect(fromShelf + fromOrder).toBe(out);
        expect(outs.reduce((sum, { fromOrder }) => sum + fromOrder, 0)).toBeLessThanOrEqual(bought);
      }),
    );
  });
});

describe("overlapping", () => {
  it("is what comparing every pair gives, joined through others", () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ out: fc.integer({ min: 0, max: 30 }), days: fc.integer({ min: 1, max: 5 }) }), {
          maxLength: 8,
        }),
        (spans) => {
          const list = spans.map(({ out, days }, id) => ({ id, out, back: out + days }));
          const group = list.map(({ id }) => id);
          for (let round = 0; round < list.length; round += 1) {
            for (const one of list) {
              for (const other of list) {
                if (one.out >= other.back || other.out >= one.back) continue;
                const least = Math.min(group[one.id] ?? 0, group[other.id] ?? 0);
                group[one.id] = least;
                group[other.id] = least;
              }
            }
          }
          expect(overlapping(list)).toHaveLength(new Set(group).size);
          for (const together of overlapping(list)) {
            expect(new Set(together.map(({ id }) => group[id])).size).toBe(1);
          }
        },
      ),
    );
  });
});
