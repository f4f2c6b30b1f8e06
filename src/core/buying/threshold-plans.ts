import { entryAt, present } from "../numeric/entry-at";
import { coverOptions, type CoverOption } from "./cover-options";
import { withoutDominated } from "./dominance";
import type { Incumbent } from "./incumbent";
import { type BagChain, bagsOf, coverOf, type Interval } from "./purchase";
import { type PurchaseProblem, roundingOf } from "./purchase-problem";
import type { DualBound, DualPoint, ThresholdBound } from "./threshold-bound";

/** What a search for the best plan of some intervals is given. */
export interface ThresholdSearch {
  readonly problem: PurchaseProblem;
  readonly incumbent: Incumbent;
  readonly bounds: ThresholdBound;
  /** An interval for each constrained supplier of the set. */
  readonly intervals: readonly Interval[];
  /** Those whose thresholds are kept track of. */
  readonly active: readonly Interval[];
  readonly dual: DualBound;
}

/**
 * `none better` where no plan within the slack can be better than the incumbent, `cut` where states were dropped or the
 * steps ran out, or the thresholds that the best plan of the active ones misses.
 */
export type ThresholdOutcome = "none better" | "cut" | readonly Interval[];

interface State {
  /** Value of goods so far at each active supplier, up to its threshold. */
  readonly goods: readonly number[];
  /** Paid so far to all suppliers. */
  readonly paid: number;
  /** No plan from here is cheaper, charges apart. */
  readonly least: number;
  readonly chain: ItemChain | undefined;
}

interface ItemChain {
  readonly item: number;
  readonly bags: BagChain | undefined;
  readonly before: ItemChain | undefined;
}

interface ItemOptions {
  readonly item: number;
  readonly options: readonly CoverOption[];
}

/** A point of the dual by which states are bounded: `ahead` is what the items from each place on cost at least under it. */
interface StateBound {
  readonly multipliers: readonly number[];
  readonly ahead: readonly number[];
}

/** What a step of this search takes in those of the budget. */
const STATE_STEPS = 250;
/** Best points of the dual that bound a state. */
const BOUNDING_POINTS = 12;

/**
 * Finds the best plan whose price is within `slack` of the bound: dynamic programming item by item over what has been
 * ordered so far at each active supplier, states cut off by points of the dual and by dominance, and where they are too
 * many by a beam. Source: dynamic programming with bounds, Marsten and Morin, Math. Programming 14 (1978) 21, from memory.
 *
 * @param search the intervals and their bound
 * @param slack subcents above the bound
 * @param width most states that are followed from item to item
 * @returns how it ended; a better plan is proposed to the incumbent
 */
export function bestThresholdPlan(search: ThresholdSearch, slack: number, width: number): ThresholdOutcome {
  const { problem, incumbent, active, dual } = search;
  const limit = dual.value + slack + roundingOf(dual.value + slack);
  const step = (): boolean => problem.budget.take(STATE_STEPS);
  const choices = optionsOfItems(search, slack + roundingOf(dual.value + slack), step);
  if (choices === undefined) return "cut";
  const successors = new Successors(search, choices, limit);
  let isComplete = true;
  let states: readonly State[] = [{ goods: active.map(() => 0), paid: 0, least: 0, chain: undefined }];
  for (const place of choices.keys()) {
    const next = successors.of(states, place, step);
    if (next === undefined) return "cut";
    const kept = withoutDominated(next, active, incumbent, step);
    isComplete &&= kept.length <= width;
    states = isComplete ? kept : mostPromising(kept, width, problem.grid);
  }
  const missed = proposeCheapest(search, states);
  if (missed.length > 0) return missed;
  const isSure = isComplete && active.every(({ supplier }) => incumbent.isExact(supplier));
  return isSure ? "none better" : "cut";
}

/** Options of every item, fewest first; undefined where they are out of reach. */
function optionsOfItems(
  { problem, incumbent, bounds, active, dual }: ThresholdSearch,
  slack: number,
  step: () => boolean,
): readonly ItemOptions[] | undefined {
  const reduced = problem.pricing(bounds.open, bounds.bySupplier(active, dual.multipliers));
  const placeOf = (supplier: number): number => active.findIndex((one) => one.supplier === supplier);
  const choices: ItemOptions[] = [];
  for (const [item, covers] of problem.items.entries()) {
    if (covers.isLarge) return undefined;
    const options = coverOptions(covers, { reduced, placeOf, places: active.length, slack, step });
    if (options === undefined) return undefined;
    choices.push({ item, options: withoutDominated(options, active, incumbent, step) });
  }
  return choices.sort((a, b) => a.options.length - b.options.length);
}

/** States after one item more. */
class Successors {
  private readonly thresholds: readonly number[];
  private readonly bounds: readonly StateBound[];
  private readonly keyOf: (goods: readonly number[]) => number | string;
  /** What the items from each place on can add at most to each active supplier without a top-up. */
  private readonly reachable: readonly (readonly number[])[];

  constructor(
    { problem, active, dual }: ThresholdSearch,
    private readonly choices: readonly ItemOptions[],
    private readonly limit: number,
  ) {
    this.thresholds = active.map(({ threshold }) => threshold);
    this.bounds = stateBounds(dual.points, choices);
    this.keyOf = keyMaker(this.thresholds, problem.grid);
    this.reachable = reachableGoods(choices, active.length);
  }

