import { invalid } from "../calc-error";
import { orNone } from "../numeric/tally";

/** The load space of a vehicle and the opening that leads into it. Lengths in m, absent where they are not known. */
export interface LoadSpace {
  readonly vehicle: string;
  /** m3, above 0. */
  readonly m3: number;
  readonly length?: number | undefined;
  readonly width?: number | undefined;
  readonly height?: number | undefined;
  readonly doorWidth?: number | undefined;
  readonly doorHeight?: number | undefined;
}

/** Something to bring, `count` times. */
export interface Load {
  readonly name: string;
  /** Room of one, m3. */
  readonly m3: number;
  /** How many, whole. */
  readonly count: number;
  /** Sides of its box, m, where it cannot be pressed together or divided. */
  readonly box?: readonly [number, number, number] | undefined;
}

/** One drive of one vehicle with what it carries. */
export interface Trip {
  readonly vehicle: string;
  /** Room in the vehicle, m3. */
  readonly m3: number;
  /** Room that is taken, m3. */
  readonly used: number;
  readonly loads: readonly { readonly name: string; readonly count: number; readonly m3: number }[];
}

/** Trips for all loads, and what cannot go as it is. */
export interface Loading {
  readonly trips: readonly Trip[];
  /** Why a load fits no vehicle, by its name. */
  readonly tooLarge: ReadonlyMap<string, string>;
}

// Sums of volumes that were meant to fill a van exactly miss it by rounding.
const SLACK = 1e-9;

const metres = (length: number): string => `${Number(length.toFixed(3))} m`;

/** What is missing for two sides to pass an opening either way round, in the order width, height. */
function excess(sides: readonly [number, number], width = Infinity, height = Infinity): readonly number[] {
  const [small, large] = sides[0] <= sides[1] ? sides : [sides[1], sides[0]];
  const over = width <= height ? [small - width, large - height] : [large - width, small - height];
  return over.filter((length) => length > SLACK);
}

/**
 * Why a box does not go into a load space: its two smaller sides have to pass the opening either way round, and its
 * longest side has to lie along the load space. It is not tilted, which is the safe side.
 *
 * @param box sides, m
 * @param space the vehicle
 * @returns a sentence without its beginning, or undefined where it goes in
 */
export function misfit(box: readonly [number, number, number], space: LoadSpace): string | undefined {
  const [a = 0, b = 0, longest = 0] = box.toSorted((x, y) => x - y);
  const atDoor = excess([a, b], space.doorWidth, space.doorHeight);
  if (atDoor.length > 0) return `${atDoor.map(metres).join(" and ")} too wide for the door`;
  const inside = excess([a, b], space.width, space.height);
  if (inside.length > 0) return `${inside.map(metres).join(" and ")} too wide for the load space`;
  const over = longest - (space.length ?? Infinity);
  return over > SLACK ? `too long by ${metres(over)}` : undefined;
}

/** Trips beyond which a vehicle's room was mistyped; their list would fill the memory. */
const MOST_TRIPS = 100_000;

function refuseTooMany(loads: readonly Load[], spaces: readonly LoadSpace[]): void {
  const largest = Math.max(...spaces.map(({ m3 }) => m3));
  const all = loads.reduce((sum, { m3, count }) => sum + m3 * count, 0);
  if (all <= MOST_TRIPS * largest) return;
  const expectation = `carry ${Number(all.toPrecision(3))} m3 in at most ${MOST_TRIPS} trips`;
  throw invalid("vehicles", expectation, { written: `${Number(largest.toPrecision(3))} m3 in the largest` });
}

interface OpenTrip {
  readonly space: LoadSpace;
  room: number;
  readonly loads: Map<string, { count: number; m3: number }>;
}

function carry(trip: OpenTrip, name: string, count: number, m3: number): void {
  const known = trip.loads.get(name);
  trip.room -= m3;
  trip.loads.set(name, { count: orNone(known?.count) + count, m3: orNone(known?.m3) + m3 });
}

