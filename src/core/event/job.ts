/**
 * The tables of an event as core takes them: every cell of every row, its columns as in `cells.ts`. Nothing here is checked
 * against another row: that is the work of the models beside this file.
 */

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
} from "./cells";
import type { EventCells, TermRowCells } from "./term-cells";
import type { Problem } from "../problem";

/** Sorts of table that an event function knows by their headers. */
export const SORTS = [
  "pieces",
  "palettes",
  "price_list",
  "delivery",
  "stock",
  "goods",
  "work",
  "terms",
  "events",
  "vehicles",
  "names",
  "past_jobs",
] as const;

/** One of `SORTS`. */
export type Sort = (typeof SORTS)[number];

/**
 * One row of a table as it was read. A cell that is blank or unreadable is absent from `cells`; defaults are not applied.
 * A row with a doubt is doubtful: nothing that needs one of its cells may be computed from it.
 */
export interface Line<Cells> {
  /** How sentences name the row: `pieces row 3`, or `price_list 2 row 7` for the second range of a sort. */
  readonly place: string;
  /** Row within its range from 1, header included. */
  readonly row: number;
  readonly cells: Partial<Cells>;
  /** One sentence for each cell that could not be read, with the row's place in front. */
  readonly doubts: readonly string[];
}

/** All tables of a job, rows of one sort stacked in the order of their ranges. */
export interface Job {
  readonly pieces: readonly Line<PieceCells>[];
  readonly palettes: readonly Line<PaletteCells>[];
  readonly price_list: readonly Line<PriceCells>[];
  readonly delivery: readonly Line<DeliveryCells>[];
  readonly stock: readonly Line<StockCells>[];
  readonly goods: readonly Line<GoodsCells>[];
  readonly work: readonly Line<WorkCells>[];
  readonly terms: readonly Line<TermRowCells>[];
  readonly events: readonly Line<EventCells>[];
  readonly vehicles: readonly Line<VehicleCells>[];
  readonly names: readonly Line<NameCells>[];
  readonly past_jobs: readonly Line<PastJobCells>[];
  /** Sorts of which a range was given, empty or not. */
  readonly given: ReadonlySet<Sort>;
  /** What was found about the ranges and headings themselves. */
  readonly problems: readonly Problem[];
  /** Steps that the search for the cheapest purchase may take, see `buyPlan`. */
  readonly mostSteps?: number;
}
