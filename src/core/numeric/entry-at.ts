/**
 * The entry at an index of a list that must have it. A wrong index is a fault of the program, so it stops the program instead
 * of counting as 0. Innermost loops of searches read their lists themselves: one function that reads lists of many kinds made
 * the search for suppliers take 1.7 times as long and cutting stock 1.4 times.
 *
 * @param list entries, none of them undefined
 * @param index whole, from 0
 * @throws RangeError where the list has no such entry
 */
export function entryAt<Entry>(list: ArrayLike<Entry>, index: number): Entry {
  const entry = list[index];
  if (entry === undefined) throw new RangeError(`there is no entry ${index} among ${list.length}`);
  return entry;
}
