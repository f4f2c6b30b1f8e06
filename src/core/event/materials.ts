import { sum } from "../numeric/sums";
import { demandShares, itemCharge } from "./costing";
import type { PartDemand } from "./item-needs";
import type { Job, Problem, TermCells } from "./job";
import { keptWorth } from "./keep";
import type { PlannedPiece } from "./plan-parts";
import type { Purchases } from "./purchases";

/** What the balloons of one piece cost, sheet's currency, not rounded, delivery included. */
export interface PieceMaterials {
  readonly pays: number;
  /** Cash paid out now. */
  readonly bought: number;
  /** Problems of its items. */
  readonly problems: readonly Problem[];
  /** Why it is not known. */
  readonly why: string | undefined;
}

/** What all balloons of a job cost. */
export interface Materials {
  /** In the order of pieces. */
  readonly pieces: readonly PieceMaterials[];
  /** Worth of balloons that stay on the shelf and that the job does not pay. */
  readonly unpaid: number;
  readonly problems: readonly Problem[];
}

/**
 * Shares what the balloons cost over the pieces that use them, and delivery as the balloons are shared.
 * Source: `itemCharge`, `demandShares`.
 *
 * @param job the tables
 * @param pieces of one scenario
 * @param purchases of its needs
 * @param terms how balloons are charged
 * @returns amounts in the order of pieces; items that cannot be had count nothing and are named
 */
export function materialsOf(
  job: Job,
  pieces: readonly PlannedPiece[],
  purchases: Purchases,
  terms: Pick<TermCells, "costing" | "leftover worth">,
): Materials {
  const { costing } = terms;
  const places = new Map(pieces.map((piece, index) => [piece, index]));
  const pays = pieces.map(() => 0);
  const bought = pieces.map(() => 0);
  const used = pieces.map(() => 0);
  const problems: Problem[] = [];
  const found = pieces.map((): Problem[] => []);
  let unpaid = 0;
  const stopped = new Map<string, string>();
  for (const { weight, reach, what } of purchases.problems)
    if (weight === "stop" && reach.of === "item" && !stopped.has(reach.key)) stopped.set(reach.key, what);
  const why: (string | undefined)[] = pieces.map(() => undefined);
  for (const purchase of purchases.items) {
    const kept = keptWorth(purchase.need, job, terms["leftover worth"]);
    problems.push(...kept.problems);
    const charge = itemCharge(purchase, costing, kept.worth);
    unpaid += charge.unpaid;
    const shares = demandShares(purchase.need.demands, costing);
    for (const demand of purchase.need.demands) {
      const place = placeOf(places, demand);
      const share = shares.get(demand) ?? 0;
      pays[place] = (pays[place] ?? 0) + share * charge.pays;
      bought[place] = (bought[place] ?? 0) + share * charge.bought;
      used[place] = (used[place] ?? 0) + demand.count / (1 - demand.breakage);
      found[place]?.push(...purchase.problems);
      why[place] ??= stopped.get(demand.key);
    }
  }
  // What was given away free shares a delivery by what is used of it.
  const weights = sum(pays) > 0 ? pays : used;
  const whole = sum(weights);
  return {
    pieces: pieces.map((_, index) => {
      const share = whole === 0 ? 0 : ((weights[index] ?? 0) * purchases.delivery) / whole;
      return {
        pays: (pays[index] ?? 0) + share,
        bought: (bought[index] ?? 0) + share,
        problems: found[index] ?? [],
        why: why[index],
      };
    }),
    unpaid,
    problems,
  };
}

function placeOf(places: ReadonlyMap<PlannedPiece, number>, { planned }: PartDemand): number {
  return places.get(planned) ?? 0;
}
