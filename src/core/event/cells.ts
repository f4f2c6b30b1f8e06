/**
 * The columns of the tables of an event, in SI units, money in the sheet's currency, dates as Excel serials. Keys are the
 * worksheet's own column names, so that a column has one name in the whole product.
 */

import type { ArchCurve, ArchMeasure } from "../geometry/arch";
import type { WallLattice } from "../geometry/flat";

/** What a balloon is made of: it decides volume, weight, breakage and which price rows fit. */
export const BALLOON_TYPES = ["latex", "foil", "long"] as const;

/** One of `BALLOON_TYPES`. */
export type BalloonType = (typeof BALLOON_TYPES)[number];

/** Kinds that are a whole piece by themselves: those of a table of pieces without parts. */
export const PIECE_KINDS = [
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
] as const;

/** Kinds of part that a row of pieces can be. */
export const PART_KINDS = [
  ...PIECE_KINDS,
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
