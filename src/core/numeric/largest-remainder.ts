/**
 * Whole numbers in the proportion of shares that add up to a total exactly.
 * Source: largest remainder (Hamilton) method; equal remainders go to the earlier share.
 *
 * @param total whole number, 0 or more
 * @param shares 0 or more each, with a sum above 0; they need not add up to 1
 * @returns one whole number for each share
 */
export function largestRemainder(total: number, shares: readonly number[]): number[] {
  const sum = shares.reduce((before, share) => before + share, 0);
  const quotas = shares.map((share) => (total * share) / sum);
  // The dust keeps a quota that is whole on paper from losing its last piece to binary fractions.
  const counts = quotas.map((quota) => Math.floor(quota + 1e-9));
  const given = counts.reduce((before, count) => before + count, 0);
  const byRemainder = quotas
    .map((quota, index) => ({ index, remainder: Math.round((quota - (counts[index] ?? 0)) * 1e9) }))
    .sort((one, other) => other.remainder - one.remainder || one.index - other.index);
  for (const { index } of byRemainder.slice(0, Math.max(0, total - given)))
    counts[index] = (counts[index] ?? 0) + 1;
  return counts;
}
