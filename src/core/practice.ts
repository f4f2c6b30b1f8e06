/**
 * A number that decorators work by and that no standard publishes. Every one is also an argument of the functions that
 * use it, so that a decorator who works differently types their own.
 */
export interface Practice {
  readonly value: number;
  readonly unit: string;
  readonly source: "common practice";
  readonly why: string;
}

const practice = (value: number, unit: string, why: string): Practice => ({
  value,
  unit,
  source: "common practice",
  why,
});

// Geometry

/** Centre-to-centre distance of neighbours in clustered pieces, as a ratio to the inflated size. */
export const CLUSTER_SPACING = practice(0.8, "ratio", "balloons in clusters are pressed into each other");
/** The same for balls of balloons tied at one centre. */
export const TIED_BALL_SPACING = practice(
  0.85,
  "ratio",
  "tied necks pull the balloons in towards the centre",
);
/** The same for loose balloons fixed on the outside of a ball. */
export const COVER_SPACING = practice(0.8, "ratio", "a full look hides the balloons underneath");
/** The same for flat walls. */
export const WALL_SPACING = practice(
  0.8,
  "ratio",
  "a wall is pressed together and then stretched to fit its frame",
);
/** The part of one more cluster that must be missing before a column gets it. */
export const LAST_CLUSTER_SLACK = practice(
  0.25,
  "clusters",
  "nobody builds a whole cluster for the last few millimetres of a column",
);
/** Balloons tied into one cluster. */
export const PER_CLUSTER = practice(4, "balloons", "two tied pairs make the usual cluster");
/** Share of a free-form body's volume that is balloon. */
export const MIX_PACKING = practice(
  0.7,
  "share",
  "mixed sizes are pressed together and fill each other's gaps",
);
/** Share of a drop net's volume that is balloon. */
export const NET_PACKING = practice(
  0.28,
  "share",
  "a net hangs half full of balls that lie loosely (0.56); one filled tighter hangs up when it is opened",
);
/** Random packing of discs against a ceiling before the look is chosen (published: Berryman 1983, 0.82). */
export const CEILING_FULL_LOOK = practice(0.8, "share", "a ceiling looks full before every gap is closed");
/** Size of a clustered or free-form balloon as a share of the printed size. */
export const CLUSTER_SIZING = practice(
  0.82,
  "ratio",
  "an 11 in balloon is sized to 9 in so that it presses well and pops less",
);
/** The same for helium balloons. */
export const HELIUM_SIZING = practice(
  1,
  "ratio",
  "helium balloons are filled to their printed size for lift",
);
/** The same outdoors. */
export const OUTDOOR_SIZING = practice(
  0.8,
  "ratio",
  "sun expands the air inside, so outdoor balloons are filled less",
);
/** Step to which inflated sizes are rounded. */
export const SIZING_STEP_INCHES = practice(0.5, "in", "sizing templates come in half inches");
/** Length of the long modelling balloon that sleeves a pole. */
export const SLEEVE_INCHES = practice(60, "in", "the usual long modelling balloon");
/** Length covered by one relaxed sleeve as a ratio to its own length. */
export const SLEEVE_STRETCH = practice(
  1.2,
  "ratio",
  "one fully relaxed 60 in balloon covers up to 6 ft of pole",
);
/** Height above which a bare number is probably feet. */
export const TALL_PIECE_METRES = practice(
  12,
  "m",
  "few pieces are taller, so a bare number above it was probably meant as feet",
);

// Gas

