/** How bad a problem is, worst first. */
export const WEIGHTS = ["stop", "unsafe", "no go", "check", "note"] as const;

/** One of `WEIGHTS`. */
export type Weight = (typeof WEIGHTS)[number];

/**
 * Which numbers a problem takes away. `tables`: the plan itself, since the tables cannot be told apart. `job`: all. `work`: work, cost and price. `travel`: the row of travel and loading, and totals.
 * `price`: price columns. `item` and `good`: what needs that item. `none`: nothing.
 */
export type Reach =
  | { readonly of: "tables" | "job" | "work" | "travel" | "price" | "none" }
  | { readonly of: "item"; readonly key: string }
  | { readonly of: "good"; readonly item: string };

/** Something that a person has to know before the job goes out. */
export interface Problem {
  readonly weight: Weight;
  /** Sort of table, or the function that found it. */
  readonly table: string;
  /** Row within its range; absent where it is about no single row. */
  readonly row?: number | undefined;
  /** What is wrong: a sentence with its place, lower case, no full stop. */
  readonly what: string;
  /** What to do, as an instruction. */
  readonly todo: string;
  readonly reach: Reach;
}

/**
 * Something to look at once, which takes no number away.
 *
 * @param table sort of table, or the function that found it
 * @param what sentence with its place, lower case, no full stop
 * @param todo what to do
 * @param row within its range, where it is about a single one
 * @returns the problem
 */
export function check(table: string, what: string, todo = "look at it once", row?: number): Problem {
  return { weight: "check", table, row, what, todo, reach: { of: "none" } };
}

/**
 * What tells problems apart that a person reads: of one sentence what to do may name different things, since two pieces can be too
 * wide for a door by the same length.
 *
 * @param problem to be listed
 * @returns equal texts for what is said once
 */
export function saidOf({ what, weight, todo }: Problem): string {
  return weight === "no go" ? `${what}\n${todo}` : what;
}
