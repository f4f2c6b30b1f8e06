import type { CellCondition, ScaleStop } from "../workbook/conditions";

/** A plain symbol of our own for what a set of icons means. */
export type CellIcon = { readonly color: string } & (
  | { readonly shape: "disc" | "flag" | "diamond" | "triangle" | "check" | "cross" | "exclamation" }
  /** Degrees from pointing up, clockwise. */
  | { readonly shape: "arrow"; readonly turn: number }
  /** The part of a disc, or of four bars, that is filled. */
  | { readonly shape: "quarters" | "bars"; readonly filled: number }
);

const [RED, YELLOW, GREEN, GREY, BLACK, PINK] = [
  "#c0392b",
  "#d9a400",
  "#2e8b57",
  "#6b6b6b",
  "#303030",
  "#e39a93",
];

const all = (shape: "disc" | "flag", ...colors: readonly string[]): readonly CellIcon[] =>
  colors.map((color) => ({ shape, color }));
const arrows = (turns: readonly number[], colors: readonly string[]): readonly CellIcon[] =>
  turns.map((turn, at) => ({ shape: "arrow", turn, color: colors[at] ?? GREY }));
const parts = (shape: "quarters" | "bars", first: number, color: string): readonly CellIcon[] =>
  Array.from({ length: 5 - first }, (_, at) => ({ shape, filled: (first + at) / 4, color }));
const MARKS: readonly CellIcon[] = [
  { shape: "cross", color: RED },
  { shape: "exclamation", color: YELLOW },
  { shape: "check", color: GREEN },
];
const LIGHTS = all("disc", RED, YELLOW, GREEN);

/** The sets of icons by their names in a file (ECMA-376 part 1, 18.18.42), the lowest icon first. */
const SETS: Readonly<Record<string, readonly CellIcon[]>> = {
  "3Arrows": arrows([180, 90, 0], [RED, YELLOW, GREEN]),
  "3ArrowsGray": arrows([180, 90, 0], []),
  "3Flags": all("flag", RED, YELLOW, GREEN),
  "3TrafficLights1": LIGHTS,
  "3TrafficLights2": LIGHTS,
  "3Signs": [
    { shape: "diamond", color: RED },
    { shape: "triangle", color: YELLOW },
    { shape: "disc", color: GREEN },
  ],
  "3Symbols": MARKS,
  "3Symbols2": MARKS,
  "4Arrows": arrows([180, 135, 45, 0], [RED, YELLOW, YELLOW, GREEN]),
  "4ArrowsGray": arrows([180, 135, 45, 0], []),
  "4RedToBlack": all("disc", BLACK, GREY, PINK, RED),
  "4Rating": parts("bars", 1, "#2b5f75"),
  "4TrafficLights": all("disc", BLACK, RED, YELLOW, GREEN),
  "5Arrows": arrows([180, 135, 90, 45, 0], [RED, YELLOW, YELLOW, YELLOW, GREEN]),
  "5ArrowsGray": arrows([180, 135, 90, 45, 0], []),
  "5Rating": parts("bars", 0, "#2b5f75"),
  "5Quarters": parts("quarters", 0, BLACK),
};

/** The condition that shows icons. */
export type IconCondition = Extract<CellCondition, { readonly icons: readonly ScaleStop[] }>;

/** The icon of a number: that of the highest stop that it reaches. `at`: where the stops lie, in their order. */
export function iconOf(
  { set, icons, isReversed }: IconCondition,
  at: readonly (number | undefined)[],
  value: number,
): CellIcon | undefined {
  const symbols = SETS[set];
  if (symbols?.length !== icons.length) return undefined;
  const reached = icons.findLastIndex((stop, index) => {
    const limit = at[index];
    return index === 0 || (limit !== undefined && (stop.isStrict === true ? value > limit : value >= limit));
  });
  return symbols.at(isReversed ? -1 - reached : reached);
}

/** Whether the symbols of a set are known. */
export function hasIcons({ set, icons }: IconCondition): boolean {
  return SETS[set]?.length === icons.length;
}
