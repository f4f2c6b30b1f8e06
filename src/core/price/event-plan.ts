import { airVolume, heliumVolume } from "../gas/fill";
import type { Problem } from "../problem";
import { sum } from "../numeric/sums";
import { countOf } from "../numeric/tally";
import { LAYERED_MINUTES } from "../practice";
import { UNITS } from "../units";
import { eventNeeds, type EventNeeds } from "../palette/event-needs";
import { nameKey } from "../palette/names";
import { type Demand, type PaletteRow, pooledNeeds, type Spares } from "../palette/needs";
import { type CountedPiece, type Gas, type PieceRow } from "../palette/piece-count";
import { checkedPurchase, type CheckedPurchase, type PurchaseTables } from "../stock/checked-purchase";
import { changedRows, type Doubtful } from "../stock/doubtful";
import { grouped } from "../stock/grouped";
import { itemKey, sizeKey } from "../stock/item";
import { pieceCosts } from "../stock/piece-costs";
import { isWithheld, sumKnown, whenKnown, withheld, type Known } from "../withheld";
import { buildDuration } from "../work/build";

/** Everything that an event's plans are made of, as read; lengths in m, money in the sheet's currency. */
export interface EventTables extends Omit<PurchaseTables, "needs"> {
  readonly pieces: readonly Doubtful<PieceRow>[];
  readonly palettes: readonly Doubtful<PaletteRow>[];
  readonly spares: Spares;
}

/** What one piece of an event takes. */
export interface PiecePlanRow {
  readonly name: string;
  /** Balloons in all of it, insides of layered ones included. */
  readonly balloons: Known;
  /** Its part of what is bought, sheet's currency; the rows add up to the cost of buying. */
  readonly cost: Known;
  /** Person-time, s. */
  readonly work: Known;
  /** Air to pump, m3. */
  readonly air: Known;
  /** Helium to order, m3. */
  readonly helium: Known;
  readonly status: string;
}

interface Event {
  readonly needs: EventNeeds;
  readonly purchase: CheckedPurchase;
}

function planEvent({ pieces, palettes, spares, ...tables }: EventTables): Event {
  const needs = eventNeeds(pieces, palettes);
  const wanted = pooledNeeds(needs.demands, spares).map(({ printed, colour, withSpares }, index) => ({
    row: index + 1,
    printed,
    colour,
    count: withSpares,
  }));
  const whole = wanted.map((value) => ({
    row: value.row,
    place: `needs row ${value.row}`,
    cells: value,
    doubts: [],
    value,
  }));
  return { needs, purchase: checkedPurchase({ ...tables, needs: whole }) };
}

const STOP = "stop: ";

const places = (piece: CountedPiece): number => piece.balloons * piece.quantity;

function rowWork(piece: CountedPiece): number {
  return buildDuration(places(piece), piece.style, 1, piece.isFirst ? piece.quantity : 0);
}

function volumeOf(
  group: readonly CountedPiece[],
  gas: Gas,
  volume: (across: number, count: number) => number,
): number {
  const filled = group.filter((piece) => piece.gas === gas);
  return sum(filled.map((piece) => volume(piece.inflated, places(piece))));
}

/**
 * PIECE_PLAN: cost, work and gas of each piece of an event. Bags are bought for the whole event, and their cost is shared over the pieces by
 * what they take of each item, in whole cents.
 * Source: `countPieces`, `pooledNeeds`, `buyPlan`, `pieceCosts`, `buildDuration`, `airVolume`, `heliumVolume`.
 *
 * @param tables the event
 * @returns one row for each piece by name, in order; the costs add up to the cost of buying, or are withheld with the reason
 * @throws CalcError for amounts beyond whole cents
 */
