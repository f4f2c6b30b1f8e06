import { attempt, required } from "../attempt";
import { sum } from "../numeric/sums";
import { isWithheld, whenKnown, type Known } from "../withheld";
import { eventPacks, type GoodAmount } from "./goods-amounts";
import type { Job } from "./job";
import { check, type Problem } from "../problem";
import { loadTrips, type Load, type Loading, type LoadSpace } from "./loading";
import type { PlannedPiece } from "./plan-parts";
import { partRoom, pieceBox } from "./part-room";
import type { EventScope } from "./scope";

/** How the things of an event travel. */
export interface EventTrips {
  /** Loaded drives out, whole. */
  readonly trips: Known;
  /** Undefined without vehicles, or where a load is not known. */
  readonly loading: Loading | undefined;
  readonly problems: readonly Problem[];
}

/** Vehicles whose row can be read. */
function loadSpaces(job: Job): readonly LoadSpace[] {
  return job.vehicles.flatMap(({ cells, doubts }): readonly LoadSpace[] => {
    const { vehicle, m3, length, width, height } = cells;
    if (doubts.length > 0 || vehicle === undefined || m3 === undefined || !(m3 > 0)) return [];
    return [
      {
        vehicle,
        m3,
        length,
        width,
        height,
        doorWidth: cells["door width"],
        doorHeight: cells["door height"],
      },
    ];
  });
}

/** A piece as loads: the box of what is rigid, and what gives way by its volume. */
function pieceLoads({ piece }: PlannedPiece): readonly Load[] {
  const count = required(piece.quantity);
  if (count === 0) return [];
  const box = pieceBox(piece);
  const boxed = box === undefined ? 0 : box[0] * box[1] * box[2];
  const loose = sum(piece.parts.map((part) => partRoom(part, piece))) / count - boxed;
  const { name } = piece;
  return [
    ...(box === undefined ? [] : [{ name, m3: boxed, count, box }]),
    // What is left of a subtraction is no load.
    ...(loose > 1e-9 ? [{ name, m3: loose, count }] : []),
  ];
}

/** Goods as loads of an event: as many packs as its share of the need takes, each by its room. */
function goodsLoads(
  goods: readonly GoodAmount[],
  pieces: readonly PlannedPiece[],
  event: EventScope,
): readonly Load[] {
  return goods.flatMap((amount) => {
    const { room, item } = amount.good;
    if (room === 0) return [];
    return [{ name: item, m3: room, count: required(eventPacks(amount, pieces, event)) }];
  });
}

/**
 * Loads the things of one event into the vehicles of the job.
 * Source: `loadTrips`; without vehicles one trip is taken.
 *
 * @param job the tables
 * @param event the event
 * @param pieces of the scenario, of all events
 * @param goods of the same pieces
 * @returns trips; withheld where a load is not known
 */
export function eventTrips(
  job: Job,
  event: EventScope,
  pieces: readonly PlannedPiece[],
  goods: readonly GoodAmount[],
): EventTrips {
  if (!job.given.has("vehicles"))
    return {
      trips: 1,
      loading: undefined,
      problems: [check("vehicles", "no vehicles are given, one trip is taken", "add vehicles")],
    };
  const spaces = loadSpaces(job);
  const own = pieces.filter((piece) => piece.event === event);
  let loading: Loading | undefined;
  const trips = attempt(() => {
    if (spaces.length === 0) return 1;
    loading = loadTrips([...own.flatMap(pieceLoads), ...goodsLoads(goods, pieces, event)], spaces);
    return Math.max(1, loading.trips.length);
  });
  return {
    trips,
    loading,
    problems: [...misfits(own, loading), ...unmeasured(goods, own), ...tooSmall(trips)],
  };
}

/** Vehicles that cannot be what was meant: the row of travel waits for them. */
function tooSmall(trips: Known): readonly Problem[] {
  if (!isWithheld(trips) || !trips.sentence.startsWith("vehicles")) return [];
  const todo = "type the room of the vehicle in m3";
  return [{ weight: "stop", table: "vehicles", what: trips.sentence, todo, reach: { of: "travel" } }];
}

function misfits(own: readonly PlannedPiece[], loading: Loading | undefined): readonly Problem[] {
  return own.flatMap(({ piece }): readonly Problem[] => {
    const what = loading?.tooLarge.get(piece.name);
    if (what === undefined) return [];
    const row = piece.parts[0]?.row;
    const todo = `take "${piece.name}" apart, carry it empty, or take another vehicle`;
    return [{ weight: "no go", table: "pieces", row, what, todo, reach: { of: "none" } }];
  });
}

/** Goods that need room and say none. */
function unmeasured(goods: readonly GoodAmount[], own: readonly PlannedPiece[]): readonly Problem[] {
  if (own.length === 0) return [];
  const without = goods.filter(
    ({ good, needed }) =>
      good.lines.every(({ cells }) => cells["m3 each"] === undefined) &&
      whenKnown([needed], (amount) => amount) !== 0,
  );
  if (without.length === 0) return [];
  const list = without.map(({ good }) => good.item).join(", ");
  return [check("goods", `load without: ${list}`, "type m3 each, or none for what takes no room")];
}
