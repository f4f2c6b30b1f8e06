/**
 * Keeps the last results by a key that tells all they depend on. Whoever gets a result leaves it as it is.
 *
 * @param most results that are kept; those asked for longest ago are forgotten first
 * @returns gives the result of a key, made where it is not kept
 */
export function keptByKey<Result>(most: number): (key: string, make: () => Result) => Result {
  const results = new Map<string, Result>();
  return (key, make) => {
    const result = results.has(key) ? (results.get(key) as Result) : make();
    results.delete(key);
    results.set(key, result);
    for (const oldest of results.keys()) {
      if (results.size > most) results.delete(oldest);
    }
    return result;
  };
}
