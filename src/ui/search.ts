import type { CatalogueFunction } from "../functions/definition";

/** A function found, best first. */
export interface Match {
  readonly fn: CatalogueFunction;
  readonly score: number;
}

/** Finds functions by words; an empty query finds all of them in catalogue order. */
export type Search = (query: string) => readonly Match[];

// Words of questions that say nothing about which function answers.
const STOP_WORDS = new Set(
  (
    "a an and any are as at be by can do does for from get give gives have how i if in into is it its long many me much " +
    "my need needs of on one or our shall should so tell that the their them there they this to up us we what when where " +
    "which will with would you your"
  ).split(" "),
);
const FIELD_WEIGHTS = { name: 4, asks: 3, text: 2, params: 1 };
const QUALITY = { exact: 1, start: 0.7, typo: 0.5 };
// A query that is one of a function's own questions beats any sum of single words.
const QUESTION_WEIGHT = 12;
const NAME_WEIGHT = 2;
const SHORTEST_WITH_TYPO = 4;
const WEAKEST_SHARE_OF_BEST = 0.2;

/** The stem of an English word: plural and verb endings off, so that `prices`, `priced` and `pricing` are one word. */
export function stem(word: string): string {
  let root = word;
  if (root.length > 4 && root.endsWith("ies")) root = `${root.slice(0, -3)}y`;
  else if (root.length > 4 && /(?:ss|x|z|ch|sh)es$/.test(root)) root = root.slice(0, -2);
  else if (root.length > 3 && /[^su]s$/.test(root)) root = root.slice(0, -1);
  if (root.length > 5 && root.endsWith("ing")) root = root.slice(0, -3);
  else if (root.length > 4 && root.endsWith("ed")) root = root.slice(0, -2);
  return root.length > 3 && root.endsWith("e") ? root.slice(0, -1) : root;
}

function words(text: string): readonly string[] {
  return (
    text
      .replaceAll("_", " ")
      .toLowerCase()
      .normalize("NFKD")
      .replace(/\p{M}/gu, "")
      .match(/[\p{L}\p{N}]+/gu) ?? []
  );
}

function termsOf(text: string): readonly string[] {
  // The words that ask for a number are stop words, the question itself is not: our counts are called so.
  const all = words(text.replace(/\bhow many\b|\bnumber of\b/gi, "count"));
  const telling = all.filter((word) => !STOP_WORDS.has(word));
  return [...new Set((telling.length > 0 ? telling : all).map(stem))];
}

/** True where one insertion, deletion, replacement or swap of neighbours turns one word into the other. */
export function isOneTypoApart(a: string, b: string): boolean {
  if (a === b || Math.abs(a.length - b.length) > 1) return false;
  let start = 0;
  while (start < a.length && a[start] === b[start]) start += 1;
  const restA = a.slice(start);
  const restB = b.slice(start);
  if (restA.length !== restB.length) {
    return restA.length > restB.length ? restA.slice(1) === restB : restB.slice(1) === restA;
  }
  const isReplaced = restA.slice(1) === restB.slice(1);
  const isSwapped = restA[0] === restB[1] && restA[1] === restB[0] && restA.slice(2) === restB.slice(2);
  return isReplaced || isSwapped;
}

function quality(term: string, word: string): number {
  if (term === word) return QUALITY.exact;
  if (term.length >= 2 && word.startsWith(term)) return QUALITY.start;
  return term.length >= SHORTEST_WITH_TYPO && isOneTypoApart(term, word) ? QUALITY.typo : 0;
}

function best(term: string, candidates: Iterable<string>): number {
  let found = 0;
  for (const word of candidates) found = Math.max(found, quality(term, word));
  return found;
}

interface Entry {
  readonly fn: CatalogueFunction;
  readonly fields: readonly { readonly weight: number; readonly terms: ReadonlySet<string> }[];
  readonly name: string;
  readonly questions: readonly (readonly string[])[];
}

function entryOf(fn: CatalogueFunction): Entry {
  const field = (weight: number, texts: readonly string[]): Entry["fields"][number] => ({
    weight,
    terms: new Set(texts.flatMap(termsOf)),
  });
  const params = fn.params.flatMap((param) => [
    param.name,
    param.text,
    ...(param.kind === "choice" ? param.options : []),
    ...(param.kind === "table" ? param.columns.map((column) => column.name) : []),
  ]);
  return {
    fn,
    fields: [
      field(FIELD_WEIGHTS.name, [fn.name]),
      field(FIELD_WEIGHTS.asks, fn.asks),
      field(FIELD_WEIGHTS.text, [fn.text, fn.category]),
      field(FIELD_WEIGHTS.params, params),
    ],
    name: words(fn.name).join(" "),
    questions: [fn.name, ...fn.asks].map(termsOf),
  };
}

/** How well a query and a question cover each other, 0 to 1; rare words count more. */
function agreement(
  query: readonly string[],
  question: readonly string[],
  rarity: (term: string) => number,
): number {
  const covered = (terms: readonly string[], others: readonly string[]): number => {
    const total = terms.reduce((sum, term) => sum + rarity(term), 0);
    const found = terms.reduce((sum, term) => sum + rarity(term) * best(term, others), 0);
    return total === 0 ? 0 : found / total;
  };
  return covered(query, question) * covered(question, query);
}

/**
 * Makes a search over a catalogue by the words of the job: names, what a function answers, the questions it answers, and
 * its parameters. Functions that another one has replaced are left out. Plurals, beginnings of words and single slips of the keyboard are found; order is stable.
 */
export function makeSearch(all: readonly CatalogueFunction[]): Search {
  const catalogue = all.filter((fn) => fn.replacedBy === undefined);
  const entries = catalogue.map(entryOf);
  const known = new Map<string, number>();
  for (const { fields } of entries) {
    for (const term of new Set(fields.flatMap(({ terms }) => [...terms])))
      known.set(term, (known.get(term) ?? 0) + 1);
  }
  const rarity = (term: string): number => Math.log(1 + entries.length / (known.get(term) ?? 1));
  return (query) => {
    const terms = termsOf(query);
    if (terms.length === 0) return catalogue.map((fn) => ({ fn, score: 0 }));
    const whole = words(query).join(" ");
    const scored = entries.map(({ fn, fields, name, questions }) => {
      const bare = terms.reduce(
        (sum, term) =>
          sum + rarity(term) * Math.max(...fields.map((field) => field.weight * best(term, field.terms))),
        0,
      );
      const question = Math.max(0, ...questions.map((asked) => agreement(terms, asked, rarity)));
      const ownName = whole === name ? NAME_WEIGHT : 1;
      return { fn, score: (bare / terms.length) * (1 + QUESTION_WEIGHT * question) * ownName };
    });
    const top = Math.max(...scored.map(({ score }) => score));
    return scored
      .filter(({ score }) => score > 0 && score >= top * WEAKEST_SHARE_OF_BEST)
      .sort((a, b) => b.score - a.score);
  };
}
