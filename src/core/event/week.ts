import { orNone } from "../numeric/tally";
import { expectedUse, type BreakageGroup } from "../stock/spares";

/** What one event takes of an item, and when it is away. */
export interface ItemEvent {
  readonly event: string;
  /** From loading to return, Excel serials; an event without dates overlaps every other. */
  readonly out?: number | undefined;
  readonly back?: number | undefined;
  readonly needs: readonly BreakageGroup[];
  /** Balloons that really came back, where the job is over. */
  readonly returned?: number | undefined;
}

/** An event with its balloons of one item. */
export interface PlannedEvent {
  readonly event: string;
  readonly out: number | undefined;
  readonly back: number | undefined;
  /** Balloons that leave with it. */
  readonly take: number;
  /** Balloons that are used up as planned. */
  readonly use: number;
  /** Balloons that come back: planned, or as counted. */
  readonly returns: number;
  readonly isCounted: boolean;
}

/** How one item gets through a week of events. */
export interface ItemWeek {
  /** Balloons that must be there, shelf and order together. */
  readonly orderUpTo: number;
  /** Events in the order of time, those that overlap side by side. */
  readonly groups: readonly (readonly PlannedEvent[])[];
}

/** Planned use of an item at one event: the mean number that leaves the bag, rounded half up. */
export function plannedUse(needs: readonly BreakageGroup[]): number {
  return Math.round(expectedUse(needs) * (1 + Number.EPSILON));
}

/**
 * Groups of events whose times overlap, directly or through another one; they cannot lend to each other.
 *
 * @param events with the serials between which they are away
 * @returns groups in the order of time; all in one where any has no dates
 */
export function overlapping<Event extends Pick<ItemEvent, "out" | "back">>(
  events: readonly Event[],
): readonly (readonly Event[])[] {
  const dated = events.flatMap((event) =>
    event.out === undefined || event.back === undefined ? [] : [{ event, out: event.out, back: event.back }],
  );
  if (dated.length < events.length) return events.length === 0 ? [] : [events];
  const groups: Event[][] = [];
  let until = -Infinity;
  for (const { event, out, back } of dated.toSorted((one, other) => one.out - other.out)) {
    const open = groups.at(-1);
    if (open === undefined || out >= until) groups.push([event]);
    else open.push(event);
    until = Math.max(until, back);
  }
  return groups;
}

/**
 * How many balloons of an item a week of events needs: the larger of the spares of all events together and, for every
 * group of overlapping events, the planned use of the groups before it and what its own events take.
 * Source: order-up-to level; takes are negative binomial quantiles, planned use their mean.
 *
 * @param events events that use the item
 * @param spares how many to take for these needs, so that enough good ones are there
 * @returns the level and the events
 */
export function itemWeek(
  events: readonly ItemEvent[],
  spares: (needs: readonly BreakageGroup[]) => number,
): ItemWeek {
  let used = 0;
  let orderUpTo = spares(events.flatMap((event) => event.needs));
  const groups = overlapping(events).map((group) => {
    const planned = group.map((event): PlannedEvent => {
      const take = spares(event.needs);
      const use = plannedUse(event.needs);
      return {
        event: event.event,
        out: event.out,
        back: event.back,
        take,
        use,
        returns: event.returned ?? Math.max(0, take - use),
        isCounted: event.returned !== undefined,
      };
    });
    orderUpTo = Math.max(orderUpTo, used + planned.reduce((sum, { take }) => sum + take, 0));
    // An event that takes fewer than its mean use cannot use up more than it took.
    used += planned.reduce((sum, { take, returns }) => sum + take - returns, 0);
    return planned;
  });
  return { orderUpTo, groups };
}

/** A line of the book of one item. */
export interface BookLine {
  readonly what: "opening" | "bought" | "out" | "back" | "closing";
  readonly event: string;
  /** Excel serial; absent where the event has no dates. */
  readonly date: number | undefined;
  readonly in: number;
  readonly out: number;
  readonly balance: number;
  /** Of an `out`: balloons that come from the shelf and from the order. */
  readonly fromShelf: number;
  readonly fromOrder: number;
  readonly isCounted: boolean;
}

/**
 * The book of one item over a week: the shelf goes first, what comes back can go out again.
 *
 * @param week the plan of the item
 * @param shelf balloons on the shelf before
 * @param bought usable balloons that are bought
 * @returns lines in the order of time; events of one group all leave before one returns
 */
export function itemBook(week: ItemWeek, shelf: number, bought: number): readonly BookLine[] {
  const lines: BookLine[] = [];
  let balance = 0;
  let onShelf = shelf;
  const line = (what: BookLine["what"], moved: Partial<BookLine>): void => {
    const entry = {
      what,
      event: "",
      date: undefined,
      in: 0,
      out: 0,
      fromShelf: 0,
      fromOrder: 0,
      isCounted: false,
      ...moved,
    };
    balance += entry.in - entry.out;
    lines.push({ ...entry, balance });
  };
  line("opening", { in: shelf });
  if (bought > 0) line("bought", { in: bought });
  for (const group of week.groups) {
    for (const { event, out, take } of group) {
      const fromShelf = Math.min(take, onShelf);
      onShelf -= fromShelf;
      line("out", { event, date: out, out: take, fromShelf, fromOrder: take - fromShelf });
    }
    for (const { event, back, returns, isCounted } of group.toSorted(byReturn)) {
      onShelf += returns;
      line("back", { event, date: back, in: returns, isCounted });
    }
  }
  line("closing", {});
  return lines;
}

/** Those without a date come first. */
function byReturn(one: PlannedEvent, other: PlannedEvent): number {
  return orNone(one.back) - orNone(other.back);
}
