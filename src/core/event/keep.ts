import { nameKey } from "../palette/names";
import type { ItemNeed } from "./item-needs";
import type { Job } from "./job";
import { check, type Problem } from "../problem";

/**
 * What left-overs of an item are worth: the smallest `keep` of its colour in the palettes that use it, else the usual share.
 *
 * @param need the item and its demands
 * @param job the tables
 * @param usual the term leftover worth
 * @returns share 0..1, and a check where palettes differ
 */
export function keptWorth(
  need: ItemNeed,
  job: Job,
  usual: number,
): { readonly worth: number; readonly problems: readonly Problem[] } {
  const used = new Set(need.demands.map(({ part }) => nameKey(part.part.cells.palette ?? "")));
  const colour = nameKey(need.item.colour);
  const lines = job.palettes.filter(
    ({ cells }) => used.has(nameKey(cells.palette ?? "")) && nameKey(cells.colour ?? "") === colour,
  );
  const kept = lines.flatMap(({ cells }) => cells.keep ?? []);
  if (kept.length === 0) return { worth: usual, problems: [] };
  const worth = Math.min(...kept);
  if (kept.every((keep) => keep === worth)) return { worth, problems: [] };
  const [first] = lines;
  const what = `${first?.place ?? "palettes"}: keep of ${need.item.colour} differs between palettes, ${worth * 100} % holds`;
  return { worth, problems: [check("palettes", what, "type the same keep in all palettes", first?.row)] };
}
