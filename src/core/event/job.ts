/**
 * The tables of an event as core takes them: every cell of every row in SI units, money in the sheet's currency, dates as
 * Excel serials. Keys are the worksheet's own column names, so that a column has one name in the whole product. Nothing
 * here is checked against another row: that is the work of the models beside this file.
 */

import type { ArchCurve, ArchMeasure } from "../geometry/arch";
import type { WallLattice } from "../geometry/flat";

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

/** What a balloon is made of: it decides volume, weight, breakage and which price rows fit. */
export const BALLOON_TYPES = ["latex", "foil", "long"] as const;

/** One of `BALLOON_TYPES`. */
export type BalloonType = (typeof BALLOON_TYPES)[number];

/** Kinds of part that a row of pieces can be. */
export const PART_KINDS = [
  "column",
  "arch",
  "garland",
  "strand",
  "ball",
  "wall",
  "ceiling",
  "net",
  "mix",
  "count",
  "tied ball",
  "cover",
  "collar",
  "sleeve",
  "foil",
  "bouquet",
] as const;

/** One of `PART_KINDS`. */
export type PartKind = (typeof PART_KINDS)[number];

/** Styles of work that have minutes per balloon. */
export const WORK_STYLES = ["clusters", "free-form", "helium", "ceiling", "net", "wall", "sleeve"] as const;

/** One of `WORK_STYLES`. */
export type WorkStyle = (typeof WORK_STYLES)[number];

/** Where a piece stands: it decides sizing, breakage and ballast. */
export type Where = "indoors" | "outdoors";

/** Where the work is done: before leaving, or at the venue. */
export type Built = "shop" | "site";

/** How a piece travels: ready built, its balloons inflated in bags, or flat. */
export type Carried = "built" | "bagged" | "empty";

/** A row of pieces: one part of the piece that all rows of its name make. */
export interface PieceCells {
  readonly name: string;
  readonly kind: PartKind;
  /** Size printed on the bag, m; for foil its flat size, for long balloons their length. */
  readonly printed: number;
  /** Trade code of a long balloon such as 260: inches across times 100 plus inches of length. */
  readonly code: number;
  readonly palette: string;
  readonly colour: string;
  /** How many pieces, whole; 0 where `none` was typed. */
  readonly quantity: number;
  readonly event: string;
  readonly option: string;
  readonly width: number;
  readonly height: number;
  readonly length: number;
  /** Inflated diameter, m. */
  readonly inflated: number;
  readonly type: BalloonType;
  /** Balloons in one piece, whole, as typed. */
  readonly balloons: number;
  readonly share: number;
  readonly "per cluster": number;
  readonly spacing: number;
  readonly covered: number;
  readonly packing: number;
  readonly curve: ArchCurve;
  readonly measured: ArchMeasure;
  readonly lattice: WallLattice;
  readonly faces: number;
  readonly gas: "air" | "helium";
  readonly where: Where;
  readonly built: Built;
  readonly carried: Carried;
  readonly style: WorkStyle;
  /** Time for each piece, s. */
  readonly rigging: number;
  /** Share that pops or is faulty; 0 where `none` was typed. */
  readonly breakage: number;
  /** Hanging length of each ribbon, m. */
  readonly ribbon: number;
  /** Gas in one balloon as its packet says, m3. */
  readonly "litres each": number;
  /** Weight of one empty balloon as its packet says, kg. */
  readonly "grams each": number;
  /** Narrowest width of the foot, m. */
  readonly base: number;
  /** The user's own fixed price of one piece. */
  readonly "price each": number;
}

/** A colour of a palette. */
export interface PaletteCells {
  readonly palette: string;
  readonly colour: string;
  readonly share: number;
  /** Balloons of this colour in one cluster, whole. */
  readonly pattern: number;
  /** Colour of a second balloon inside each of this one. */
  readonly inside: string;
  /** Share of their worth that left-overs of this colour keep. */
  readonly keep: number;
}

/** A bag on sale. */
export interface PriceCells {
  readonly supplier: string;
  readonly printed: number;
  readonly code: number;
  readonly colour: string;
  readonly type: BalloonType;
  readonly bag: number;
  readonly price: number;
  readonly per: "bag" | "piece";
  readonly "good each": number;
  readonly available: boolean;
}

/** What a supplier asks for delivery. */
export interface DeliveryCells {
  readonly supplier: string;
  readonly charge: number;
  readonly minimum: number;
  readonly "free from": number;
}

/** Balloons on the shelf. */
export interface StockCells {
  readonly printed: number;
  readonly code: number;
  readonly colour: string;
  readonly type: BalloonType;
  readonly count: number;
  /** Worth of one balloon on the shelf; 0 where `none` was typed. */
  readonly "value each": number;
}

/** What an amount of goods goes by. */
export const GOODS_DRIVERS = [
  "piece",
  "balloon",
  "cluster",
  "metre",
  "m2",
  "ribbon metre",
  "helium litre",
  "cylinder",
  "trip",
  "event",
] as const;

/** One of `GOODS_DRIVERS`. */
export type GoodsDriver = (typeof GOODS_DRIVERS)[number];

