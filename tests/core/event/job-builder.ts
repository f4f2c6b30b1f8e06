import type {
  DeliveryCells,
  GoodsCells,
  NameCells,
  PaletteCells,
  PastJobCells,
  PieceCells,
  PriceCells,
  StockCells,
  VehicleCells,
  WorkCells,
} from "../../../src/core/event/cells";
import type { EventCells, TermCells, TermRowCells } from "../../../src/core/event/term-cells";
import { SORTS, type Job, type Line } from "../../../src/core/event/job";
import { toSi } from "../../../src/core/units";
import type { Known } from "../../../src/core/withheld";

/** Tables of a job as a test writes them: cells in SI units; `doubt` makes a row unreadable. */
export interface Tables {
  readonly pieces?: readonly Row<PieceCells>[];
  readonly palettes?: readonly Row<PaletteCells>[];
  readonly price_list?: readonly Row<PriceCells>[];
  readonly delivery?: readonly Row<DeliveryCells>[];
  readonly stock?: readonly Row<StockCells>[];
  readonly goods?: readonly Row<GoodsCells>[];
  readonly work?: readonly Row<WorkCells>[];
  readonly terms?: Partial<TermCells>;
  /** Rows of terms that are not plain values: doubtful ones. */
  readonly termRows?: readonly Row<TermRowCells>[];
  readonly events?: readonly Row<EventCells>[];
  readonly vehicles?: readonly Row<VehicleCells>[];
  readonly names?: readonly Row<NameCells>[];
  readonly past_jobs?: readonly Row<PastJobCells>[];
}

export type Row<Cells> = Partial<Cells> & { readonly doubt?: string };

function lines<Cells>(sort: string, rows: readonly Row<Cells>[] = []): readonly Line<Cells>[] {
  return rows.map(({ doubt, ...cells }, index) => {
    const place = `${sort} row ${index + 2}`;
    const doubts = doubt === undefined ? [] : [`${place}: ${doubt}`];
    return { place, row: index + 2, cells: cells as unknown as Partial<Cells>, doubts };
  });
}

/** A job as the reader of the worksheet's tables would hand it over. */
export function jobOf(tables: Tables): Job {
  const termRows = [
    ...Object.entries(tables.terms ?? {}).map(([term, value]) => ({ term, value }) as Row<TermRowCells>),
    ...(tables.termRows ?? []),
  ];
  const given = SORTS.filter((sort) => (sort === "terms" ? termRows.length > 0 : tables[sort] !== undefined));
  return {
    pieces: lines("pieces", tables.pieces),
    palettes: lines("palettes", tables.palettes),
    price_list: lines("price_list", tables.price_list),
    delivery: lines("delivery", tables.delivery),
    stock: lines("stock", tables.stock),
    goods: lines("goods", tables.goods),
    work: lines("work", tables.work),
    terms: lines("terms", termRows),
    events: lines("events", tables.events),
    vehicles: lines("vehicles", tables.vehicles),
    names: lines("names", tables.names),
    past_jobs: lines("past_jobs", tables.past_jobs),
    given: new Set(given),
    problems: [],
  };
}

export const inches = (value: number): number => toSi(value, "in");
export const feet = (value: number): number => toSi(value, "ft");
export const minutes = (value: number): number => toSi(value, "min");

/** A number that must be known. */
export function known(value: Known | "" | undefined): number {
  if (typeof value !== "number") throw new Error(`not a number: ${JSON.stringify(value)}`);
  return value;
}
