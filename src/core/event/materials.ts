import { present } from "../numeric/entry-at";
import { sum } from "../numeric/sums";
import { demandShares, itemCharge } from "./costing";
import type { TermCells } from "./term-cells";
import type { Job } from "./job";
import type { Problem } from "../problem";
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

/** What a piece has come to so far, delivery apart. */
interface Draft {
  pays: number;
  bought: number;
  /** Balloons, with those that break. */
  used: number;
  readonly problems: Problem[];
  why: string | undefined;
}

const emptyDraft = (): Draft => ({ pays: 0, bought: 0, used: 0, problems: [], why: undefined });

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
  const drafts = new Map(pieces.map((piece) => [piece, emptyDraft()]));
  const problems: Problem[] = [];
  let unpaid = 0;
  const stopped = new Map<string, string>();
  for (const { weight, reach, what } of purchases.problems)
    if (weight === "stop" && reach.of === "item" && !stopped.has(reach.key)) stopped.set(reach.key, what);
  for (const purchase of purchases.items) {
    const kept = keptWorth(purchase.need, job, terms["leftover worth"]);
    problems.push(...kept.problems);
    const charge = itemCharge(purchase, costing, kept.worth);
    unpaid += charge.unpaid;
    const shares = demandShares(purchase.need.demands, costing);
    for (const demand of purchase.need.demands) {
      const draft = present(drafts.get(demand.planned));
      const share = present(shares.get(demand));
      draft.pays += share * charge.pays;
      draft.bought += share * charge.bought;
      draft.used += demand.count / (1 - demand.breakage);
      draft.problems.push(...purchase.problems);
      draft.why ??= stopped.get(demand.key);
    }
  }
  // What was given away free shares a delivery by what is used of it.
  const made = [...drafts.values()];
  const isPaid = sum(made.map(({ pays }) => pays)) > 0;
  const weightOf = ({ pays, used }: Draft): number => (isPaid ? pays : used);
  const whole = sum(made.map(weightOf));
  return {
    pieces: made.map((draft) => {
      const share = whole === 0 ? 0 : (weightOf(draft) * purchases.delivery) / whole;
      const { pays, bought, problems: own, why } = draft;
      return { pays: pays + share, bought: bought + share, problems: own, why };
    }),
    unpaid,
    problems,
  };
}
