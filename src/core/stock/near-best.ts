/** One way to take a group. */
export interface Way {
  /** What it costs above the group's best way, 0 or more. */
  readonly excess: number;
  /** What it adds to each sum. */
  readonly spent: readonly number[];
}

/** A sum that must reach a floor. */
export interface Floor {
  readonly floor: number;
  /** What each unit above the floor costs, 0 to 1. */
  readonly rate: number;
  /** Least top-up there is, above 0. */
  readonly leastTopUp: number;
  /** @returns the least sum of top-ups at or above an amount above 0 */
  readonly topUp: (amount: number) => number;
}

/** A way for every group, and what they cost together above the bound. */
export interface NearBest {
  readonly cost: number;
  /** Number of the way of each group. */
  readonly ways: readonly number[];
}

/** How far a search goes. */
export interface Reach {
  /** Largest excess that is looked at in either half. */
  readonly excess: number;
  /** Largest cost; where `excess` is not less, nothing up to it is passed over. */
  readonly most: number;
  /** By how much a better one is cheaper at least. */
  readonly step: number;
  /** Where the search is given up. */
  readonly steps: number;
}

/** Pairs compared that take as long as a change walked through. */
const LOOKS_A_STEP = 4;
/** Entries of a table, so that it takes some tens of megabytes. */
const MOST_ENTRIES = 300_000;
/** Axes of the grid that one half's sums are looked up in. */
const MOST_AXES = 5;
/** An axis with fewer cells tells too little apart. */
const LEAST_CELLS = 1.5;
/** Standard deviations that most sums lie within. */
const SPREAD = 3.5;
/** Odd numbers without a pattern, by which cells are told apart. */
const FACTORS = [
  0x1e3779b1, 0x05ebca6b, 0x12b2ae35, 0x07d4eb2f, 0x165667b1, 0x0b79f3a7, 0x1c9e3779, 0x0369dea1,
];
/** Classes that costs are sorted into. */
const COST_CLASSES = 4096;
/** What sums of prices may be off by. */
const DUST = 1e-6;

/**
 * Finds the ways, one a group, that cost least above the bound and reach every floor; a sum above its floor costs its rate,
 * a sum below it is topped up.
 *
 * Each half of the groups is walked through by itself, cheapest changes first; what one half lacks is looked up in a grid of
 * the other half's sums. Of the two parts of a pair one costs no more than half, so only the cheap half of each is kept.
 * Source: meet in the middle, Horowitz and Sahni, J. ACM 21 (1974) 277.
 */
export class NearBestSearch {
  /** Steps taken: changes walked through, and pairs compared in their measure. */
  steps = 0;
  /** Number of the best way of each group. */
  private readonly best: readonly number[];
  private readonly floors: readonly Floor[];
  private readonly left: Half;
  private readonly right: Half;
  /** What the best ways add above the floors. */
  private readonly start: Float64Array;

  /**
   * @param groups ways of each group; one at least of each has no excess
   * @param floors as many as every way adds to
   */
  constructor(groups: readonly (readonly Way[])[], floors: readonly Floor[]) {
    this.best = groups.map(bestOf);
    this.floors = floors;
    this.start = Float64Array.from(floors, ({ floor }, i) =>
      groups.reduce((sum, ways, group) => sum + (ways[this.best[group] ?? 0]?.spent[i] ?? 0), -floor),
    );
    const [left, right] = halved(groups.map(changesOf).filter((changes) => changes.length > 0));
    this.left = new Half(left, floors.length);
    this.right = new Half(right, floors.length);
  }