/** Anything that is not a balloon: framework, fixings, ribbon, gas, hire. */
export interface GoodsCells {
  readonly item: string;
  readonly per: GoodsDriver;
  /** A piece name, a kind, or all. */
  readonly for: string;
  /** In `unit`; helium in litres whatever was typed. */
  readonly amount: number;
  readonly unit: string;
  /** Content of a pack in `unit`; helium in litres. */
  readonly pack: number;
  /** Price of a pack; of one use where it returns. */
  readonly price: number;
  readonly returns: boolean;
  readonly owned: number;
  readonly supplier: string;
  readonly "m3 each": number;
}

/** The decorator's own minutes. */
export interface WorkCells {
  readonly task: string;
  /** s */
  readonly "minutes per balloon": number;
  /** s */
  readonly "minutes per piece": number;
  readonly where: Built;
}

/** A vehicle and the opening that everything has to pass. Lengths in m. */
export interface VehicleCells {
  readonly vehicle: string;
  readonly m3: number;
  readonly length: number;
  readonly width: number;
  readonly height: number;
  readonly "door width": number;
  readonly "door height": number;
}

/** A synonym of the user. */
export interface NameCells {
  readonly written: string;
  readonly means: string;
}

/** What really happened in a job of the past. */
export interface PastJobCells {
  readonly job: string;
  /** Excel serial. */
  readonly date: number;
  readonly event: string;
  readonly style: WorkStyle;
  readonly kind: PartKind;
  readonly where: Where;
  readonly type: BalloonType;
  readonly balloons: number;
  /** s */
  readonly hours: number;
  readonly pieces: number;
  /** s */
  readonly "rigging hours": number;
  readonly "planned balloons": number;
  readonly taken: number;
  readonly popped: number;
  readonly left: number;
  readonly printed: number;
  readonly code: number;
  readonly colour: string;
}

/** Values of the terms, each absent where it was not typed. Durations in s, lengths in m, temperatures in K. */
export interface TermCells {
  readonly breakage: number;
  readonly "breakage outdoors": number;
  readonly "breakage foil": number;
  readonly confidence: number;
  readonly costing: "used share" | "whole bags" | "replacement";
  readonly "leftover worth": number;
  readonly "missing balloon each": number;
  readonly pay: number;
  readonly crew: number;
  readonly pace: number;
  readonly buffer: number;
  /** Time of day as a part of a day. */
  readonly "day start": number;
  readonly "day end": number;
  /** One way, s. */
  readonly travel: number;
  /** One way, m. */
  readonly distance: number;
  /** Money for each kilometre. */
  readonly "per km": number;
  readonly collect: boolean;
  readonly "collect crew": number;
  readonly stay: boolean;
  readonly "spread travel": boolean;
  readonly lengths: "m" | "ft";
  readonly distances: "km" | "mi";
  readonly "gas loss": number;
  readonly purity: number;
  readonly treated: boolean;
  readonly "tether safety": number;
  readonly humidity: number;
  readonly temperature: number;
  readonly altitude: number;
  readonly "fill temperature": number;
  readonly "fill altitude": number;
  /** m/s */
  readonly gust: number;
  readonly "room m3": number;
  readonly margin: number;
  readonly basis: "price" | "cost";
  readonly discount: number;
  readonly tax: number;
  readonly deposit: number;
  readonly minimum: number;
  readonly "tax included": boolean;
  readonly "round to": number;
  readonly ending: number;
  readonly budget: number;
  readonly option: string;
  /** Excel serial, or a time of day as a part of a day. */
  readonly ready: number;
  readonly access: number;
  readonly start: number;
  readonly end: number;
  readonly "clear by": number;
  readonly "job spread": number;
  readonly "own spread": number;
  readonly "fullness job spread": number;
  readonly "fullness own spread": number;
  readonly "breakage weight": number;
  readonly "breakage likeness": number;
  readonly sure: number;
}

/** Name of a term. */
export type TermName = keyof TermCells;

/** A row of terms: exactly one term with its value, or a doubt. */
export interface TermRowCells {
  readonly term: TermName;
  readonly value: TermCells[TermName];
}

/** A row of events: its terms win over the terms of the job. */
export type EventCells = { readonly event: string } & TermCells;

/** How bad a problem is, worst first. */
export const WEIGHTS = ["stop", "unsafe", "no go", "check", "note"] as const;

/** One of `WEIGHTS`. */
export type Weight = (typeof WEIGHTS)[number];

/**
 * Which numbers a problem takes away. `tables`: the plan itself, since the tables cannot be told apart. `job`: all. `work`: work, cost and price. `travel`: the row of travel and loading, and totals.
 * `price`: price columns. `item` and `good`: what needs that item. `none`: nothing.
 */
export type Reach =
  | { readonly of: "tables" | "job" | "work" | "travel" | "price" | "none" }
  | { readonly of: "item"; readonly key: string }
  | { readonly of: "good"; readonly item: string };

/** Something that a person has to know before the job goes out. */
export interface Problem {
  readonly weight: Weight;
  /** Sort of table, or the function that found it. */
  readonly table: string;
  /** Row within its range; absent where it is about no single row. */
  readonly row?: number | undefined;
  /** What is wrong: a sentence with its place, lower case, no full stop. */
  readonly what: string;
  /** What to do, as an instruction. */
  readonly todo: string;
  readonly reach: Reach;
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
