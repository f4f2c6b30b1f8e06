import { airVolume, heliumVolume } from "../gas/fill";
import { sum } from "../numeric/sums";
import { LAYERED_MINUTES } from "../practice";
import { UNITS } from "../units";
import { nameKey } from "../palette/names";
import { type Demand, type PaletteRow, pieceDemands, pooledNeeds, type Spares } from "../palette/needs";
import { type CountedPiece, countPieces, type Gas, type PieceRow } from "../palette/piece-count";
import { type BuyPlan, buyPlan, type StockRow } from "../stock/buy-plan";
import type { DeliveryRow } from "../stock/delivery-terms";
import { grouped } from "../stock/grouped";
import { itemKey, sizeKey } from "../stock/item";
import { pieceCosts } from "../stock/piece-costs";
import type { PriceRow } from "../stock/price-list";
import { buildDuration } from "../work/build";

/** Everything that an event's plans are made of, as typed; lengths in m, money in the sheet's currency. */
export interface EventTables {
  readonly pieces: readonly PieceRow[];
  readonly palettes: readonly PaletteRow[];
  readonly prices: readonly PriceRow[];
  readonly spares: Spares;
  readonly stock?: readonly StockRow[] | undefined;
  readonly delivery?: readonly DeliveryRow[] | undefined;
}

/** What one piece of an event takes. */
export interface PiecePlanRow {
  readonly name: string;
  /** Balloons in all of it, insides of layered ones included. */
  readonly balloons: number;
  /** Its part of what is bought, sheet's currency; the rows add up to the cost of buying. */
  readonly cost: number;
  /** Person-time, s. */
  readonly work: number;
  /** Air to pump, m3. */
  readonly air: number;
  /** Helium to order, m3. */
  readonly helium: number;
  readonly status: string;
}

interface Event {
  readonly counted: readonly CountedPiece[];
  readonly demands: readonly Demand[];
  readonly plan: BuyPlan;
}

function planEvent({ pieces, palettes, prices, spares, stock, delivery }: EventTables): Event {
  const counted = countPieces(pieces);
  const demands = pieceDemands(counted, palettes);
  const needs = pooledNeeds(demands, spares).map(({ printed, colour, withSpares }, index) => ({
    row: index + 1,
    printed,
    colour,
    count: withSpares,
  }));
  return { counted, demands, plan: buyPlan(needs, prices, stock, delivery) };
}

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
 * @returns one row for each piece by name, in order; the costs add up to the cost of buying
 * @throws CalcError as the functions it is made of
 */
export function piecePlan(tables: EventTables): readonly PiecePlanRow[] {
  const { counted, demands, plan } = planEvent(tables);
  const costs = new Map(pieceCosts(demands, plan).map(({ row, cost }) => [row, cost]));
  const ofRow = grouped(demands, (demand) => demand.row);
  const short = new Set(plan.lines.filter((line) => line.short > 0).map(itemKey));
  return [...grouped(counted, (piece) => nameKey(piece.name)).values()].map((group): PiecePlanRow => {
    const taken = group.flatMap((piece) => ofRow.get(piece.row) ?? []);
    const balloons = sum(taken.map((demand) => demand.count));
    const insides = Math.max(0, balloons - sum(group.map(places)));
    const missing = taken
      .filter((demand) => short.has(itemKey(demand)))
      .map((demand) => demand.colour.trim());
    return {
      name: group[0].name.trim(),
      balloons,
      cost: Math.round(sum(group.map((piece) => costs.get(piece.row) ?? 0)) * 100) / 100,
      work: sum(group.map(rowWork)) + insides * LAYERED_MINUTES.value * UNITS.min.si,
      air: volumeOf(group, "air", airVolume),
      helium: volumeOf(group, "helium", heliumVolume),
      status: missing.length === 0 ? "ok" : `not to be had: ${[...new Set(missing)].join(", ")}`,
    };
  });
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
  readonly balloons: number;
  /** Sheet's currency. */
  readonly cost: number;
  /** Person-time, s. */
  readonly work: number;
  /** Helium to order, m3. */
  readonly helium: number;
  readonly status: string;
}

function swapped(pieces: readonly PieceRow[], { from, to }: Swap): readonly PieceRow[] {
  return pieces.map((piece) => {
    if (sizeKey(piece.printed) !== sizeKey(from)) return piece;
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
  const variant = (pieces: readonly PieceRow[]): Omit<SwapPlanRow, "swap"> => {
    const plan = piecePlan({ ...tables, pieces });
    const remarks = plan.filter((row) => row.status !== "ok").map((row) => `${row.name} ${row.status}`);
    return {
      balloons: sum(plan.map((row) => row.balloons)),
      cost: Math.round(sum(plan.map((row) => row.cost)) * 100) / 100,
      work: sum(plan.map((row) => row.work)),
      helium: sum(plan.map((row) => row.helium)),
      status: remarks.join("; ") || "ok",
    };
  };
  const isUsed = ({ from }: Swap): boolean =>
    tables.pieces.some(({ printed }) => sizeKey(printed) === sizeKey(from));
  return [
    variant(tables.pieces),
    ...swaps.map((swap) => {
      const row = variant(swapped(tables.pieces, swap));
      return { swap, ...row, ...(!isUsed(swap) && { status: "no piece has this size" }) };
    }),
  ];
}
