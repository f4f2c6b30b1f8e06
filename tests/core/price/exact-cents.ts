/** Whole cents x times / over in exact integers, half a cent away from zero; for amounts of 0 or more. */
export function nearestCents(cents: number, times: number, over: number): number {
  const [top, bottom] = [BigInt(cents) * BigInt(times), BigInt(over)];
  return Number((2n * top + bottom) / (2n * bottom));
}

/** The same, rounded up. */
export function lowestCents(cents: number, times: number, over: number): number {
  const [top, bottom] = [BigInt(cents) * BigInt(times), BigInt(over)];
  return Number((top + bottom - 1n) / bottom);
}
