/**
 * The entry at an index of a list that must have it. A wrong index is a fault of the program, so it stops the program instead
 * of counting as 0.
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

/**
 * What was looked up and must be there: an entry of a map, a column that another check has asked for, or an entry of a list in
 * an innermost loop. Those loops index their lists themselves, since one function that indexes lists of many kinds made the
 * search for suppliers take 1.7 times as long.
 *
 * @param found what the look-up gave
 * @throws RangeError where it gave nothing
 */
export function present<Found>(found: Found | undefined): Found {
  if (found === undefined) throw new RangeError("what must be there was not found");
  return found;
}