  /** @returns the best one found, and whether the search was given up for its steps or its memory */
  run(reach: Reach): { readonly found: NearBest | undefined; readonly isCut: boolean } {
    const { excess, most, step } = reach;
    const end = this.steps + reach.steps;
    const kept = Math.min(excess, most / 2);
    const tableOf = (half: Half): Table | undefined => {
      const entries = new Entries(half);
      for (let goes = half.begin(-1, kept); goes; goes = half.next(kept)) {
        entries.add();
        this.steps += 1;
        if (this.steps > end || entries.costs.length > MOST_ENTRIES) return undefined;
      }
      return new Table(entries, this.floors, most);
    };
    const ofLeft = tableOf(this.left);
    const ofRight = ofLeft && tableOf(this.right);
    if (ofLeft === undefined || ofRight === undefined) return { found: undefined, isCut: true };
    let limit = most;
    let found: NearBest | undefined;
    const isJoined = (half: Half, table: Table, above: number): boolean => {
      for (
        let goes = half.begin(above, Math.min(excess, limit));
        goes;
        goes = half.next(Math.min(excess, limit))
      ) {
        const entry = table.nearest(this.start, half, limit - half.cost);
        this.steps += 1 + table.looks / LOOKS_A_STEP;
        if (this.steps > end) return false;
        if (entry < 0) continue;
        const cost = half.cost + table.nearestCost;
        // Half a step, since costs that are a step apart need not be so to the last digit.
        limit = cost - step / 2;
        const ways = [...this.best];
        for (const { group, way } of [...half.path(), ...table.path(entry)]) ways[group] = way;
        found = { cost, ways };
      }
      return true;
    };
    const isDone = isJoined(this.left, ofRight, -1) && isJoined(this.right, ofLeft, kept);
    return { found, isCut: !isDone };
  }
}

const bestOf = (ways: readonly Way[]): number =>
  ways.reduce((best, { excess }, way) => (excess < (ways[best]?.excess ?? 0) ? way : best), 0);

/** A way that is taken instead of the best. */
interface Change {
  readonly group: number;
  readonly way: number;
  readonly excess: number;
  /** Added to each sum. */
  readonly shift: readonly number[];
}

function changesOf(ways: readonly Way[], group: number): readonly Change[] {
  const best = bestOf(ways);
  const base = ways[best] ?? { excess: 0, spent: [] };
  return ways
    .flatMap(({ excess, spent }, way): readonly Change[] => {
      const shift = spent.map((sum, i) => sum - (base.spent[i] ?? 0));
      return way === best ? [] : [{ group, way, excess: excess - base.excess, shift }];
    })
    .sort((a, b) => a.excess - b.excess);
}

type Groups = readonly (readonly Change[])[];

/** Parts groups so that both halves have about as many cheap combinations; in each, groups with a cheap change come first. */
function halved(groups: Groups): readonly [Groups, Groups] {
  const dearest = groups.reduce((most, changes) => Math.max(most, changes.at(-1)?.excess ?? 0), 0);
  // A combination of several changes leaves each a part of the excess.
  const scale = SHARES / Math.max(dearest, DUST);
  const weighed = groups.map((changes) => ({
    changes,
    weight: Math.log1p(changes.reduce((sum, { excess }) => sum + Math.exp(-scale * excess), 0)),
  }));
  const sides = { left: [] as (readonly Change[])[], right: [] as (readonly Change[])[] };
  let lead = 0;
  for (const { changes, weight } of weighed.sort((a, b) => b.weight - a.weight)) {
    sides[lead > 0 ? "right" : "left"].push(changes);
    lead += lead > 0 ? -weight : weight;
  }
  const byCheapest = (a: readonly Change[], b: readonly Change[]): number =>
    (a[0]?.excess ?? 0) - (b[0]?.excess ?? 0);
  return [sides.left.sort(byCheapest), sides.right.sort(byCheapest)];
}

/** Changes that share the excess of a combination, about. */
const SHARES = 5;

/** Half of the groups, and a walk through the combinations of their changes, one after the other without end in memory. */
class Half {
  /** Number of changes made where the walk is. */
  depth = 0;
  /** Excess where the walk is. */
  cost = 0;
  /** Sums after each change, `places` numbers a depth. */
  readonly sums: Float64Array;
  private readonly changes: readonly Change[];
  private readonly excess: Float64Array;
  private readonly shifts: Float64Array;
  /** First change of every group, and the end. */
  private readonly firsts: Int32Array;
  private readonly takenGroups: Int32Array;
  private readonly taken: Int32Array;
  private readonly costs: Float64Array;
  private above = 0;

