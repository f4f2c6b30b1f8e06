import { entryAt, present } from "./entry-at";

/** Things of one kind that can be packed. */
export interface KnapsackItem {
  /** Room that one takes, whole, 1 or more. */
  readonly length: number;
  /** Above 0. */
  readonly value: number;
  /** How many there are, whole. */
  readonly most: number;
}

/** What was packed, what it is worth, and what no packing is worth more than. */
export interface KnapsackSolution {
  /** How many of each item. */
  readonly counts: readonly number[];
  readonly value: number;
  /** Equal to `value` where the packing is proved best. */
  readonly atMost: number;
}

/** Numbers looked at, counted up by whoever does the work. */
export interface WorkCount {
  steps: number;
}

// Steps, not seconds, limit the search, so that every machine gives the same answer.
const MOST_STEPS = 20_000;
const MOST_STEPS_BEFORE_TABLE = 1000;
const LARGEST_TABLE = 20_000;
const TOLERANCE = 1e-12;

/**
 * The bounded knapsack: the most valuable things that fit. Branch and bound, then a table where the room is small enough.
 * Source: Martello and Toth, Knapsack Problems (1990), ch. 3.
 *
 * @param items kinds of things
 * @param room whole
 * @param work counted up
 * @returns the packing; where the search was given up, `atMost` lies above `value`
 */
export function boundedKnapsack(
  items: readonly KnapsackItem[],
  room: number,
  work: WorkCount,
): KnapsackSolution {
  const placed = [...items.entries()]
    .filter(([, { most }]) => most > 0)
    .sort(([, one], [, other]) => density(other) - density(one));
  const sorted = placed.map(([, item]) => item);
  const isTableSmall = room <= LARGEST_TABLE;
  let packed = byBranchAndBound(sorted, room, isTableSmall ? MOST_STEPS_BEFORE_TABLE : MOST_STEPS, work);
  if (isTableSmall && packed.atMost > packed.value) packed = byTable(sorted, room, work);
  const counts = items.map(() => 0);
  placed.forEach(([index], place) => (counts[index] = entryAt(packed.counts, place)));
  return { ...packed, counts };
}

function density({ value, length }: KnapsackItem): number {
  return value / length;
}

/** Depth-first search with the fractional bound over items in order of value to length; given up after some steps. */
function byBranchAndBound(
  items: readonly KnapsackItem[],
  room: number,
  mostSteps: number,
  work: WorkCount,
): KnapsackSolution {
  const current = items.map(() => 0);
  let counts = [...current];
  let best = 0;
  let steps = 0;
  const search = (at: number, left: number, value: number): void => {
    if (value > best + TOLERANCE) {
      best = value;
      counts = [...current];
    }
    const item = items[at];
    if (item === undefined) return;
    for (let count = Math.min(item.most, Math.floor(left / item.length)); count >= 0; count -= 1) {
      steps += 1;
      if (steps > mostSteps) return;
      const [after, gained] = [left - count * item.length, value + count * item.value];
      if (gained + fractionalValue(items, at + 1, after) <= best + TOLERANCE) break;
      current[at] = count;
      search(at + 1, after, gained);
    }
    current[at] = 0;
  };
  search(0, room, 0);
  work.steps += steps;
  return { counts, value: best, atMost: steps > mostSteps ? fractionalValue(items, 0, room) : best };
}

/** What items from a place on are worth at most in a room, parts of them allowed. Source: Dantzig, Oper. Res. 5 (1957) 266. */
function fractionalValue(items: readonly KnapsackItem[], from: number, room: number): number {
  let [value, left] = [0, room];
  for (let at = from; at < items.length; at += 1) {
    const item = items[at];
    if (item === undefined) break;
    if (item.most * item.length >= left) return value + (item.value * left) / item.length;
    value += item.most * item.value;
    left -= item.most * item.length;
  }
  return value;
}

/** Dynamic programming over every room up to the whole, many of a kind split into 1, 2, 4, ... and a rest. */
function byTable(items: readonly KnapsackItem[], room: number, work: WorkCount): KnapsackSolution {
  const lots = items.flatMap(({ length, value, most }, at) => {
    const lotsOf: { at: number; count: number; length: number; value: number }[] = [];
    for (let left = Math.min(most, Math.floor(room / length)), size = 1; left > 0; left -= size, size *= 2) {
      const count = Math.min(size, left);
      lotsOf.push({ at, count, length: count * length, value: count * value });
      if (count === left) break;
    }
    return lotsOf;
  });
  work.steps += lots.length * room;
  const values = new Float64Array(room + 1);
  const taken = lots.map(({ length, value }) => {
    const isTaken = new Uint8Array(room + 1);
    for (let left = room; left >= length; left -= 1) {
      const next = present(values[left - length]) + value;
      if (next <= present(values[left]) + TOLERANCE) continue;
      values[left] = next;
      isTaken[left] = 1;
    }
    return isTaken;
  });
  const counts = items.map(() => 0);
  let left = room;
  for (const [index, { at, count, length }] of [...lots.entries()].toReversed()) {
    if (entryAt(taken, index)[left] !== 1) continue;
    counts[at] = entryAt(counts, at) + count;
    left -= length;
  }
  const value = present(values[room]);
  return { counts, value, atMost: value };
}
