import { attempt, required } from "../attempt";
import { CalcError } from "../calc-error";
import { OXYGEN_LIMIT, oxygenShare } from "../care/oxygen";
import { assertGust } from "../care/take-down";
import { isWithheld } from "../withheld";
import { eventStages } from "./event-stages";
import type { Problem } from "../problem";
import { rowCheck } from "./part";
import { partLift } from "./part-gas";
import type { PlannedPart, PlannedPiece } from "./plan-parts";
import { heliumOf, type ScenarioCosts } from "./scenario-costs";
import { termOf, type Terms } from "./terms";
import type { EventTravel } from "./travel";
import { clockProblems } from "./work-plan";

/**
 * What of a scenario could hurt somebody or cannot go by the clock: helium that does not float, wind in which pieces have to be
 * down, a closed room short of oxygen, hours before access or after the room must be clear. What cannot be known is a
 * problem of its own elsewhere.
 * Source: `partLift`, `assertGust`, `oxygenShare`, `clockProblems`.
 *
 * @param costs worked out
 * @returns problems of weight unsafe or no go; a stop where the hours alone cannot be told
 */
export function dangersOf(costs: ScenarioCosts): readonly Problem[] {
  return costs.travel.flatMap((travel) => eventDangers(costs, travel));
}

/**
 * The same of one event.
 *
 * @param costs worked out
 * @param travel of the event
 * @returns problems of weight unsafe or no go
 */
export function eventDangers(costs: ScenarioCosts, travel: EventTravel): readonly Problem[] {
  const pieces = costs.pieces.filter((piece) => piece.event === travel.event);
  const { terms } = travel.event;
  return [
    ...pieces.flatMap(({ parts }) => parts.flatMap((part) => sinking(part, terms))),
    ...windProblems(pieces, terms),
    ...oxygenProblems(pieces, terms),
    ...hourProblems(costs, travel),
  ];
}

const FLOATING = "take a larger balloon or air, or type grams each from its packet";

/**
 * Helium that does not carry its own balloon.
 *
 * @param planned a part with its colours
 * @param terms of its event
 * @returns one problem at most
 */
export function sinking({ part, colours }: PlannedPart, terms: Terms): readonly Problem[] {
  if (part.gas === "air" || part.quantity === 0 || part.each === 0) return [];
  const lift = attempt(() => partLift(part, required(colours.inner), terms));
  if (isWithheld(lift) || lift > 0) return [];
  const what = `${part.place}: does not float, lift is ${(lift * 1000).toFixed(1)} g`;
  return [{ ...rowCheck(part, what, FLOATING), weight: "unsafe" }];
}

const unsafe = (table: string, what: string, todo: string): Problem => ({
  weight: "unsafe",
  table,
  what,
  todo,
  reach: { of: "none" },
});

function windProblems(pieces: readonly PlannedPiece[], terms: Terms): readonly Problem[] {
  const isOut = pieces.some(({ parts }) =>
    parts.some(({ part }) => part.where === "outdoors" && part.quantity !== 0),
  );
  const gust = terms.gust.value;
  if (!isOut || gust === undefined) return [];
  const calm = attempt(() => {
    assertGust(gust);
    return 0;
  });
  return isWithheld(calm) ? [unsafe("terms", calm.sentence, "move it indoors or to another day")] : [];
}

function oxygenProblems(pieces: readonly PlannedPiece[], terms: Terms): readonly Problem[] {
  const share = attempt(() => {
    const room = termOf(terms, "room m3");
    const helium = required(heliumOf(pieces));
    return room === undefined || helium === 0 ? 1 : oxygenShare(room, helium);
  });
  if (isWithheld(share) || share >= OXYGEN_LIMIT) return [];
  const what = `the helium, all leaked, would leave ${(share * 100).toFixed(1)} % of oxygen in the room, below ${OXYGEN_LIMIT * 100} %`;
  return [unsafe("terms", what, "keep the room open and aired, or take air")];
}

function hourProblems(costs: ScenarioCosts, travel: EventTravel): readonly Problem[] {
  const works = costs.work.filter((_, place) => costs.pieces[place]?.event === travel.event);
  try {
    return clockProblems(costs, travel, eventStages(travel, works)).map(({ problem }) => problem);
  } catch (error) {
    if (!(error instanceof CalcError)) throw error;
    // Mostly what it lacks is missed elsewhere too; hours that reach back beyond all dates are nobody else's.
    if (costs.problems.some(({ weight }) => weight === "stop")) return [];
    const todo = "mend the row, or the term that it names";
    return [{ weight: "stop", table: "terms", what: error.message, todo, reach: { of: "job" } }];
  }
}