  constructor(
    groups: readonly (readonly Change[])[],
    readonly places: number,
  ) {
    this.changes = groups.flat();
    this.excess = Float64Array.from(this.changes, ({ excess }) => excess);
    this.shifts = Float64Array.from(this.changes.flatMap(({ shift }) => shift));
    this.firsts = new Int32Array(groups.length + 1);
    groups.forEach((changes, group) => {
      this.firsts[group + 1] = (this.firsts[group] ?? 0) + changes.length;
    });
    this.takenGroups = new Int32Array(groups.length + 1);
    this.taken = new Int32Array(groups.length + 1);
    this.costs = new Float64Array(groups.length + 1);
    this.sums = new Float64Array((groups.length + 1) * places);
  }

  /** Starts a walk to every combination whose excess lies above `above` and is `most` at most; false where there is none. */
  begin(above: number, most: number): boolean {
    this.above = above;
    this.depth = 0;
    this.cost = 0;
    return above < 0 || this.next(most);
  }

  /** Goes on to the next combination; false at the end. */
  next(most: number): boolean {
    const { firsts, excess, costs, taken, takenGroups, sums, shifts, places } = this;
    const groups = firsts.length - 1;
    let { depth } = this;
    let group = depth > 0 ? (takenGroups[depth] ?? 0) + 1 : 0;
    let change = firsts[group] ?? 0;
    for (;;) {
      const before = costs[depth] ?? 0;
      if (group < groups && before + (excess[firsts[group] ?? 0] ?? 0) <= most) {
        const cost = before + (excess[change] ?? 0);
        if (change >= (firsts[group + 1] ?? 0) || cost > most) {
          group += 1;
          change = firsts[group] ?? 0;
          continue;
        }
        depth += 1;
        const from = depth * places;
        for (let i = 0; i < places; i += 1) {
          sums[from + i] = (sums[from - places + i] ?? 0) + (shifts[change * places + i] ?? 0);
        }
        costs[depth] = cost;
        taken[depth] = change;
        takenGroups[depth] = group;
        if (cost > this.above) {
          this.depth = depth;
          this.cost = cost;
          return true;
        }
        group += 1;
        change = firsts[group] ?? 0;
      } else {
        if (depth === 0) return false;
        group = takenGroups[depth] ?? 0;
        change = (taken[depth] ?? 0) + 1;
        depth -= 1;
      }
    }
  }

  /** Changes made where the walk is. */
  path(): readonly Change[] {
    return Array.from(this.taken.subarray(1, this.depth + 1), (change) => this.changeAt(change)).flat();
  }

  /** Number of the last change made; -1 where there is none. */
  get last(): number {
    return this.depth > 0 ? (this.taken[this.depth] ?? -1) : -1;
  }

  changeAt(number: number): readonly Change[] {
    const change = this.changes[number];
    return change ? [change] : [];
  }
}

/** Combinations that a walk came by. */
class Entries {
  readonly costs: number[] = [];
  /** `places` numbers an entry. */
  readonly sums: number[] = [];
  private readonly befores: number[] = [];
  private readonly lasts: number[] = [];
  /** Entry at every depth of the walk. */
  private readonly line: number[] = [];

  constructor(readonly half: Half) {}

  /** Takes in where the walk is; every place on the way there must be in. */
  add(): void {
    const { half, costs } = this;
    const { depth, places } = half;
    this.line[depth] = costs.length;
    this.befores.push(depth > 0 ? (this.line[depth - 1] ?? -1) : -1);
    this.lasts.push(half.last);
    const from = depth * places;
    for (let i = 0; i < places; i += 1) this.sums.push(half.sums[from + i] ?? 0);
    costs.push(half.cost);
  }

  path(entry: number): readonly Change[] {
    const changes: Change[] = [];
    for (let at = entry; at >= 0; at = this.befores[at] ?? -1) {
      changes.push(...this.half.changeAt(this.lasts[at] ?? -1));
    }
    return changes;
  }
}

