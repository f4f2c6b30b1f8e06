import type { LookName } from "./look";

// Headings that the samples have in common; other tables have those that their job needs.

type Columns = Readonly<Record<string, LookName>>;

export const DELIVERY_HEADINGS = {
  supplier: "input",
  charge: "inputMoney",
  minimum: "inputMoney",
  "free from": "inputMoney",
} as const satisfies Columns;

export const GOODS_HEADINGS = {
  item: "input",
  per: "input",
  for: "input",
  amount: "input",
  unit: "input",
  pack: "input",
  price: "inputMoney",
  returns: "input",
  owned: "input",
  supplier: "input",
  "m3 each": "input",
} as const satisfies Columns;

export const TERM_HEADINGS = { term: "input", value: "input" } as const satisfies Columns;
