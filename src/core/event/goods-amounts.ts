import { attempt } from "../attempt";
import { entryAt, present } from "../numeric/entry-at";
import { sum } from "../numeric/sums";
import { orNone } from "../numeric/tally";
import { wholeUp } from "../numeric/whole";
import { isWithheld, sumKnown, whenKnown, withheld, type Known } from "../withheld";
import { goodsTable, type Good, type GoodsTable } from "./goods-table";
import { overheadUse, perCylinder, pieceUse } from "./goods-use";
import type { GoodsDriver } from "./cells";
import type { Job } from "./job";
import type { PlannedPiece } from "./plan-parts";

/** What the pieces of a scenario take of each good, however often it is driven. */
export interface GoodsUse {
  readonly job: Job;
  readonly pieces: readonly PlannedPiece[];
  readonly table: GoodsTable;
  /** In the order of pieces, in the good's unit. */
  readonly ofPieces: ReadonlyMap<Good, readonly Known[]>;
}

/** How much of one good the whole job takes, in its unit. */
export interface GoodAmount {
  readonly good: Good;
  readonly needed: Known;
  /** Packs to bring, whole. */
  readonly packs: Known;
  /** Share of each piece, then of each event's overhead; they add up to 1 where anything is needed. */
  readonly shares: readonly number[];
  readonly overhead: ReadonlyMap<string, number>;
}

/**
 * Reads the goods of a job, and what its pieces take of them.
 * Source: `pieceUse`.
 *
 * @param job the tables
 * @param pieces of one scenario
 * @returns the table, and uses by good
 */
export function goodsUse(job: Job, pieces: readonly PlannedPiece[]): GoodsUse {
  const table = goodsTable(job);
  const uses = new Map(
    table.goods.map((good) => [good, pieces.map((piece) => attempt(() => pieceUse(good, piece)))] as const),
  );
  return { job, pieces, table, ofPieces: withCylinders(table, pieces, uses) };
}

/** Cylinders are the packs of what goes per helium litre; each piece takes its part of them by its helium. */
function withCylinders(
  table: GoodsTable,
  pieces: readonly PlannedPiece[],
  uses: ReadonlyMap<Good, readonly Known[]>,
): ReadonlyMap<Good, readonly Known[]> {
  const goesBy = (good: Good, driver: GoodsDriver): boolean =>
    good.lines.some(({ cells }) => cells.per === driver);
  const going = table.goods.filter((good) => goesBy(good, "cylinder"));
  if (going.length === 0) return uses;
  const gases = table.goods.filter((good) => goesBy(good, "helium litre"));
  const packs = sumKnown(
    gases.map((good) =>
      whenKnown([sumKnown(present(uses.get(good)))], (needed) => wholeUp(needed / good.pack)),
    ),
  );
  const helium = pieces.map(({ parts }) => sumKnown(parts.map((part) => part.helium)));
  const all = sumKnown(helium);
  const byCylinder = (good: Good, piece: PlannedPiece, place: number): Known =>
    whenKnown([packs, entryAt(helium, place), all], (cylinders, own, total) => {
      const amounts = piece.parts.map((part) => perCylinder(good, piece, part));
      return total === 0 ? 0 : (cylinders * own * Math.max(0, ...amounts)) / total;
    });
  const added = going.map((good) => {
    const own = present(uses.get(good));
    return [
      good,
      pieces.map((piece, at) => sumKnown([entryAt(own, at), byCylinder(good, piece, at)])),
    ] as const;
  });
  return new Map([...uses, ...added]);
}

/**
 * How much of every good is needed, with what events take whatever their pieces.
 * Source: `overheadUse`.
 *
 * @param use what the pieces take
 * @param trips loaded trips by event
 * @returns amounts in the order of the table; withheld where a row of the good cannot be read
 */
export function goodsAmounts(use: GoodsUse, trips: ReadonlyMap<string, Known>): readonly GoodAmount[] {
  return use.table.goods.map((good) => {
    const ofPieces = present(use.ofPieces.get(good));
    const ofEvents = [...trips].map(
      ([event, count]) => [event, attempt(() => overheadUse(good, count))] as const,
    );
    const uses = [...ofPieces, ...ofEvents.map(([, amount]) => amount)];
    const stop = use.table.problems.find(
      ({ weight, reach }) => weight === "stop" && reach.of === "good" && reach.item === good.key,
    );
    const needed = stop === undefined ? sumKnown(uses) : withheld(stop.what);
    const total = sum(uses.map(knownAmount));
    const shareOf = (amount: Known): number => (total === 0 ? 0 : knownAmount(amount) / total);
    return {
      good,
      needed,
      packs: whenKnown([needed], (amount) => wholeUp(amount / good.pack)),
      shares: ofPieces.map(shareOf),
      overhead: new Map(ofEvents.map(([event, amount]) => [event, shareOf(amount)])),
    };
  });
}

function knownAmount(amount: Known): number {
  return isWithheld(amount) ? 0 : amount;
}

/**
 * How much of a good belongs to one event: what its pieces take, and what it takes whatever its pieces.
 *
 * @param amount of the whole job
 * @param pieces of the scenario, in the order of the shares
 * @param event the event
 * @returns its share, 0 to 1
 */
export function shareOfEvent(
  { shares, overhead }: GoodAmount,
  pieces: readonly PlannedPiece[],
  event: PlannedPiece["event"],
): number {
  const own = sum(shares.filter((_, place) => entryAt(pieces, place).event === event));
  return own + orNone(overhead.get(event.name));
}

/**
 * Packs of a good that one event takes along.
 *
 * @param amount of the whole job
 * @param pieces of the scenario, in the order of the shares
 * @param event the event
 * @returns packs, whole
 */
export function eventPacks(
  amount: GoodAmount,
  pieces: readonly PlannedPiece[],
  event: PlannedPiece["event"],
): Known {
  const share = shareOfEvent(amount, pieces, event);
  return whenKnown([amount.needed], (needed) => wholeUp((needed * share) / amount.good.pack));
}
