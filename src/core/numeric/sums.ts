/**
 * Sum that keeps the digits that plain addition loses. Source: Neumaier, ZAMM 54 (1974) 39.
 *
 * @param values any finite numbers
 * @returns their sum, 0 of none, never -0
 */
export function sum(values: Iterable<number>): number {
  let total = 0;
  let lost = 0;
  for (const value of values) {
    const next = total + value;
    lost += Math.abs(total) >= Math.abs(value) ? total - next + value : value - next + total;
    total = next;
  }
  return total + lost;
}
