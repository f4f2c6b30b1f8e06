import type { CatalogueFunction } from "./definition";

/**
 * The functions that carry a job from its tables to its papers, in the order of the work: what each piece takes, what is
 * short, what to buy, what it costs and earns, options, hours, stock, papers, and what past jobs teach.
 */
const NAMES: readonly string[] = [
  "PART_PLAN",
  "READY_PLAN",
  "NEEDS_PLAN",
  "GOODS_PLAN",
  "COST_PLAN",
  "OPTION_PLAN",
  "WORK_PLAN",
  "PAPER_PLAN",
  "STOCK_PLAN",
  "LEARN_PLAN",
];

/** The functions of the shortest way, in its order. */
export function shortestWay(catalogue: readonly CatalogueFunction[]): readonly CatalogueFunction[] {
  return NAMES.flatMap((name) => catalogue.filter((fn) => fn.name === name));
}