interface Axis {
  readonly place: number;
  readonly floor: Floor;
  /** Of a cell: no less than a window. */
  readonly width: number;
  /** Cells that the entries are spread over. */
  readonly cells: number;
  /** What a cell further on adds to the hash. */
  readonly factor: number;
}

/** Combinations of one half in a grid, to be found by their sums. */
class Table {
  /** Cost of the entry found last, floors included. */
  nearestCost = 0;
  /** Entries compared with in the last search. */
  looks = 0;
  private readonly axes: readonly Axis[];
  /** Entries from cell to cell and within each from the cheapest to the dearest, about. */
  private readonly heads: Int32Array;
  private readonly nexts: Int32Array;
  private readonly sums: Float64Array;
  private readonly costs: Float64Array;
  private readonly places: number;
  /** What costs of one chain may be out of order by. */
  private readonly classWidth: number;
  private readonly lacks: Float64Array;
  /** What the corners of a window add to the hash of its first. */
  private readonly steps = new Float64Array(1 << MOST_AXES);
  /** Floors, those first that tell most apart. */
  private readonly order: readonly { readonly place: number; readonly floor: Floor }[];

  constructor(
    private readonly entries: Entries,
    private readonly floors: readonly Floor[],
    most: number,
  ) {
    this.places = floors.length;
    this.sums = Float64Array.from(entries.sums);
    this.costs = Float64Array.from(entries.costs);
    this.axes = this.chosenAxes(most);
    const first = this.axes.map(({ place }) => place);
    this.order = [...new Set([...first, ...floors.keys()])].flatMap((place) => {
      const floor = floors[place];
      return floor ? [{ place, floor }] : [];
    });
    this.lacks = new Float64Array(floors.length);
    let cells = 1;
    while (cells < 2 * this.costs.length) cells *= 2;
    this.heads = new Int32Array(cells).fill(-1);
    this.nexts = new Int32Array(this.costs.length);
    const { order, classWidth } = byCost(this.costs);
    this.classWidth = classWidth;
    // The cheapest last, so that every chain starts with it.
    for (let at = order.length - 1; at >= 0; at -= 1) {
      const entry = order[at] ?? 0;
      let hash = 0;
      for (const { place, width, factor } of this.axes) {
        hash += Math.imul(Math.floor((this.sums[entry * this.places + place] ?? 0) / width), factor);
      }
      const cell = slot(hash, cells);
      this.nexts[entry] = this.heads[cell] ?? -1;
      this.heads[cell] = entry;
    }
  }

  /** Floors whose windows part the entries best, as many as it takes to leave few in a cell. */
  private chosenAxes(most: number): readonly Axis[] {
    const { costs, places, sums } = this;
    const size = costs.length;
    const candidates = this.floors.flatMap((floor, place): readonly Axis[] => {
      const width = belowOf(floor, most) + aboveOf(floor, most) + 4 * DUST;
      if (!(width < Infinity)) return [];
      let [first, second] = [0, 0];
      for (let entry = 0; entry < size; entry += 1) {
        const sum = sums[entry * places + place] ?? 0;
        first += sum;
        second += sum * sum;
      }
      const deviation = Math.sqrt(Math.max(0, second / size - (first / size) ** 2));
      const factor = FACTORS[place % FACTORS.length] ?? 1;
      return [{ place, floor, width, cells: (SPREAD * deviation) / width, factor }];
    });
    const axes: Axis[] = [];
    let cells = 1;
    for (const axis of candidates.sort((a, b) => b.cells - a.cells)) {
      if (axes.length === MOST_AXES || cells > size || axis.cells < LEAST_CELLS) break;
      axes.push(axis);
      cells *= axis.cells;
    }
    return axes;
  }