/** Length over width of a round latex balloon up to `ROUND_LATEX_SMALL_INCHES`. */
export const ROUND_LATEX_ELONGATION = practice(
  1.2,
  "ratio",
  "small round latex balloons are a little longer than wide, as capacity tables show",
);
/** Size up to which the full elongation holds. */
export const ROUND_LATEX_SMALL_INCHES = practice(12, "in", "capacity tables bend here");
/** Size from which a round latex balloon is a ball. */
export const ROUND_LATEX_LARGE_INCHES = practice(24, "in", "large balloons are as long as wide");
/** Helium lost in neck, overfill and purge, as a share of what stays in the balloon. */
export const GAS_LOSS = practice(0.1, "share", "neck, overfill and purge lose about a tenth");
/** Excess pressure inside an inflated latex balloon as a share of the air pressure. */
export const BALLOON_OVERPRESSURE = practice(
  0.025,
  "share",
  "measured party balloons hold about 25 hPa above the room",
);
/** Gauge pressure that stays in a cylinder. */
export const LEFT_IN_CYLINDER_BAR = practice(
  5,
  "bar",
  "a hired cylinder goes back with some pressure, so that no damp air gets in",
);
/** Largest water volume of a disposable cylinder. */
export const DISPOSABLE_LITRES = practice(25, "L", "disposable cylinders hold some 7 to 22 L of water");
/** Highest pressure of a disposable cylinder. */
export const DISPOSABLE_BAR = practice(25, "bar", "disposable cylinders are sold at 17 to 20 bar");
/** Time an untreated 11 in latex balloon floats at 20 C: the one constant that calibrates FLOAT_HOURS. */
export const FLOAT_HOURS_11_INCH = practice(16, "h", "an untreated 11 in balloon floats 12 to 20 hours");
/** How much longer a balloon floats when its inside is treated. */
export const TREATED_FLOAT_FACTOR = practice(
  5,
  "ratio",
  "treatment dries to a film on the inside that slows helium; known for 11 to 16 in",
);
/** Safety factor of a tether weight indoors. */
export const TETHER_SAFETY = practice(
  1.5,
  "ratio",
  "draughts and tugging hands pull harder than the balloon",
);
/** Weight of the ribbon a floating balloon carries. */
export const FLOAT_RIBBON_GRAMS = practice(1, "g", "a metre and a half of light curling ribbon");

// Ribbon

/** Ribbon that goes into the knot and the tail. */
export const RIBBON_KNOT_METRES = practice(0.15, "m", "knot at the neck plus a curled tail");

// Stock

/** Balloons that pop or are faulty indoors. */
export const BREAKAGE_INDOORS = practice(0.03, "share", "three in a hundred pop, tear or are off colour");
/** The same outdoors. */
export const BREAKAGE_OUTDOORS = practice(0.1, "share", "sun, grass and wind pop one in ten");
/** The same for foil. */
export const BREAKAGE_FOIL = practice(0.02, "share", "foil fails at the seam or the valve");
/** How sure the decorator wants to be of enough good ones. */
export const SPARES_CONFIDENCE = practice(0.95, "share", "nineteen jobs in twenty need no extra trip");

// Work and transport, per person-hour

/** Clustered balloons per person-hour. */
export const CLUSTER_RATE = practice(120, "balloons/h", "inflate, size, tie and cluster");
/** Free-form balloons per person-hour. */
export const FREE_FORM_RATE = practice(60, "balloons/h", "several sizes, placed by eye");
/** Helium balloons with ribbon per person-hour. */
export const HELIUM_RIBBON_RATE = practice(50, "balloons/h", "fill, tie, ribbon and keep apart");
/** Loose ceiling balloons per person-hour. */
export const CEILING_RATE = practice(100, "balloons/h", "fill and tie, no ribbon");
/** Balloons into a net per person-hour. */
export const NET_RATE = practice(150, "balloons/h", "fill and tie, no sizing");
/** Wall balloons per person-hour. */
export const WALL_RATE = practice(80, "balloons/h", "every balloon sized and fixed in its place");
/** Balloons taken down per person-hour. */
export const STRIKE_RATE = practice(500, "balloons/h", "popped into sacks");
/** Rigging for each piece. */
export const RIGGING_HOURS = practice(0.5, "h", "base, pole, fixing and levelling of one piece");
/** Share of a crew's time that is work. */
export const USEFUL_TIME = practice(0.85, "share", "breaks, carrying and waiting for the room");
/** Time added to a plan before the room must be ready. */
export const START_BUFFER = practice(0.15, "share", "lifts, parking and late tables");
/** Share of a van that assembled pieces fill. */
export const ASSEMBLED_PACKING = practice(0.35, "share", "pieces must not touch the walls or each other");
/** Share of a van that bagged single balloons fill. */
export const BAGGED_PACKING = practice(0.45, "share", "bags settle, but not like loose spheres");

// Care

