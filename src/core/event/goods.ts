import { attempt, required } from "../attempt";
import { entryAt, present } from "../numeric/entry-at";
import { sum } from "../numeric/sums";
import { wholeUp } from "../numeric/whole";
import { nameKey } from "../palette/names";
import { isWithheld, sumKnown, whenKnown, withheld, type Known } from "../withheld";
import { chargeOf, type Charge } from "./costing";
import { goodsTable, unmatchedFor, type Good, type GoodsTable } from "./goods-table";
import { covers, isServed, overheadUse, perCylinder, pieceUse } from "./goods-use";
import type { GoodsDriver, Job, Problem, TermCells } from "./job";
import type { PlannedPiece } from "./plan-parts";

/** One good of the whole job. Amounts in its unit, money in the sheet's currency. */
export interface PlannedGood {
  readonly good: Good;
  readonly needed: Known;
  /** Packs to bring, whole. */
  readonly packs: Known;
  /** Packs to buy or hire, whole. */
  readonly toGet: Known;
  /** Not rounded. */
  readonly charge: Charge | undefined;
  /** Why the charge is not known. */
  readonly why: string | undefined;
  /** What is left of what is bought and owned, in its unit; 0 for what returns. */
  readonly left: Known;
  /** Share of each piece, then of each event's overhead; they add up to 1 where anything is needed. */
  readonly shares: readonly number[];
  readonly overhead: ReadonlyMap<string, number>;
  readonly problems: readonly Problem[];
}

/** The goods of one scenario. */
export interface Goods {
  readonly goods: readonly PlannedGood[];
  /** Pieces whose helium or ribbon no good pays for, by place in the pieces, with the sentence. */
  readonly uncovered: ReadonlyMap<number, string>;
  readonly problems: readonly Problem[];
}

/** How goods are charged. */
export interface GoodsTerms {
  readonly costing: TermCells["costing"];
  readonly worth: number;
}

/**
 * What the job takes of everything that is not a balloon, pooled over its pieces and events.
 * Source: `pieceUse`; charges as those of balloons, what returns costs its price for each use.
 *
 * @param job the tables
 * @param pieces of one scenario
 * @param trips loaded trips by event; undefined for an event whose trips are not known
 * @param terms how they are charged
 * @returns goods in the order of the table
 */
export function goodsOf(
  job: Job,
  pieces: readonly PlannedPiece[],
  trips: ReadonlyMap<string, Known>,
  terms: GoodsTerms,
): Goods {
  const table = goodsTable(job);
  const uses = new Map(table.goods.map((good) => [good, usesOf(good, pieces, trips)] as const));
  const cylinders = cylinderUses(table, pieces, uses);
  const goods = table.goods.map((good) => {
    const use = present(uses.get(good));
    const own = table.problems.filter(({ reach }) => reach.of === "good" && reach.item === good.key);
    return plannedGood(good, withCylinders(use, cylinders.get(good)), trips, terms, own);
  });
  const uncovered = uncoveredPieces(table, pieces);
  return {
    goods,
    uncovered: uncovered.sentences,
    problems: [
      ...table.problems,
      ...goods.flatMap((good) => good.problems).filter((problem) => !table.problems.includes(problem)),
      ...uncovered.problems,
      ...unservedPieces(job, table, pieces),
      ...unmatchedFor(
        job,
        pieces.map(({ piece }) => piece.name),
        pieces.flatMap(({ parts }) => parts.flatMap(({ part }) => part.kind ?? [])),
      ),
    ],
  };
}

/** Use of each piece, then of each event's overhead. */
function usesOf(
  good: Good,
  pieces: readonly PlannedPiece[],
  trips: ReadonlyMap<string, Known>,
): readonly Known[] {
  return [
    ...pieces.map((piece) => attempt(() => pieceUse(good, piece))),
    ...[...trips.values()].map((count) => attempt(() => overheadUse(good, count))),
  ];
}

/** Use of a good with what goes by cylinders, which pieces alone take. */
function withCylinders(uses: readonly Known[], ofPieces: readonly Known[] = []): readonly Known[] {
  return uses.map((use, place) =>
    place < ofPieces.length ? sumKnown([use, entryAt(ofPieces, place)]) : use,
  );
}

/** Cylinders are the packs of what goes per helium litre; each piece takes its part of them by its helium. */
function cylinderUses(
  table: GoodsTable,
  pieces: readonly PlannedPiece[],
  uses: ReadonlyMap<Good, readonly Known[]>,
): ReadonlyMap<Good, readonly Known[]> {
  const driver: GoodsDriver = "cylinder";
  const going = table.goods.filter((good) => good.lines.some(({ cells }) => cells.per === driver));
  if (going.length === 0) return new Map();
  const gases = table.goods.filter((good) => good.lines.some(({ cells }) => cells.per === "helium litre"));
  const packs = sumKnown(
    gases.map((good) =>
      whenKnown([sumKnown(present(uses.get(good)))], (needed) => wholeUp(needed / good.pack)),
    ),
  );
  const helium = pieces.map(({ parts }) => sumKnown(parts.map((part) => part.helium)));
  const all = sumKnown(helium);
  return new Map(
    going.map((good) => [
      good,
      pieces.map((piece, index) =>
        whenKnown([packs, entryAt(helium, index), all], (cylinders, own, total) => {
          const amounts = piece.parts.map((part) => perCylinder(good, piece, part));
          return total === 0 ? 0 : (cylinders * own * Math.max(0, ...amounts)) / total;
        }),
      ),
    ]),
  );
}

