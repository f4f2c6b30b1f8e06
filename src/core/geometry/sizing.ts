import { wholeNearest } from "../numeric/whole";
import type { Practice } from "../practice";
import { CLUSTER_SIZING, HELIUM_SIZING, OUTDOOR_SIZING, SIZING_STEP_INCHES } from "../practice";
import { toSi } from "../units";
import { checkLength } from "./checks";

/** Inflated size as a ratio to the printed one, by use. Source: common practice. */
export const SIZINGS = {
  clusters: CLUSTER_SIZING,
  "free-form": CLUSTER_SIZING,
  helium: HELIUM_SIZING,
  outdoors: OUTDOOR_SIZING,
} as const satisfies Record<string, Practice>;

/** A use that balloons are sized for. */
export type SizingUse = keyof typeof SIZINGS;

/** The uses, for lists of choices. */
export const SIZING_USES = Object.keys(SIZINGS) as SizingUse[];

/**
 * SIZED_INCHES: size to which a balloon is inflated, from the size printed on its bag, in the half inches of
 * a sizing template.
 *
 * @param printed size on the bag, m
 * @param use what it is inflated for
 * @returns inflated diameter, m, a whole number of half inches, at least one
 * @throws CalcError `#VALUE!` where `printed` is not above 0
 */
export function sizedDiameter(printed: number, use: SizingUse = "clusters"): number {
  checkLength("printed", printed);
  const step = toSi(SIZING_STEP_INCHES.value, "in");
  return Math.max(1, wholeNearest((printed * SIZINGS[use].value) / step)) * step;
}