export function piecePlan(tables: EventTables): readonly PiecePlanRow[] {
  const { needs, purchase } = planEvent(tables);
  const { counted, demands, stops, problems } = needs;
  const costs = costsByRow(demands, purchase);
  const ofRow = grouped(demands, (demand) => demand.row);
  const ofPiece = grouped(counted, ({ row }) => String(row));
  const jobWide = [...problems, ...purchase.problems.filter(({ reach }) => reach.of === "job")].filter(
    ({ weight }) => weight === "stop",
  );
  const byName = grouped(tables.pieces, ({ row, cells }) =>
    cells.name === undefined ? `row ${row}` : nameKey(cells.name),
  );
  return [...byName.values()].map((rows): PiecePlanRow => {
    const group = rows.flatMap(({ row }) => ofPiece.get(String(row)) ?? []);
    const taken = group.flatMap((piece) => ofRow.get(piece.row) ?? []);
    const own = [...new Set(rows.flatMap(({ row }) => stops.get(row) ?? []))];
    const uncounted = rows.find(({ row }) => !ofPiece.has(String(row)));
    const unknown = own[0] === undefined ? undefined : withheld(own.join("; "));
    const missing = stoppedItems(taken, purchase);
    const reasons = [...own, ...missing.map(({ what }) => what)];
    const everywhere = jobWide.filter(({ what }) => !reasons.includes(what)).map(({ what }) => what);
    const [stop] = [...reasons, ...everywhere];
    const sure = (value: () => number): Known =>
      uncounted !== undefined && unknown !== undefined ? unknown : value();
    return {
      name: (rows[0].cells.name ?? "").trim(),
      balloons: unknown ?? sum(taken.map((demand) => demand.count)),
      cost:
        stop === undefined
          ? Math.round(sum(group.map((piece) => countOf(costs, piece.row))) * 100) / 100
          : withheld(stop),
      work: sure(() => {
        const insides = Math.max(0, sum(taken.map(({ count }) => count)) - sum(group.map(places)));
        return sum(group.map(rowWork)) + insides * LAYERED_MINUTES.value * UNITS.min.si;
      }),
      air: sure(() => volumeOf(group, "air", airVolume)),
      helium: sure(() => volumeOf(group, "helium", heliumVolume)),
      status: stop === undefined ? "ok" : `stop: ${[...reasons, ...everywhere].join("; ")}`,
    };
  });
}

function costsByRow(
  demands: readonly Demand[],
  { lines, orders }: CheckedPurchase,
): ReadonlyMap<number, number> {
  const known = lines.flatMap((line) => (isWithheld(line.cost) ? [] : [{ ...line, cost: line.cost }]));
  const charges = orders.map(({ delivery }) => (isWithheld(delivery) ? 0 : delivery));
  const total = Math.round((sum(known.map(({ cost }) => cost)) + sum(charges)) * 100) / 100;
  return new Map(pieceCosts(demands, { lines: known, total }).map(({ row, cost }) => [row, cost]));
}

/** Why items that a piece takes cannot be bought. */
function stoppedItems(taken: readonly Demand[], { problems }: CheckedPurchase): readonly Problem[] {
  const keys = new Set(taken.map(itemKey));
  return problems.filter(
    ({ weight, reach }) => weight === "stop" && reach.of === "item" && keys.has(reach.key),
  );
}

/** A printed size to be replaced by another, m. */
export interface Swap {
  readonly row: number;
  readonly from: number;
  readonly to: number;
}

/** The whole event, as it is or with one size replaced. */
export interface SwapPlanRow {
  /** Undefined for the event as it is. */
  readonly swap?: Swap;
  readonly balloons: Known;
  /** Sheet's currency. */
  readonly cost: Known;
  /** Person-time, s. */
  readonly work: Known;
  /** Helium to order, m3. */
  readonly helium: Known;
  readonly status: string;
}

function swapped(pieces: readonly Doubtful<PieceRow>[], { from, to }: Swap): readonly Doubtful<PieceRow>[] {
  return changedRows<PieceRow, PieceRow>(pieces, (piece) => {
    if (piece.printed === undefined || sizeKey(piece.printed) !== sizeKey(from)) return piece;
    const inflated = piece.inflated === undefined ? undefined : (piece.inflated * to) / from;
    return { ...piece, printed: to, inflated };
  });
}

/**
 * SWAP_PLAN: balloons, cost, work and helium of the event as it is, and with each printed size replaced by another in all pieces. Inflated
 * sizes follow in proportion; pieces whose count was typed keep it.
 * Source: `piecePlan` of each variant.
 *
 * @param tables the event
 * @param swaps sizes to replace
 * @returns the event as it is, then one row for each swap
 * @throws CalcError as `piecePlan`
 */
export function swapPlan(tables: EventTables, swaps: readonly Swap[]): readonly SwapPlanRow[] {
  const variant = (pieces: readonly Doubtful<PieceRow>[]): Omit<SwapPlanRow, "swap"> => {
    const plan = piecePlan({ ...tables, pieces });
    const remarks = new Set(
      plan.filter((row) => row.status !== "ok").map((row) => row.status.slice(STOP.length)),
    );
    return {
      balloons: sumKnown(plan.map((row) => row.balloons)),
      cost: whenKnown([sumKnown(plan.map((row) => row.cost))], (total) => Math.round(total * 100) / 100),
      work: sumKnown(plan.map((row) => row.work)),
      helium: sumKnown(plan.map((row) => row.helium)),
      status: remarks.size === 0 ? "ok" : `${STOP}${[...remarks].join("; ")}`,
    };
  };
  const isUsed = ({ from }: Swap): boolean =>
    tables.pieces.some(
      ({ cells }) => cells.printed !== undefined && sizeKey(cells.printed) === sizeKey(from),
    );
  return [
    variant(tables.pieces),
    ...swaps.map((swap) => {
      const row = variant(swapped(tables.pieces, swap));
      return { swap, ...row, ...(!isUsed(swap) && { status: "check: no piece has this size" }) };
    }),
  ];
}
