import { sum } from "./sums";

/**
 * Sums amounts by key.
 *
 * @param entries keys with their amounts
 * @returns the sums, in the order in which keys come first
 */
export function tally<Key>(entries: Iterable<readonly [Key, number]>): ReadonlyMap<Key, number> {
  const amounts = new Map<Key, number[]>();
  for (const [key, amount] of entries) {
    const known = amounts.get(key);
    if (known === undefined) amounts.set(key, [amount]);
    else known.push(amount);
  }
  return new Map([...amounts].map(([key, ofKey]) => [key, sum(ofKey)]));
}

/**
 * What is counted under a key, where having no row means none. Only for counts that may be missing: what must be there is
 * looked up by `present`.
 *
 * @param counts by key
 * @param key any
 * @returns the count, 0 where the key is not among them
 */
export function countOf<Key>(counts: ReadonlyMap<Key, number>, key: Key): number {
  return orNone(counts.get(key));
}

/**
 * An amount that is left out where there is none.
 *
 * @param amount any
 * @returns the amount, 0 where it is left out
 */
export function orNone<Amount>(amount: Amount | undefined): Amount | 0 {
  return amount ?? 0;
}
