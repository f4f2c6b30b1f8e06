import type { ListParam, ScalarParam } from "./param";

/** Parameters of the two roll functions, each said once. */

export const rollPieces = {
  name: "pieces",
  kind: "list",
  of: { kind: "count", max: 1e6 },
  blanks: "skip",
  pairedWith: "each",
  text: "How many pieces of each length.",
} as const satisfies ListParam;

export const rollEach = {
  name: "each",
  kind: "list",
  of: { kind: "length", above: 0 },
  blanks: "skip",
  pairedWith: "pieces",
  text: "Length of the pieces, beside their number.",
} as const satisfies ListParam;

export const roll = {
  name: "roll",
  kind: "length",
  above: 0,
  max: 10000,
  text: "Length on one roll.",
} as const satisfies ScalarParam;