  /** The entry that costs least together with where the walk through the other half is; -1 where none is within the room. */
  nearest(start: Float64Array, other: Half, room: number): number {
    const { axes, lacks, steps, heads, nexts, costs } = this;
    const from = other.depth * this.places;
    const own = other.sums;
    this.looks = 0;
    let corners = 1;
    let hash = 0;
    for (const { place, width, floor, factor } of axes) {
      const lack = -(start[place] ?? 0) - (own[from + place] ?? 0);
      const low = Math.floor((lack - belowOf(floor, room) - DUST) / width);
      const high = Math.floor((lack + aboveOf(floor, room) + DUST) / width);
      hash += Math.imul(low, factor);
      // A window within one cell has no second.
      if (high > low) {
        for (let corner = 0; corner < corners; corner += 1) {
          steps[corners + corner] = (steps[corner] ?? 0) + factor;
        }
        corners *= 2;
      }
    }
    let least = room;
    let nearest = -1;
    let isLacking = false;
    for (let corner = 0; corner < corners; corner += 1) {
      const cell = slot(hash + (steps[corner] ?? 0), heads.length);
      for (let entry = heads[cell] ?? -1; entry >= 0; entry = nexts[entry] ?? -1) {
        const cost = costs[entry] ?? Infinity;
        if (cost > least + this.classWidth) break;
        if (!isLacking) {
          isLacking = true;
          for (let i = 0; i < lacks.length; i += 1) lacks[i] = -(start[i] ?? 0) - (own[from + i] ?? 0);
        }
        this.looks += 1;
        const total = cost + this.floorCost(entry, least - cost);
        if (total > least) continue;
        least = total;
        nearest = entry;
      }
    }
    this.nearestCost = least;
    return nearest;
  }

  /** What the floors cost with an entry; Infinity where that is above the room. */
  private floorCost(entry: number, room: number): number {
    const { order, lacks, places, sums } = this;
    let total = 0;
    for (const { place, floor } of order) {
      const over = (sums[entry * places + place] ?? 0) - (lacks[place] ?? 0);
      if (over >= 0) {
        total += floor.rate * over;
      } else {
        const least = Math.max(floor.leastTopUp, -over) + floor.rate * over;
        total += total + least > room ? least : floor.topUp(-over) + floor.rate * over;
      }
      if (total > room) return Infinity;
    }
    return total;
  }

  path(entry: number): readonly Change[] {
    return this.entries.path(entry);
  }
}

/** Entries in the order of their costs, but that those of a class stand as they came. */
function byCost(costs: Float64Array): { readonly order: Int32Array; readonly classWidth: number } {
  const dearest = costs.reduce((most, cost) => Math.max(most, cost), 0);
  const classOf = (cost: number): number =>
    dearest > 0 ? Math.floor((cost / dearest) * (COST_CLASSES - 1)) : 0;
  const places = new Int32Array(COST_CLASSES + 1);
  for (const cost of costs) {
    const after = classOf(cost) + 1;
    places[after] = (places[after] ?? 0) + 1;
  }
  for (let at = 1; at <= COST_CLASSES; at += 1) places[at] = (places[at] ?? 0) + (places[at - 1] ?? 0);
  const order = new Int32Array(costs.length);
  costs.forEach((cost, entry) => {
    const own = classOf(cost);
    const place = places[own] ?? 0;
    order[place] = entry;
    places[own] = place + 1;
  });
  return { order, classWidth: dearest / (COST_CLASSES - 1) };
}

/** Place of a sum of cell numbers times factors in a table of 2^n places. */
function slot(sum: number, places: number): number {
  const mixed = Math.imul(sum ^ (sum >>> 16), 0x45d9f3b);
  return (mixed ^ (mixed >>> 15)) & (places - 1);
}

/** How far a sum may lie below its floor where that may cost no more than the room. */
const belowOf = ({ rate, leastTopUp }: Floor, room: number): number =>
  leastTopUp * (1 - rate) > room ? 0 : rate < 1 ? room / (1 - rate) : Infinity;

/** How far a sum may lie above its floor where that may cost no more than the room. */
const aboveOf = ({ rate }: Floor, room: number): number => (rate > 0 ? room / rate : Infinity);