function plannedGood(
  good: Good,
  uses: readonly Known[],
  trips: ReadonlyMap<string, Known>,
  terms: GoodsTerms,
  own: readonly Problem[],
): PlannedGood {
  const { pack, price, owned, returns, key } = good;
  const stopped = own.find(({ weight }) => weight === "stop")?.what;
  const needed = stopped === undefined ? sumKnown(uses) : withheld(stopped);
  const problems = [...own];
  if (stopped === undefined && isWithheld(needed)) {
    const [line] = good.lines;
    problems.push({
      weight: "stop",
      table: "goods",
      row: line.row,
      what: needed.sentence,
      todo: "mend what it goes by",
      reach: { of: "good", item: key },
    });
  }
  const packs = whenKnown([needed], (amount) => wholeUp(amount / pack));
  const toGet = whenKnown([needed, packs], (amount, whole) =>
    returns ? Math.max(0, whole - owned) : wholeUp(Math.max(0, amount - owned) / pack),
  );
  const known = uses.map((use) => (isWithheld(use) ? 0 : use));
  const total = sum(known);
  const shares = known.map((use) => (total === 0 ? 0 : use / total));
  const ofPieces = shares.length - trips.size;
  const charge =
    isWithheld(needed) || price === undefined
      ? undefined
      : charged(good, price, needed, required(toGet), terms);
  return {
    good,
    needed,
    packs,
    toGet,
    charge,
    why: charge === undefined ? (stopped ?? (isWithheld(needed) ? needed.sentence : undefined)) : undefined,
    left: returns ? 0 : whenKnown([needed, toGet], (amount, get) => Math.max(0, owned + get * pack - amount)),
    shares: shares.slice(0, ofPieces),
    overhead: new Map([...trips.keys()].map((event, index) => [event, entryAt(shares, ofPieces + index)])),
    problems,
  };
}

function charged(
  { returns, pack, owned }: Good,
  price: number,
  needed: number,
  toGet: number,
  { costing, worth }: GoodsTerms,
): Charge {
  const bought = toGet * price;
  // What returns wears out or is hired: every use costs, also of one's own.
  if (returns) return { pays: wholeUp(needed / pack) * price, bought, unpaid: 0, leftEach: 0 };
  const each = price / pack;
  const taken = Math.min(owned, needed) + toGet * pack;
  return chargeOf({ used: needed, taken, worth: taken * each, bought, todayEach: each }, costing, worth);
}

/** Helium and ribbon that no good pays for. */
function uncoveredPieces(
  table: GoodsTable,
  pieces: readonly PlannedPiece[],
): { readonly sentences: ReadonlyMap<number, string>; readonly problems: readonly Problem[] } {
  const sentences = new Map<number, string>();
  const problems: Problem[] = [];
  const drivers = [
    { driver: "helium litre", of: "helium", unit: "L", scale: 1000 },
    { driver: "ribbon metre", of: "ribbon", unit: "m", scale: 1 },
  ] as const;
  for (const { driver, of, unit, scale } of drivers) {
    const open = pieces.map((piece) =>
      sum(
        piece.parts
          .filter((part) => !table.goods.some((good) => covers(good, piece, part, driver)))
          .map((part) => (isWithheld(part[of]) ? 0 : part[of] * scale)),
      ),
    );
    const all = sum(open);
    if (all === 0) continue;
    const what = `${of} ${thousands(all)} ${unit} has no price, add a row to goods per ${driver}`;
    open.forEach((amount, index) => {
      if (amount > 0 && !sentences.has(index)) sentences.set(index, what);
    });
    problems.push({
      weight: "stop",
      table: "goods",
      what,
      todo: `add a row with per "${driver}"`,
      reach: { of: "good", item: driver },
    });
  }
  return { sentences, problems };
}

function thousands(amount: number): string {
  return String(Math.round(amount)).replace(/\B(?=(\d{3})+$)/g, ",");
}

/** Pieces that nothing but balloons is planned for: forgotten more often than meant. */
function unservedPieces(job: Job, table: GoodsTable, pieces: readonly PlannedPiece[]): readonly Problem[] {
  const check = (what: string, todo: string): Problem => ({
    weight: "check",
    table: "goods",
    what,
    todo,
    reach: { of: "none" },
  });
  const isSilent = (piece: PlannedPiece): boolean =>
    [piece.piece.name, ...piece.parts.flatMap(({ part }) => part.kind ?? []), "all"].some((name) =>
      table.silenced.has(nameKey(name)),
    );
  const built = pieces.filter(({ piece }) => piece.quantity !== 0);
  if (!job.given.has("goods"))
    return built.length === 0 ? [] : [check("no goods are given, only balloons are costed", "add goods")];
  return built
    .filter((piece) => !isSilent(piece) && !isServed(table.goods, piece))
    .map(({ piece }) =>
      check(`no goods serve "${piece.name}"`, 'add a row for it, or one with the item "none"'),
    );
}
