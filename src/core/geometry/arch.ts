import { invalid } from "../calc-error";
import { ellipseCircumference } from "../numeric/elliptic";
import { rootAbove } from "../numeric/roots";
import { CLUSTER_SPACING, PER_CLUSTER } from "../practice";
import { checkAtLeast, checkLength, inMetres } from "./checks";
import { columnAcross, garlandCount } from "./clusters";

/** Curves of an arch's line, in the words of the worksheet. */
export const ARCH_CURVES = ["half ellipse", "parabola", "catenary", "round", "square"] as const;

/** One of `ARCH_CURVES`. */
export type ArchCurve = (typeof ARCH_CURVES)[number];

/** Where width and height of an arch were measured. */
export const ARCH_MEASURES = ["centre", "inside", "outside"] as const;

/** One of `ARCH_MEASURES`. */
export type ArchMeasure = (typeof ARCH_MEASURES)[number];

/**
 * Shape of a hanging chain: the number u with (cosh u - 1)/u = height/half width, which is half the span over
 * the catenary's parameter.
 *
 * @param width span, m, above 0
 * @param height rise or sag, m, 0 or more
 * @returns u, 0 for a straight line
 */
export function catenaryShape(width: number, height: number): number {
  const steepness = (2 * height) / width;
  if (steepness === 0) return 0;
  // sinh^2 of the half keeps the digits that cosh u - 1 loses near a straight line.
  return rootAbove((u) => (u === 0 ? 0 : (2 * Math.sinh(u / 2) ** 2) / u) - steepness, 0, 2 * steepness);
}

/** sin-like quotient f(x)/x that is 1 at 0. */
const perArgument = (f: (x: number) => number, x: number): number => (x === 0 ? 1 : f(x) / x);

/** Exact length of each curve over its span and rise, both in m. */
const LENGTHS: Readonly<Record<ArchCurve, (width: number, height: number) => number>> = {
  "half ellipse": (width, height) => ellipseCircumference(width / 2, height) / 2,
  parabola: (width, height) => {
    const slope = (4 * height) / width;
    return (width / 2) * (Math.hypot(1, slope) + perArgument(Math.asinh, slope));
  },
  catenary: (width, height) => width * perArgument(Math.sinh, catenaryShape(width, height)),
  round: (width, height) => {
    const slope = (2 * height) / width;
    return width * (1 + slope * slope) * perArgument(Math.atan, slope);
  },
  square: (width, height) => width + 2 * height,
};

/**
 * Width and height of the centre line, where it runs half the garland's thickness inside or outside of what
 * was measured.
 */
function centreLine(
  width: number,
  height: number,
  measured: ArchMeasure,
  across: number,
): readonly [number, number] {
  checkLength("width", width);
  checkLength("height", height);
  if (measured === "centre") return [width, height];
  if (measured === "inside") return [width + across, height + across / 2];
  if (!(width > across)) {
    throw invalid("width", `be more than the garland's thickness of ${inMetres(across)}`, {
      written: inMetres(width),
    });
  }
  if (!(height > across / 2)) {
    throw invalid("height", `be more than half the garland's thickness of ${inMetres(across)}`, {
      written: inMetres(height),
    });
  }
  return [width - across, height - across / 2];
}

/**
 * ARCH_METRES: length of an arch along its centre line.
 * Source: half ellipse by the complete elliptic integral E; parabola and circular segment by handbook
 * formula; catenary from its defining equation; square as two legs and a beam. Where the arch was measured
 * inside or outside, the centre line is the same kind of curve with its width larger or smaller by the
 * garland's thickness and its height by half of that.
 *
 * @param width distance of the feet, m
 * @param height rise above the feet, m; a round arch higher than half its width is more than a half circle
 * @param curve kind of curve
 * @param measured where `width` and `height` were measured
 * @param across thickness of the garland, m; only needed where `measured` is not `centre`
 * @returns length, m
 * @throws CalcError `#VALUE!` where a length is not above 0, or an outside measure is smaller than the
 *   garland
 */
export function archLength(
  width: number,
  height: number,
  curve: ArchCurve = "half ellipse",
  measured: ArchMeasure = "centre",
  across = 0,
): number {
  if (measured !== "centre") checkLength("across", across);
  return LENGTHS[curve](...centreLine(width, height, measured, across));
}

