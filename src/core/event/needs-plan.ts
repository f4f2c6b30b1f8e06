import { unavailable } from "../calc-error";
import { entryAt } from "../numeric/entry-at";
import { largestRemainder } from "../numeric/largest-remainder";
import { sum } from "../numeric/sums";
import { lookAlikesAmong } from "../palette/names";
import { grouped } from "../stock/grouped";
import { sizeKey } from "../stock/item";
import { withheld, type Known } from "../withheld";
import { itemNeeds, partDemands, type PartDemand } from "./item-needs";
import type { BalloonType } from "./cells";
import type { TermCells, TermRowCells } from "./term-cells";
import type { Job, Line } from "./job";
import { check, type Problem } from "../problem";
import type { JobPlan } from "./job-plan";
import type { PlannedPiece } from "./plan-parts";
import { unsettledOption } from "./scope";
import { statusOf } from "./status";

/** A row of NEEDS_PLAN. Sizes in m. */
export interface NeedsPlanRow {
  readonly printed: Known;
  /** Empty for sleeves, which hold no gas. */
  readonly inflated: Known | "";
  readonly colour: string;
  /** Balloons, insides of layered ones included. */
  readonly count: Known;
  /** Balloons to take. */
  readonly "with spares": Known;
  readonly status: string;
  readonly type: BalloonType | "";
}

/** What stands in for terms where a function has no table of them. */
export type StandInTerms = Partial<
  Pick<TermCells, "breakage" | "breakage outdoors" | "breakage foil" | "confidence" | "option">
>;

/**
 * A job with terms that were given as arguments.
 *
 * @param job the tables
 * @param terms values by name
 * @returns the same tables with these terms in front
 */
export function withTerms(job: Job, terms: StandInTerms): Job {
  const lines = Object.entries(terms).map(
    ([term, value]) =>
      ({ place: term, row: 0, cells: { term, value }, doubts: [] }) as unknown as Line<TermRowCells>,
  );
  return { ...job, terms: [...lines, ...job.terms] };
}

/**
 * NEEDS_PLAN: what the job needs of every item, pooled over all pieces. Rows of one item that are inflated differently stay
 * apart, since gas follows the inflated size; their spares are pooled all the same.
 * Source: `itemNeeds`; spares shared over the rows of an item by largest remainder.
 *
 * @param plan of the job
 * @returns rows by type, printed and inflated size, then one for each row of pieces that cannot be counted
 * @throws CalcError `#N/A` where an option must be chosen
 */
export function needsPlan({ scope, chosen, piecesOf }: JobPlan): readonly NeedsPlanRow[] {
  const open = unsettledOption(scope);
  if (open !== undefined) throw unavailable(open);
  const pieces = piecesOf(chosen);
  const demands = partDemands(pieces);
  const alikeOf = lookAlikesAmong(demands.map(({ item }) => item.colour));
  const rows = itemNeeds(demands).flatMap(({ demands: ofItem, take, item }) => {
    const bySize = [...grouped(ofItem, inflatedKey).values()];
    const counts = bySize.map((group) => sum(group.map(({ count }) => count)));
    const taken = sum(counts) === 0 ? counts : largestRemainder(take, counts);
    const alike = alikeOf(item.colour).map((name) =>
      check("palettes", `looks like "${name}"`, "spell one colour one way"),
    );
    return bySize.map((group, index): NeedsPlanRow => {
      const [{ part }] = group;
      return {
        printed: item.printed,
        inflated: part.part.inflated ?? "",
        colour: item.colour.trim(),
        count: entryAt(counts, index),
        "with spares": entryAt(taken, index),
        status: statusOf([...remarksOf(group), ...alike]),
        type: item.type ?? "latex",
      };
    });
  });
  const order = ["latex", "foil", "long"];
  rows.sort(
    (a, b) =>
      order.indexOf(a.type) - order.indexOf(b.type) ||
      Number(a.printed) - Number(b.printed) ||
      (Number(a.inflated) || 0) - (Number(b.inflated) || 0),
  );
  return [...rows, ...closingRows([...scope.problems, ...pieces.flatMap((piece) => piece.problems)])];
}

function inflatedKey({ part: { part } }: PartDemand): number {
  return typeof part.inflated === "number" ? sizeKey(part.inflated) : 0;
}

function remarksOf(demands: readonly PartDemand[]): readonly Problem[] {
  return demands.flatMap(({ part, planned }) => ofPart(planned, part.part.place));
}

function ofPart({ problems }: PlannedPiece, place: string): readonly Problem[] {
  return problems.filter(({ what, weight }) => weight === "check" && what.startsWith(`${place}:`));
}

function closingRows(problems: readonly Problem[]): readonly NeedsPlanRow[] {
  const stops = problems.filter(({ weight }) => weight === "stop");
  return [...grouped(stops, ({ what }) => what).values()].map(([problem]) => {
    const unknown = withheld(problem.what);
    return {
      printed: unknown,
      inflated: unknown,
      colour: "",
      count: unknown,
      "with spares": unknown,
      status: statusOf([problem]),
      type: "",
    };
  });
}