/** Friction of a weight on a floor or pavement. */
export const FLOOR_FRICTION = practice(0.4, "ratio", "a base slides on smooth or wet ground before it tips");
/** Safety factor of a weighted base. */
export const ANCHOR_SAFETY = practice(1.5, "ratio", "gusts, slopes and knocks");
/** Gust above which a balloon piece is taken down. */
export const TAKE_DOWN_GUST = practice(
  10,
  "m/s",
  "balloon work fails before its base does in a fresh breeze; take it down earlier if in doubt",
);
/** Balloon of the arches and garlands whose thickness nobody typed. */
export const GARLAND_BALLOON_INCHES = practice(9, "in", "an 11 in balloon sized for clusters, in fours");
/** Thickness of a pole in its sleeve. */
export const POLE_THICKNESS = practice(0.05, "m", "a tube of an inch or two under a relaxed sleeve");
// Pieces made of parts

/** Sleeves pulled over a pole per person-hour. */
export const SLEEVE_RATE = practice(20, "balloons/h", "a long balloon is relaxed and rolled over the pole");
/** Time that a second balloon inside a balloon takes. */
export const LAYERED_MINUTES = practice(0.5, "min", "one balloon is stuffed into the other before filling");
/** Rigging of one piece by its kind. */
export const RIGGING_MINUTES = {
  column: practice(20, "min", "base, pole and levelling"),
  arch: practice(45, "min", "two feet, a frame and two people to lift it"),
  garland: practice(30, "min", "line, fixings and a ladder"),
  strand: practice(10, "min", "one line with two ends"),
  ball: practice(20, "min", "hung or set on a stand"),
  wall: practice(45, "min", "frame, panels and levelling"),
  ceiling: practice(15, "min", "let up and pushed into the corners"),
  net: practice(45, "min", "hung, filled and made to open"),
  mix: practice(30, "min", "line, fixings and a ladder"),
  "tied ball": practice(10, "min", "tied on the pole and turned into shape"),
  cover: practice(20, "min", "seen from all sides and filled up where the ball shows"),
  collar: practice(5, "min", "laid round the base"),
  sleeve: practice(5, "min", "the pole is set into its base"),
  foil: practice(1, "min", "tied on"),
  bouquet: practice(1.5, "min", "tied to its weight and carried to its table"),
} as const satisfies Record<string, Practice>;
/** Rigging of a piece whose number was typed, by its style. */
export const COUNT_STYLE_MINUTES = {
  helium: practice(1.5, "min", "tied to its weight and carried to its place"),
  ceiling: practice(15, "min", "let up and pushed into the corners"),
  net: practice(45, "min", "hung, filled and made to open"),
} as const satisfies Record<string, Practice>;
/** The same by the balloons in one piece: up to how many, and minutes. */
export const COUNT_SIZE_MINUTES = [
  { upTo: 20, ...practice(2, "min", "a small centrepiece is set down") },
  { upTo: 60, ...practice(10, "min", "a figure on a base is fixed and turned") },
  { upTo: Infinity, ...practice(30, "min", "a large piece needs a base, fixing and levelling") },
] as const;
/** Length up to which the rigging of a garland holds. */
export const LONG_GARLAND_METRES = practice(30, "m", "longer ones need more fixings");
/** Rigging of each further metre of garland. */
export const LONG_GARLAND_MINUTES = practice(1, "min", "one more fixing, and the ladder moves");
/** Loading or unloading of one trip. */
export const LOADING_MINUTES = practice(20, "min", "one person, one van, from the door to the kerb");
/** Thickness of a sleeved pole as it is packed. */
export const SLEEVE_BOX_METRES = practice(0.05, "m", "a pole with its sleeve is as thick as a wrist");
/** Weight of the film of a foil balloon, both sides together twice. */
export const FOIL_FILM_GRAMS_PER_M2 = practice(30, "g/m2", "makes differ; weigh one");

// Terms

/** Hours between which a shop works. */
export const DAY_START_HOUR = practice(8, "h", "the usual working day");
/** The same in the evening. */
export const DAY_END_HOUR = practice(18, "h", "the usual working day");
/** Relative humidity of a room. */
export const ROOM_HUMIDITY = practice(0.5, "share", "it hardly matters to lift");
