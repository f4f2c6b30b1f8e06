/**
 * A function that gives again what it gave before for equal arguments, without computing it.
 *
 * @param compute a function without side effects, of arguments that JSON tells apart; whoever gets a result leaves it as it is
 * @param most results that are kept; the ones made first are forgotten first
 * @returns the function
 */
export function remembered<Args extends readonly unknown[], Result>(
  compute: (...args: Args) => Result,
  most: number,
): (...args: Args) => Result {
  const results = new Map<string, Result>();
  return (...args) => {
    const key = JSON.stringify(args);
    const known = results.get(key);
    if (known !== undefined) return known;
    const result = compute(...args);
    for (const oldest of results.keys()) {
      if (results.size >= most) results.delete(oldest);
    }
    results.set(key, result);
    return result;
  };
}
