import { sum } from "../../numeric/sums";
import { itemWords } from "../../stock/item";
import type { PlannedGood } from "../goods";
import { eventPacks } from "../goods-amounts";
import { settledCosts } from "../goods-plan";
import type { ItemNeed } from "../item-needs";
import type { Problem } from "../../problem";
import type { JobPlan } from "../job-plan";
import type { ScenarioCosts } from "../scenario-costs";
import type { EventTravel } from "../travel";
import { careLines, loadingTopics } from "./care-lines";
import { eventOf, packText, paperLine, problemLines, type PaperRow } from "./paper";

const volume = (m3: number): number => Number(m3.toFixed(2));

/** Problems that keep a job from being packed. */
function packingProblems({ problems }: ScenarioCosts): readonly Problem[] {
  return problems.filter(
    ({ weight, reach }) =>
      weight === "no go" || weight === "unsafe" || (weight === "stop" && reach.of === "job"),
  );
}

/**
 * What to load for one event: trip by trip the pieces that travel built, then balloons with their spares, then goods.
 *
 * @param plan of the job
 * @param event as typed; empty where the job has one
 * @returns lines
 * @throws CalcError `#N/A` where an option must be chosen or the event is not one of the job's
 */
export function packingPaper(plan: JobPlan, event: string): readonly PaperRow[] {
  const costs = settledCosts(plan);
  const travel = eventOf(plan, event);
  return [
    ...problemLines(packingProblems(costs)),
    ...tripLines(costs, travel),
    ...costs.needs.flatMap((need) => balloonLines(need, travel)),
    ...costs.goods.goods.flatMap((good) => goodLines(good, costs, travel)),
    ...careLines(loadingTopics(costs.pieces.filter((piece) => piece.event === travel.event))),
  ];
}

function tripLines({ trips, travel: all }: ScenarioCosts, travel: EventTravel): readonly PaperRow[] {
  const loading = trips[all.indexOf(travel)]?.loading;
  return (loading?.trips ?? []).flatMap(({ vehicle, used, m3, loads }, index) => {
    const section = `${vehicle}, trip ${index + 1}`;
    return [
      paperLine(section, "load", volume(used), "m3", `of ${volume(m3)} m3`),
      ...loads.map(({ name, count, m3: room }) =>
        paperLine(
          section,
          name,
          count === 0 ? "" : count,
          count === 0 ? "the rest of it" : "",
          `${volume(room)} m3`,
        ),
      ),
    ];
  });
}

/** Balloons of an item that leave with an event. */
export function takenBy({ week }: ItemNeed, { event }: EventTravel): number {
  return sum(week.groups.flat().map((planned) => (planned.event === event.name ? planned.take : 0)));
}

function balloonLines(need: ItemNeed, travel: EventTravel): readonly PaperRow[] {
  const take = takenBy(need, travel);
  if (take === 0) return [];
  const own = need.demands.filter(({ planned }) => planned.event === travel.event);
  const inShop = sum(own.filter(({ part }) => part.part.built === "shop").map(({ count }) => count));
  const needed = sum(own.map(({ count }) => count));
  const shop = inShop === 0 ? "" : `, ${inShop} of them built in the shop`;
  return [
    paperLine(
      "balloons",
      itemWords(need.item),
      take,
      "balloons",
      `${needed} needed, ${take - needed} spare${shop}`,
    ),
  ];
}

function goodLines(planned: PlannedGood, costs: ScenarioCosts, travel: EventTravel): readonly PaperRow[] {
  const { good } = planned;
  const packs = eventPacks(planned, costs.pieces, travel.event);
  if (packs === 0) return [];
  const unit = packText(good, packs);
  const back = typeof packs === "number" ? `comes back: ${packs}` : "comes back";
  return [paperLine("goods", good.item, packs, unit, good.returns ? back : "")];
}

/**
 * What to count when an event is over: what returns, and the balloons that should be left.
 *
 * @param plan of the job
 * @param event as typed; empty where the job has one
 * @returns lines
 * @throws CalcError as `packingPaper`
 */
export function returnsPaper(plan: JobPlan, event: string): readonly PaperRow[] {
  const costs = settledCosts(plan);
  const travel = eventOf(plan, event);
  const goods = costs.goods.goods.filter(({ good }) => good.returns);
  return [
    ...problemLines(packingProblems(costs)),
    ...goods.flatMap((planned): readonly PaperRow[] => {
      const packs = eventPacks(planned, costs.pieces, travel.event);
      if (packs === 0) return [];
      const { good } = planned;
      const unit = packText(good, packs);
      return [paperLine("comes back", good.item, packs, unit, good.supplier.trim())];
    }),
    ...costs.needs.flatMap((need): readonly PaperRow[] => {
      const planned = need.week.groups.flat().find((of) => of.event === travel.event.name);
      if (planned === undefined || planned.take === 0) return [];
      const note = planned.isCounted ? "as counted" : `of ${planned.take} taken, as expected`;
      return [paperLine("unused balloons", itemWords(need.item), planned.returns, "balloons", note)];
    }),
  ];
}
