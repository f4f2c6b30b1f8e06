import { COVER_CORE_SPACING } from "../core/geometry/ball";
import { ARCH_CURVES, ARCH_MEASURES } from "../core/geometry/arch";
import { CLUSTER_SPACING, PER_CLUSTER, TALL_PIECE_METRES } from "../core/practice";
import type { ScalarParam } from "./param";

/** Parameters that many pieces share, each said once. */

export const balloon = {
  name: "balloon",
  kind: "balloon",
  text: "Inflated size of one balloon, across.",
} as const satisfies ScalarParam;

export const perCluster = {
  name: "per_cluster",
  kind: "count",
  min: 2,
  max: 12,
  default: PER_CLUSTER.value,
  text: "Balloons in one cluster.",
} as const satisfies ScalarParam;

const spacingText = "Distance of neighbours as a ratio to the size; 1 just touches, less is pressed.";

/** Spacing with the default that suits a kind of piece. */
export const spacing = <const Value extends number>(value: Value) =>
  ({
    name: "spacing",
    kind: "ratio",
    min: 0.6,
    max: 1.2,
    default: value,
    zero: "default",
    text: spacingText,
  }) as const satisfies ScalarParam;

export const clusterSpacing = spacing(CLUSTER_SPACING.value);

export const covered = {
  name: "covered",
  kind: "share",
  above: 0,
  default: 1,
  text: "Share of the surface that is dressed; 50% of a ball is a dome.",
} as const satisfies ScalarParam;

export const curve = {
  name: "curve",
  kind: "choice",
  options: ARCH_CURVES,
  default: "half ellipse",
  text: "Shape of the arch.",
} as const satisfies ScalarParam;

export const measured = {
  name: "measured",
  kind: "choice",
  options: ARCH_MEASURES,
  default: "centre",
  text: "Where width and height were taken: at the centre line, inside or outside.",
} as const satisfies ScalarParam;

export const archWidth = {
  name: "width",
  kind: "length",
  above: 0,
  text: "Distance between the feet.",
} as const satisfies ScalarParam;

export const heightOfArch = {
  name: "height",
  kind: "length",
  above: 0,
  text: "Height of the arch above its feet.",
} as const satisfies ScalarParam;

/** The note about bare numbers that tall pieces get in their limits. */
export const tallNote = `A bare number is metres: above ${TALL_PIECE_METRES.value} m it may have been meant as feet, so type "6 ft".`;

export const coreCount = {
  name: "core_count",
  kind: "count",
  min: 1,
  max: 10000,
  text: "Balloons of the tied ball underneath.",
} as const satisfies ScalarParam;

export const coreBalloon = {
  name: "core_balloon",
  kind: "balloon",
  text: "Inflated size of the tied balloons.",
} as const satisfies ScalarParam;

export const coreSpacing = {
  ...spacing(COVER_CORE_SPACING),
  name: "core_spacing",
  text: "Spacing in the tied ball. At 1 the covers come out as in practice, as pressed balloons bulge back into the hollows; BALL_METRES takes 0.85.",
} as const satisfies ScalarParam;

export const outerBalloon = {
  name: "outer_balloon",
  kind: "balloon",
  text: "Inflated size of the loose balloons outside.",
} as const satisfies ScalarParam;