/**
 * ARCH_HEIGHT_METRES: height of an arch from the length of its centre line.
 *
 * @param width distance of the feet, m
 * @param length length along the centre line, m, more than `width`
 * @param curve kind of curve
 * @returns rise above the feet, m
 * @throws CalcError `#VALUE!` where `length` does not reach from foot to foot
 */
export function archHeight(width: number, length: number, curve: ArchCurve = "half ellipse"): number {
  checkLength("width", width);
  checkAtLeast("length", length, width, "the distance of the feet");
  return rootAbove((height) => LENGTHS[curve](width, height) - length, 0, length);
}

/**
 * COUNT_ARCH: balloons for an arch of clusters.
 *
 * @param width distance of the feet, m
 * @param height rise above the feet, m
 * @param balloon inflated diameter, m
 * @param curve kind of curve
 * @param perCluster balloons in a cluster, 2 or more
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @param measured where `width` and `height` were measured
 * @returns balloons, whole clusters
 * @throws CalcError `#VALUE!` where an argument is outside its limits
 */
export function archCount(
  width: number,
  height: number,
  balloon: number,
  curve: ArchCurve = "half ellipse",
  perCluster = PER_CLUSTER.value,
  spacing = CLUSTER_SPACING.value,
  measured: ArchMeasure = "centre",
): number {
  const across = columnAcross(balloon, perCluster, spacing);
  return garlandCount(archLength(width, height, curve, measured, across), balloon, perCluster, spacing);
}

/** A point of an arch's line: to the right of its middle and above its feet, m. */
export interface ArchPoint {
  readonly x: number;
  readonly y: number;
}

/**
 * Points of each curve from the left foot (share 0) to the right one (share 1); a square arch is its four
 * corners.
 */
const POINTS: Readonly<Record<ArchCurve, (width: number, height: number, share: number) => ArchPoint>> = {
  "half ellipse": (width, height, share) => ({
    x: (-width / 2) * Math.cos(Math.PI * share),
    y: height * Math.sin(Math.PI * share),
  }),
  parabola: (width, height, share) => ({ x: width * (share - 0.5), y: 4 * height * share * (1 - share) }),
  catenary: (width, height, share) => {
    const shape = catenaryShape(width, height);
    const rise = Math.sinh(shape / 2) ** 2;
    const fallen = rise === 0 ? (2 * share - 1) ** 2 : Math.sinh(shape * (share - 0.5)) ** 2 / rise;
    return { x: width * (share - 0.5), y: height * (1 - fallen) };
  },
  round: (width, height, share) => {
    const half = 2 * Math.atan((2 * height) / width);
    const radius = width / (2 * Math.sin(half));
    const angle = half * (2 * share - 1);
    return { x: radius * Math.sin(angle), y: radius * (Math.cos(angle) - Math.cos(half)) };
  },
  square: (width, height, share) => ({
    x: share < 0.5 ? -width / 2 : width / 2,
    y: share === 0 || share === 1 ? 0 : height,
  }),
};

/**
 * Points along the centre line of an arch, close enough together to be joined by straight lines.
 *
 * @param width distance of the feet, m
 * @param height rise above the feet, m
 * @param curve kind of curve
 * @param measured where `width` and `height` were measured
 * @param across thickness of the garland, m; only needed where `measured` is not `centre`
 * @param pieces straight lines that the curve is made of
 * @returns points from the left foot to the right one
 * @throws CalcError `#VALUE!` as `archLength`
 */
export function archPoints(
  width: number,
  height: number,
  curve: ArchCurve = "half ellipse",
  measured: ArchMeasure = "centre",
  across = 0,
  pieces = 1000,
): readonly ArchPoint[] {
  if (measured !== "centre") checkLength("across", across);
  const [middleWidth, middleHeight] = centreLine(width, height, measured, across);
  const shares =
    curve === "square" ? [0, 0.25, 0.75, 1] : Array.from({ length: pieces + 1 }, (_, i) => i / pieces);
  return shares.map((share) => POINTS[curve](middleWidth, middleHeight, share));
}
