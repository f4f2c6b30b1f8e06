import { overflow } from "../calc-error";
import { sum } from "../numeric/sums";
import { grouped } from "../stock/grouped";
import { itemKey, itemWords, type Item } from "../stock/item";
import { expectedUse, mixedSpares } from "../stock/spares";
import { isWithheld } from "../withheld";
import { longLength } from "./long-code";
import type { Part } from "./part";
import type { PlannedPart, PlannedPiece } from "./plan-parts";
import { requiredTerm } from "./terms";
import { itemWeek, type ItemWeek } from "./week";

/** What one part takes of one item. */
export interface PartDemand {
  readonly planned: PlannedPiece;
  readonly part: PlannedPart;
  readonly key: string;
  readonly item: Item;
  /** Balloons that are seen, of all pieces, whole. */
  readonly places: number;
  /** Good balloons that are needed, of all pieces, whole. */
  readonly count: number;
  /** Chance that one fails. */
  readonly breakage: number;
}

/** What the whole job needs of one item. */
export interface ItemNeed {
  readonly key: string;
  readonly item: Item;
  readonly demands: readonly [PartDemand, ...PartDemand[]];
  /** Good balloons needed, whole. */
  readonly count: number;
  /** Balloons to have, shelf and order together, whole. */
  readonly take: number;
  /** What each event takes and brings back. */
  readonly week: ItemWeek;
  /** Balloons that are used up on average, not whole. */
  readonly expected: number;
}

/** From loading to return of an event, Excel serials; an event that is not listed overlaps every other. */
export type Away = ReadonlyMap<string, { readonly out: number; readonly back: number }>;

/** Balloons of an item that really came back from an event; undefined where nobody counted them. */
export type Returned = (event: string, key: string) => number | undefined;

/** Balloons of one item beyond which a number was mistyped: spares of more would take seconds. */
const MOST_BALLOONS = 1e7;
/** Colours of all parts together: many parts of very long palettes would take minutes. */
const MOST_DEMANDS = 200_000;

/**
 * The item that a part takes of one colour.
 *
 * @param part its type and sizes
 * @param colour as typed
 * @returns the item; undefined where the size on the bag is not given
 */
export function itemOfPart({ cells, type }: Part, colour: string): Item | undefined {
  const printed = type === "long" ? longLength(cells) : cells.printed;
  if (printed === undefined) return undefined;
  const code = type === "long" ? cells.code : undefined;
  return { printed, colour, type, ...(code !== undefined && { code }) };
}

/**
 * What each part takes of each item. Parts that cannot be counted or coloured take nothing here: they stop the job elsewhere.
 *
 * @param pieces of one scenario
 * @returns demands in the order of pieces and colours
 * @throws CalcError `#NUM!` for more than 200,000 colours of all parts together
 */
export function partDemands(pieces: readonly PlannedPiece[]): readonly PartDemand[] {
  const colours = sum(pieces.flatMap(({ parts }) => parts.map((part) => part.colours.colours.length)));
  if (colours > MOST_DEMANDS) throw overflow(`pieces take more than ${MOST_DEMANDS} colours in all`);
  return pieces.flatMap((planned) =>
    planned.parts.flatMap((part): readonly PartDemand[] => {
      const { quantity, breakage } = part.part;
      if (isWithheld(quantity) || isWithheld(breakage)) return [];
      return part.colours.colours.flatMap(({ colour, places, count }): readonly PartDemand[] => {
        const item = itemOfPart(part.part, colour);
        if (item === undefined) return [];
        const key = itemKey(item);
        return [{ planned, part, key, item, places: places * quantity, count: count * quantity, breakage }];
      });
    }),
  );
}

/**
 * The needs of the whole job by item, with spares for all its places together; each event takes its own spares along.
 * Source: `mixedSpares`, `itemWeek`.
 *
 * @param demands of one scenario
 * @param away when each event is away
 * @param returned what came back from events that are over
 * @returns needs in the order of demands
 * @throws CalcError where the confidence cannot be read, for more than ten million balloons of an item, or as `mixedSpares`
 */
export function itemNeeds(
  demands: readonly PartDemand[],
  away: Away = new Map(),
  returned: Returned = () => undefined,
): readonly ItemNeed[] {
  return [...grouped(demands, ({ key }) => key)].map(([key, ofItem]): ItemNeed => {
    const count = sum(ofItem.map((demand) => demand.count));
    if (count > MOST_BALLOONS) {
      const first = ofItem[0].part.part.place;
      throw overflow(`${first}: ${itemWords(ofItem[0].item)} is needed more than ${MOST_BALLOONS} times`);
    }
    const confidence = Math.max(
      ...ofItem.map(({ planned }) => requiredTerm(planned.event.terms, "confidence")),
    );
    const events = [...grouped(ofItem, ({ planned }) => planned.piece.event)].map(([event, needs]) => ({
      event,
      ...away.get(event),
      needs,
      returned: returned(event, key),
    }));
    const week = itemWeek(events, (needs) => mixedSpares(needs, confidence));
    return {
      key,
      item: ofItem[0].item,
      demands: ofItem,
      count,
      take: week.orderUpTo,
      week,
      expected: expectedUse(ofItem),
    };
  });
}
