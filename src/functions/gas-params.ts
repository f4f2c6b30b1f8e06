import { cautionLine } from "../core/care/cautions";
import type { Cylinder } from "../core/gas/cylinder";
import { HELIUM_TYPES } from "../core/gas/balloon-type";
import { DISPOSABLE_BAR, DISPOSABLE_LITRES, GAS_LOSS, LEFT_IN_CYLINDER_BAR } from "../core/practice";
import type { ListParam, ScalarParam } from "./param";

/** Parameters that many gas functions share, each said once. */

export const heliumBalloon = {
  name: "balloon",
  kind: "balloon",
  text: "Inflated size of one balloon, across.",
} as const satisfies ScalarParam;

export const gasLoss = {
  name: "gas_loss",
  kind: "share",
  default: GAS_LOSS.value,
  text: "Helium lost in neck, overfill and purge, as a share of what stays inside.",
} as const satisfies ScalarParam;

export const rubberGrams = {
  name: "rubber_grams",
  kind: "mass",
  above: 0,
  optional: true,
  zero: "default",
  text: "Weight of one empty balloon; left out, it comes from a table by size (common practice).",
} as const satisfies ScalarParam;

export const temperature = {
  name: "temperature",
  kind: "temperature",
  default: 20,
  text: "Temperature of air and gas.",
} as const satisfies ScalarParam;

export const altitude = {
  name: "altitude",
  kind: "altitude",
  default: 0,
  text: "Height of the place above sea level.",
} as const satisfies ScalarParam;

export const purity = {
  name: "purity",
  kind: "share",
  min: 0.5,
  default: 1,
  text: "Share of the gas that is helium.",
} as const satisfies ScalarParam;

export const humidity = {
  name: "humidity",
  kind: "share",
  default: 0.5,
  text: "Relative humidity of the air.",
} as const satisfies ScalarParam;

export const treated = {
  name: "treated",
  kind: "flag",
  default: false,
  text: "TRUE where the inside was treated to float longer.",
} as const satisfies ScalarParam;

export const waterLitres = {
  name: "water_litres",
  kind: "list",
  of: { kind: "volume", above: 0, max: 1000 },
  blanks: "skip",
  pairedWith: "bar",
  text: "Water volume of the cylinder, stamped on its shoulder; a range for several.",
} as const satisfies ListParam;

export const bar = {
  name: "bar",
  kind: "list",
  of: { kind: "pressure", above: 0, max: 300 },
  blanks: "skip",
  pairedWith: "water_litres",
  text: 'Pressure on the gauge, also as "20 MPa"; a range beside the volumes for several.',
} as const satisfies ListParam;

export const leftBar = {
  name: "left_bar",
  kind: "pressure",
  max: 300,
  optional: true,
  text: `Gauge pressure that stays inside; left out, ${LEFT_IN_CYLINDER_BAR.value} bar in a hired cylinder, none in a disposable one (up to ${DISPOSABLE_LITRES.value} L and ${DISPOSABLE_BAR.value} bar).`,
} as const satisfies ScalarParam;

export const cylinderTemperature = {
  name: "temperature",
  kind: "temperature",
  default: 15,
  text: "Temperature of the cylinder.",
} as const satisfies ScalarParam;

export const roomTemperature = {
  name: "room",
  kind: "temperature",
  default: 20,
  text: "Temperature of the room in which the gas ends up.",
} as const satisfies ScalarParam;

/** The cylinders of two paired ranges. */
export const cylindersOf = (waters: readonly number[], pressures: readonly number[]): readonly Cylinder[] =>
  waters.map((waterVolume, index) => ({ waterVolume, gaugePressure: pressures[index] ?? 0 }));

export const balloonType = {
  name: "type",
  kind: "choice",
  options: HELIUM_TYPES,
  default: "latex",
  text: "Latex, or round foil, whose size is the flat one.",
} as const satisfies ScalarParam;

export const heliumCaution = cautionLine("helium");
export const cylinderCaution = cautionLine("cylinders");
