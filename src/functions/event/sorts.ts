import type { Sort } from "../../core/event/job";
import { isTitled, titlesOf, type Heading } from "../headings";
import type { TableColumn } from "../param";
import { COLUMNS } from "./columns";
import { TERM_COLUMNS } from "./terms";

const EVENT_COLUMN: TableColumn = { name: "event", kind: "text" };
const TERM_ROW_COLUMNS: readonly TableColumn[] = [
  { name: "term", kind: "text" },
  { name: "value", kind: "text" },
];

/** The columns that a table of a sort may have. */
export function columnsOfSort(sort: Sort): readonly TableColumn[] {
  if (sort === "terms") return TERM_ROW_COLUMNS;
  if (sort === "events") return [EVENT_COLUMN, ...TERM_COLUMNS];
  return COLUMNS[sort];
}

/** What a header must say to be one of a sort: all of `has`, one of `oneOf`, none of `not`. */
interface Sign {
  readonly has: readonly string[];
  readonly oneOf?: readonly string[];
  readonly not?: readonly string[];
}

// Where `job` stands no other sort is tried, so every other sign excludes it.
const SIGNS: Readonly<Record<Sort, Sign>> = {
  past_jobs: { has: ["job"], oneOf: COLUMNS.past_jobs.slice(1).map(({ name }) => name) },
  goods: { has: ["item", "per"] },
  price_list: { has: ["supplier", "bag", "price"], not: ["item", "value each"] },
  delivery: { has: ["supplier", "charge"], not: ["bag"] },
  stock: {
    has: ["colour", "count"],
    not: ["price", "bag", "palette", "per", "kind", "name", "hours", "with spares"],
  },
  palettes: { has: ["palette", "colour"], not: ["printed", "quantity", "name", "kind"] },
  pieces: { has: ["name", "kind"] },
  events: {
    has: ["event"],
    oneOf: TERM_COLUMNS.map(({ name }) => name),
    not: ["name", "kind", "colour"],
  },
  work: { has: ["task"], oneOf: ["minutes per balloon", "minutes per piece", "where"] },
  terms: { has: ["term", "value"] },
  vehicles: { has: ["vehicle", "m3"] },
  names: { has: ["written", "means"] },
};

/** Titles of the words that signs exclude, with the aliases that they have in a table of their own. */
const OWNERS: Readonly<Record<string, Sort>> = {
  price: "price_list",
  bag: "price_list",
  printed: "pieces",
  quantity: "pieces",
  colour: "palettes",
};

function titles(sort: Sort, name: string): readonly string[] {
  const column = columnsOfSort(sort).find((candidate) => candidate.name === name);
  return column === undefined ? [name] : titlesOf(column);
}

interface Test {
  readonly sort: Sort;
  readonly has: readonly (readonly string[])[];
  readonly oneOf: readonly (readonly string[])[];
  readonly not: readonly (readonly string[])[];
}

const TESTS: readonly Test[] = Object.entries(SIGNS).map(([key, { has, oneOf = [], not = [] }]) => {
  const sort = key as Sort;
  const excluded = sort === "past_jobs" ? not : [...not, "job"];
  return {
    sort,
    has: has.map((name) => titles(sort, name)),
    oneOf: oneOf.map((name) => titles(sort, name)),
    not: excluded.map((name) => (OWNERS[name] === undefined ? [name] : titles(OWNERS[name], name))),
  };
});

/** Words of which every header has at least two; a row without them is none. */
const SIGN_WORDS = new Set(TESTS.flatMap(({ has, oneOf }) => [...has, ...oneOf].flat()));

/** True where a row may be a header at all, told without much work. */
export function mayBeHeader(headings: readonly Heading[]): boolean {
  return headings.filter(({ text, title }) => SIGN_WORDS.has(title) || SIGN_WORDS.has(text)).length >= 2;
}

/** The sorts whose sign a row of headings carries. */
export function sortsOf(headings: readonly Heading[]): readonly Sort[] {
  const says = (words: readonly string[]): boolean => headings.some((heading) => isTitled(heading, words));
  return TESTS.filter(
    ({ has, oneOf, not }) => has.every(says) && (oneOf.length === 0 || oneOf.some(says)) && !not.some(says),
  ).map(({ sort }) => sort);
}

/** The sort that knows most of these headings, and the columns of its sign that are missing. */
export function nearestSort(
  headings: readonly Heading[],
): { readonly sort: Sort; readonly missing: readonly string[] } | undefined {
  const isSaid = (words: readonly string[]): boolean => headings.some((heading) => isTitled(heading, words));
  let best: { readonly sort: Sort; readonly known: number } | undefined;
  for (const { sort } of TESTS) {
    const known = columnsOfSort(sort).filter((column) => isSaid(titlesOf(column))).length;
    if (known > (best?.known ?? 0)) best = { sort, known };
  }
  if (best === undefined) return undefined;
  const { sort } = best;
  const { has, oneOf = [] } = SIGNS[sort];
  const missing = has.filter((name) => !isSaid(titles(sort, name)));
  const lacksOne = oneOf.length > 0 && !oneOf.some((name) => isSaid(titles(sort, name)));
  return { sort, missing: lacksOne ? [...missing, oneOf[0] ?? ""] : missing };
}
