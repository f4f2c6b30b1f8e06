import { attempt, required } from "../attempt";
import { sum } from "../numeric/sums";
import { orNone } from "../numeric/tally";
import { LOADING_MINUTES } from "../practice";
import { UNITS } from "../units";
import { isWithheld, type Known } from "../withheld";
import { drivenDistance, drivingWork, peopleNeeded } from "./clock";
import { check, type Problem } from "../problem";
import type { PieceWork } from "./piece-work";
import type { EventScope } from "./scope";
import { requiredTerm, termOf, type Terms } from "./terms";
import { taskOf, type WorkTable } from "./work-table";

/** What an event takes beside its pieces. */
export interface EventTravel {
  readonly event: EventScope;
  /** Loaded drives out, whole. */
  readonly trips: Known;
  /** People who build and drive out. */
  readonly crew: Known;
  /** People that the time on site asks for; the crew where that time is not known. */
  readonly people: Known;
  /** Person-time of loading, unloading, driving, and of the task event, s. */
  readonly work: Known;
  /** Person-time to load or to unload all trips once, s. */
  readonly loading: Known;
  /** Person-time of the task event, which is shop work, s. */
  readonly task: number;
  /** m */
  readonly distance: Known;
  /** Cost of the kilometres, not rounded. */
  readonly cost: Known;
  readonly problems: readonly Problem[];
}

/**
 * Travel and loading of an event.
 * Source: `drivingWork`, `drivenDistance`, `peopleNeeded`; loading by common practice.
 *
 * @param event with its terms
 * @param pieces person-time of its pieces
 * @param trips loaded drives out
 * @param work the decorator's own minutes
 * @returns amounts; what needs a missing term is withheld
 */
export function eventTravel(
  event: EventScope,
  pieces: readonly PieceWork[],
  trips: Known,
  work: WorkTable,
): EventTravel {
  const { terms } = event;
  const perTrip = taskOf(work, "loading", "minutes per piece") ?? LOADING_MINUTES.value * UNITS.min.si;
  const loading = attempt(() => required(trips) * perTrip);
  const needed = attempt(() => peopleFor(terms, pieces, required(loading)));
  const crew = attempt(() => termOf(terms, "crew") ?? Math.max(1, required(needed)));
  const collect = attempt(() => (requiredTerm(terms, "collect") ? 1 : 0));
  const driving = attempt(() => {
    const { delivery, collection } = drivingWork({
      travel: requiredTerm(terms, "travel"),
      trips: required(trips),
      crew: required(crew),
      collectCrew: termOf(terms, "collect crew") ?? required(crew),
      collect: required(collect) === 1,
      stay: requiredTerm(terms, "stay"),
    });
    return delivery + collection;
  });
  const shop = orNone(taskOf(work, "event", "minutes per piece"));
  const distance = attempt(() =>
    drivenDistance(
      requiredTerm(terms, "distance"),
      required(trips),
      required(collect) === 1,
      requiredTerm(terms, "stay"),
    ),
  );
  const total = attempt(() =>
    sum([required(driving), required(loading) * (2 + 2 * required(collect)), shop]),
  );
  return {
    event,
    trips,
    crew,
    people: isWithheld(needed) || needed > 0 ? needed : crew,
    work: total,
    loading,
    task: shop,
    distance,
    cost: attempt(() => (required(distance) / UNITS.km.si) * requiredTerm(terms, "per km")),
    problems: crewProblems(terms, crew, driving),
  };
}

/** People that the time on site asks for, 0 where it is not known. */
function peopleFor(terms: Terms, pieces: readonly PieceWork[], unloading: number): number {
  const window = siteWindow(terms);
  if (window === undefined) return 0;
  const onSite = sum(pieces.flatMap(({ site, rigging }) => [required(site), required(rigging)])) + unloading;
  return peopleNeeded(onSite, window, requiredTerm(terms, "buffer"));
}

/**
 * Time on site before the room must be ready. Two times of a day without dates lie on one day, or the second on the next.
 *
 * @param terms of an event
 * @returns s; undefined where access or ready is not given
 */
export function siteWindow(terms: Terms): number | undefined {
  const access = termOf(terms, "access");
  const ready = termOf(terms, "ready");
  if (access === undefined || ready === undefined) return undefined;
  const isDated = access >= 1 && ready >= 1;
  const days = isDated ? ready - access : (ready % 1) - (access % 1);
  return (days < 0 && !isDated ? days + 1 : days) * UNITS.d.si;
}

function crewProblems(terms: Terms, crew: Known, driving: Known): readonly Problem[] {
  if (terms.crew.origin !== "not given" || isWithheld(crew)) return [];
  const hours = isWithheld(driving)
    ? ""
    : `, who drive ${Number((driving / UNITS.h.si).toFixed(2))} h in all`;
  const people = crew === 1 ? "one person is" : `${crew} people are`;
  return [check("terms", `crew is not given, ${people} taken${hours}`, "type crew in terms")];
}
