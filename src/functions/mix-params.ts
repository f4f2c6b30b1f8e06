import { MIX_PACKING } from "../core/practice";
import type { ListParam, ScalarParam } from "./param";

/** Parameters of the two functions for free-form mixes, each said once. */

export const mixSizes = {
  name: "sizes",
  kind: "list",
  of: { kind: "balloon" },
  blanks: "skip",
  text: "Inflated sizes, one to a cell.",
} as const satisfies ListParam;

export const bodyThickness = {
  name: "thickness",
  kind: "length",
  above: 0,
  max: 20,
  text: "Thickness of the garland's body.",
} as const satisfies ScalarParam;

export const mixPacking = {
  name: "packing",
  kind: "share",
  min: 0.2,
  max: 0.95,
  default: MIX_PACKING.value,
  text: "Share of the body that is balloon, each taken as a ball of its size, without the neck end that AIR_LITRES counts.",
} as const satisfies ScalarParam;