  /** @returns the cheapest state for each vector of goods, or undefined where the steps ran out */
  of(states: readonly State[], place: number, step: () => boolean): readonly State[] | undefined {
    const { thresholds, bounds, limit } = this;
    const { item, options } = entryAt(this.choices, place);
    const reachable = entryAt(this.reachable, place + 1);
    const goods = thresholds.map(() => 0);
    const missing = thresholds.map(() => 0);
    const unreached = thresholds.map(() => 0);
    const next = new Map<number | string, State>();
    for (const state of states) {
      for (const option of options) {
        if (!step()) return undefined;
        const paid = state.paid + option.paid;
        for (let i = 0; i < thresholds.length; i += 1) {
          const threshold = present(thresholds[i]);
          const value = Math.min(present(state.goods[i]) + present(option.goods[i]), threshold);
          goods[i] = value;
          missing[i] = threshold - value;
          unreached[i] = Math.max(0, threshold - value - present(reachable[i]));
        }
        let least = 0;
        for (const { multipliers, ahead } of bounds) {
          let bound = paid + present(ahead[place + 1]);
          for (let i = 0; i < thresholds.length; i += 1) {
            const multiplier = present(multipliers[i]);
            bound += multiplier * present(missing[i]) + (1 - multiplier) * present(unreached[i]);
          }
          if (bound > least) least = bound;
          if (bound > limit) break;
        }
        if (least > limit) continue;
        const key = this.keyOf(goods);
        if (paid >= (next.get(key)?.paid ?? Infinity)) continue;
        const chain = { item, bags: option.chain, before: state.chain };
        next.set(key, { goods: [...goods], paid, least, chain });
      }
    }
    return [...next.values()];
  }
}

function stateBounds(points: readonly DualPoint[], choices: readonly ItemOptions[]): readonly StateBound[] {
  const best = points.toSorted((a, b) => b.value - a.value).slice(0, BOUNDING_POINTS);
  return [...best, ...points.slice(0, 1)].map(({ multipliers, prices }) => {
    const ahead = new Array<number>(choices.length + 1).fill(0);
    for (const [at, { item }] of [...choices.entries()].toReversed())
      ahead[at] = present(ahead[at + 1]) + present(prices[item]);
    return { multipliers, ahead };
  });
}

function reachableGoods(choices: readonly ItemOptions[], places: number): readonly (readonly number[])[] {
  const sums = Array.from({ length: choices.length + 1 }, () => new Array<number>(places).fill(0));
  for (const [at, { options }] of [...choices.entries()].toReversed()) {
    sums[at] = present(sums[at + 1]).map(
      (value, i) => value + options.reduce((most, option) => Math.max(most, present(option.goods[i])), 0),
    );
  }
  return sums;
}

/** Makes keys of goods: one number where that is exact, else a text. */
function keyMaker(
  thresholds: readonly number[],
  grid: number,
): (goods: readonly number[]) => number | string {
  const radixes = thresholds.map((threshold) => Math.floor(threshold / grid) + 2);
  const isNumber = radixes.reduce((product, radix) => product * radix, 1) < Number.MAX_SAFE_INTEGER;
  if (!isNumber) return (goods) => goods.join(" ");
  return (goods) => {
    let key = 0;
    // A value at its threshold need not lie on the grid, so it takes the place above all others.
    for (let i = 0; i < radixes.length; i += 1)
      key = key * present(radixes[i]) + Math.ceil(present(goods[i]) / grid);
    return key;
  };
}

/** The states of a beam: those with the least bounds. */
function mostPromising(states: readonly State[], width: number, grid: number): readonly State[] {
  const least = (state: State): number => Math.round(state.least / grid);
  return states.toSorted((a, b) => least(a) - least(b) || a.paid - b.paid).slice(0, width);
}

/** Proposes the cheapest complete state; thresholds that it misses, where they keep it from being as cheap as it looks. */
function proposeCheapest(
  { problem, incumbent, intervals, active }: ThresholdSearch,
  states: readonly State[],
): readonly Interval[] {
  const charges = intervals.reduce((total, { charge }) => total + charge, 0);
  let cheapest: State | undefined;
  let least = incumbent.price;
  for (const state of states) {
    const price = active.reduce(
      (total, { supplier, threshold }, i) =>
        total + incumbent.topUp(supplier, threshold - present(state.goods[i])).sum,
      state.paid + charges,
    );
    if (price >= least) continue;
    least = price;
    cheapest = state;
  }
  if (cheapest === undefined) return [];
  const bags: (readonly number[])[] = problem.wanted.map(() => []);
  for (let link = cheapest.chain; link; link = link.before)
    bags[link.item] = bagsOf(entryAt(problem.wanted, link.item).offers, link.bags);
  const cover = coverOf(problem.wanted, bags, problem.terms.length);
  incumbent.propose(cover);
  if (incumbent.price <= least) return [];
  return intervals.filter(
    (one) => present(cover.goods[one.supplier]) < one.threshold && !active.includes(one),
  );
}