/** Why no vehicle takes a rigid load: of several reasons the one of the vehicle with the most room. */
function refusal(load: Load, spaces: readonly LoadSpace[]): string | undefined {
  const { box } = load;
  if (box === undefined) return undefined;
  const reasons = spaces.map((space) =>
    load.m3 > space.m3 + SLACK ? `larger than the load space of ${space.m3} m3` : misfit(box, space),
  );
  if (reasons.includes(undefined)) return undefined;
  const sizes = spaces.map(({ m3 }) => m3);
  return reasons[sizes.indexOf(Math.max(...sizes))];
}

/**
 * Puts loads into trips: by room, largest first, each into the first trip with room; vehicles take turns in opening new
 * trips. A loose load larger than every vehicle is divided; a rigid one that fits nowhere is named and gets trips all the
 * same, so that leaving the question open never makes the job cheaper.
 * Source: first-fit decreasing, at most 11/9 of the fewest trips + 6/9 for equal vehicles (Dosa 2007, from memory).
 *
 * @param loads what to bring; a load of no room goes anywhere and is left out
 * @param spaces vehicles, at least one
 * @returns trips in the order in which they are opened
 * @throws CalcError `#VALUE!` where a vehicle has no room, or the loads would take more than 100,000 trips
 */
export function loadTrips(loads: readonly Load[], spaces: readonly LoadSpace[]): Loading {
  for (const space of spaces) {
    if (!(space.m3 > 0)) throw invalid(`vehicles: m3 of "${space.vehicle}"`, "be above 0 m3", space.m3);
  }
  refuseTooMany(loads, spaces);
  const trips: OpenTrip[] = [];
  const tooLarge = new Map<string, string>();
  const open = (from = 0): OpenTrip => {
    const space = spaces[(trips.length + from) % spaces.length];
    if (space === undefined) throw new RangeError("loading needs a vehicle");
    const trip = { space, room: space.m3, loads: new Map<string, { count: number; m3: number }>() };
    trips.push(trip);
    return trip;
  };
  const largestRoom = Math.max(...spaces.map((space) => space.m3));

  const divide = (load: Load): readonly Load[] => {
    if (load.box !== undefined || load.m3 <= largestRoom + SLACK) return [load];
    for (let each = 0; each < load.count; each += 1) {
      let rest = load.m3;
      while (rest > largestRoom + SLACK) {
        const trip = open();
        const part = Math.min(trip.room, rest);
        carry(trip, load.name, rest === load.m3 ? 1 : 0, part);
        rest -= part;
      }
      const last = trips.find((trip) => trip.room >= rest - SLACK) ?? open();
      carry(last, load.name, 0, rest);
    }
    return [];
  };

  const place = (load: Load): void => {
    const reason = refusal(load, spaces);
    if (reason !== undefined) tooLarge.set(load.name, reason);
    const goesInto = (space: LoadSpace): boolean =>
      reason !== undefined || load.box === undefined || misfit(load.box, space) === undefined;
    let left = load.count;
    for (const trip of trips) {
      if (left === 0) break;
      const fits = goesInto(trip.space) ? Math.min(left, Math.floor((trip.room + SLACK) / load.m3)) : 0;
      if (fits > 0) carry(trip, load.name, fits, fits * load.m3);
      left -= Math.max(0, fits);
    }
    while (left > 0) {
      let from = 0;
      const next = (): LoadSpace | undefined => spaces[(trips.length + from) % spaces.length];
      const suits = (space: LoadSpace | undefined): boolean =>
        space === undefined || (goesInto(space) && (reason !== undefined || space.m3 + SLACK >= load.m3));
      while (from < spaces.length && !suits(next())) from += 1;
      const trip = open(from % spaces.length);
      const count = Math.max(1, Math.min(left, Math.floor((trip.room + SLACK) / load.m3)));
      carry(trip, load.name, count, count * load.m3);
      left -= count;
    }
  };

  loads
    .filter((load) => load.m3 > 0 && load.count > 0)
    .toSorted((one, other) => other.m3 - one.m3)
    .flatMap(divide)
    .forEach(place);
  return {
    trips: trips.map(({ space, room, loads: carried }) => ({
      vehicle: space.vehicle,
      m3: space.m3,
      used: space.m3 - room,
      loads: [...carried].map(([name, { count, m3 }]) => ({ name, count, m3 })),
    })),
    tooLarge,
  };
}
