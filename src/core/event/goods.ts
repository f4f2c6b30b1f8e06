import { required } from "../attempt";
import { sum } from "../numeric/sums";
import { wholeUp } from "../numeric/whole";
import { nameKey } from "../palette/names";
import { isWithheld, whenKnown, type Known } from "../withheld";
import { chargeOf, type Charge } from "./costing";
import { goodsAmounts, type GoodAmount, type GoodsUse } from "./goods-amounts";
import { unmatchedFor, type Good, type GoodsTable } from "./goods-table";
import { isPaidBy, isServed } from "./goods-use";
import type { TermCells } from "./term-cells";
import type { Job } from "./job";
import { check, type Problem } from "../problem";
import type { PlannedPiece } from "./plan-parts";

/** One good of the whole job. Amounts in its unit, money in the sheet's currency. */
export interface PlannedGood extends GoodAmount {
  /** Packs to buy or hire, whole. */
  readonly toGet: Known;
  /** Not rounded. */
  readonly charge: Charge | undefined;
  /** Why the charge is not known. */
  readonly why: string | undefined;
  /** What is left of what is bought and owned, in its unit; 0 for what returns. */
  readonly left: Known;
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
 * Source: `goodsAmounts`; charges as those of balloons, what returns costs its price for each use.
 *
 * @param use what the pieces of one scenario take
 * @param trips loaded trips by event; withheld for an event whose trips are not known
 * @param terms how they are charged
 * @returns goods in the order of the table
 */
export function goodsOf(use: GoodsUse, trips: ReadonlyMap<string, Known>, terms: GoodsTerms): Goods {
  const { job, pieces, table } = use;
  const goods = goodsAmounts(use, trips).map((amount) => {
    const { key } = amount.good;
    const own = table.problems.filter(({ reach }) => reach.of === "good" && reach.item === key);
    return plannedGood(amount, terms, own);
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

function plannedGood(amount: GoodAmount, terms: GoodsTerms, own: readonly Problem[]): PlannedGood {
  const { good, needed, packs } = amount;
  const { pack, price, owned, returns, key } = good;
  const stopped = own.find(({ weight }) => weight === "stop")?.what;
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
  const toGet = whenKnown([needed, packs], (all, whole) =>
    returns ? Math.max(0, whole - owned) : wholeUp(Math.max(0, all - owned) / pack),
  );
  const charge =
    isWithheld(needed) || price === undefined
      ? undefined
      : charged(good, price, needed, required(toGet), terms);
  return {
    ...amount,
    toGet,
    charge,
    why: charge === undefined ? (stopped ?? (isWithheld(needed) ? needed.sentence : undefined)) : undefined,
    left: returns ? 0 : whenKnown([needed, toGet], (all, get) => Math.max(0, owned + get * pack - all)),
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
          .filter((part) => !table.goods.some((good) => isPaidBy(good, piece, part, driver)))
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
  const isSilent = (piece: PlannedPiece): boolean =>
    [piece.piece.name, ...piece.parts.flatMap(({ part }) => part.kind ?? []), "all"].some((name) =>
      table.silenced.has(nameKey(name)),
    );
  const built = pieces.filter(({ piece }) => piece.quantity !== 0);
  if (!job.given.has("goods"))
    return built.length === 0
      ? []
      : [check("goods", "no goods are given, only balloons are costed", "add goods")];
  return built
    .filter((piece) => !isSilent(piece) && !isServed(table.goods, piece))
    .map(({ piece }) =>
      check("goods", `no goods serve "${piece.name}"`, 'add a row for it, or one with the item "none"'),
    );
}
