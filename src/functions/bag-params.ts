import type { ListParam, ScalarParam } from "./param";

/** Parameters of the two bag functions, each said once. */

export const neededCount = {
  name: "count",
  kind: "count",
  max: 1000000,
  text: "Balloons needed.",
} as const satisfies ScalarParam;

export const bagSizes = {
  name: "sizes",
  kind: "list",
  of: { kind: "count", min: 1, max: 10000 },
  blanks: "skip",
  pairedWith: "prices",
  text: "Balloons in each bag on sale.",
} as const satisfies ListParam;

export const bagPrices = {
  name: "prices",
  kind: "list",
  of: { kind: "money", above: 0 },
  blanks: "skip",
  pairedWith: "sizes",
  text: "Price of each bag, beside its size.",
} as const satisfies ListParam;
