const SPACES = /[\s\u00a0\u200b\u2060\ufeff]+/g;

/** Names shorter than this differ by a letter for good reasons (red, tan). */
const SHORTEST_LIKE = 4;

/** How two names that are not the same look alike. */
export type Likeness = "spaces or case" | "another way to write it" | "one letter" | "two letters swapped";

/** Marks that price lists put between words, or behind a short form. */
const MARKS = /[.,_/-]+/g;

/** Short forms and spellings of price lists. Source: common practice. */
const WORDS: Readonly<Record<string, string>> = {
  lt: "light",
  dk: "dark",
  drk: "dark",
  med: "medium",
  gray: "grey",
  gry: "grey",
};
const SHORT_FORM = /\b(?:lt|dk|drk|med|gray|gry)\b/g;

/** A name without outer spaces, with every kind of space as one plain space, in one case and one Unicode form. */
function plainKey(name: string): string {
  return name.normalize("NFC").replace(SPACES, " ").trim().toLowerCase();
}

/**
 * What names are matched by: without outer spaces, with every kind of space and mark as one plain space, in one case and one
 * Unicode form, short forms written out. Two names are the same where their keys are equal.
 *
 * @param name as typed
 * @returns its key
 */
export function nameKey(name: string): string {
  const plain = plainKey(name);
  const words = plain.replaceAll("&", " and ").replace(MARKS, " ").replace(SPACES, " ").trim();
  return words.replace(SHORT_FORM, (word) => WORDS[word] ?? word) || plain;
}

/**
 * Tells whether two names are one item only because short forms and marks are read as what they stand for.
 *
 * @param one as typed
 * @param other as typed
 * @returns true where their keys are equal and more than spaces and case differs
 */
export function isRespelled(one: string, other: string): boolean {
  return plainKey(one) !== plainKey(other) && nameKey(one) === nameKey(other);
}

/**
 * Tells whether a name looks like a slip of another: one letter more, less or other, or two neighbours swapped, in names
 * of at least four letters. Numbers are never slips of each other, since 11 and 12 are both sizes.
 * Source: distance 1 of Damerau (1964).
 *
 * @param one key of a name
 * @param other key of a name
 * @returns how they look alike, or undefined where they are the same or differ by more
 */
export function likeness(one: string, other: string): "one letter" | "two letters swapped" | undefined {
  const [long, short] = one.length >= other.length ? [one, other] : [other, one];
  if (long === short || long.length < SHORTEST_LIKE || long.length - short.length > 1) return undefined;
  if (digitsOf(long) !== digitsOf(short)) return undefined;
  let from = 0;
  while (from < short.length && long[from] === short[from]) from += 1;
  const rest = (text: string, skipped: number): string => text.slice(from + skipped);
  if (long.length > short.length) return rest(long, 1) === rest(short, 0) ? "one letter" : undefined;
  if (rest(long, 1) === rest(short, 1)) return "one letter";
  const isSwapped =
    long[from] === short[from + 1] && long[from + 1] === short[from] && rest(long, 2) === rest(short, 2);
  return isSwapped ? "two letters swapped" : undefined;
}

function digitsOf(text: string): string {
  return text.replace(/\D/g, "");
}

/**
 * The names that look like a slip of one name, for hints beside a row.
 *
 * @param name as typed
 * @param known names to compare with, as typed
 * @returns those that look alike, each spelling once, in order
 */
export function lookAlikes(name: string, known: Iterable<string>): readonly string[] {
  return lookAlikesAmong(known)(name);
}

/**
 * `lookAlikes` for many names against the same ones: they are read once, so that long lists stay quick.
 *
 * @param known names to compare with, as typed
 * @returns finds those that look like a slip of a name, each spelling once, in order
 */
export function lookAlikesAmong(known: Iterable<string>): (name: string) => readonly string[] {
  const byKey = new Map<string, { readonly name: string; readonly place: number }>();
  for (const name of known) {
    const key = nameKey(name);
    if (!byKey.has(key)) byKey.set(key, { name, place: byKey.size });
  }
  const keysByVariant = new Map<string, string[]>();
  for (const key of byKey.keys()) {
    for (const variant of slipVariants(key)) {
      const keys = keysByVariant.get(variant);
      if (keys === undefined) keysByVariant.set(variant, [key]);
      else keys.push(key);
    }
  }
  return (name) => {
    const key = nameKey(name);
    const near = new Set([...slipVariants(key)].flatMap((variant) => keysByVariant.get(variant) ?? []));
    return [...near]
      .filter((candidate) => likeness(key, candidate) !== undefined)
      .flatMap((candidate) => byKey.get(candidate) ?? [])
      .sort((a, b) => a.place - b.place)
      .map((found) => found.name);
  };
}

/** Two spellings that look like one name. */
export interface SimilarPair {
  readonly name: string;
  /** Place of its first cell, from 1. */
  readonly place: number;
  readonly like: string;
  readonly likePlace: number;
  readonly difference: Likeness;
}

/**
 * SIMILAR_PLAN: names that look like the same one spelled two ways. Spellings that differ only in spaces or case match
 * each other everywhere and are listed so that they can be tidied, against the first spelling; slips of a letter match nowhere.
 *
 * @param names as typed, blank ones left out of the comparison
 * @returns pairs of spellings in the order of their second, each spelling at its first place
 */
export function similarNames(names: readonly string[]): readonly SimilarPair[] {
  const seen = new Set<string>();
  const firstOfKey = new Map<string, { readonly name: string; readonly place: number }>();
  const byVariant = new Map<string, string[]>();
  const pairs: SimilarPair[] = [];
  names.forEach((name, index) => {
    const key = nameKey(name);
    if (key === "" || seen.has(name)) return;
    seen.add(name);
    const place = index + 1;
    const add = (likeKey: string, difference: Likeness | undefined): void => {
      const like = firstOfKey.get(likeKey);
      if (like && difference) pairs.push({ name, place, like: like.name, likePlace: like.place, difference });
    };
    const first = firstOfKey.get(key);
    if (first !== undefined) {
      add(key, isRespelled(first.name, name) ? "another way to write it" : "spaces or case");
      return;
    }
    const candidates = new Set<string>();
    for (const variant of slipVariants(key)) {
      const group = byVariant.get(variant) ?? [];
      for (const candidate of group) candidates.add(candidate);
      group.push(key);
      byVariant.set(variant, group);
    }
    for (const candidate of candidates) add(candidate, likeness(candidate, key));
    firstOfKey.set(key, { name, place });
  });
  return pairs.sort((a, b) => a.place - b.place || a.likePlace - b.likePlace);
}

/** A key and all it becomes with one letter taken out: two keys one slip apart share at least one of these. */
function slipVariants(key: string): ReadonlySet<string> {
  const variants = new Set([key]);
  for (let i = 0; i < key.length; i += 1) variants.add(key.slice(0, i) + key.slice(i + 1));
  return variants;
}
