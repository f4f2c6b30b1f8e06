/**
 * Groups values by key, groups and members in the order they come.
 *
 * @param values any values
 * @param keyOf the key of a value
 * @returns non-empty groups by key
 */
export function grouped<Value, Key>(
  values: Iterable<Value>,
  keyOf: (value: Value) => Key,
): ReadonlyMap<Key, readonly [Value, ...Value[]]> {
  const groups = new Map<Key, [Value, ...Value[]]>();
  for (const value of values) {
    const key = keyOf(value);
    const group = groups.get(key);
    if (group) group.push(value);
    else groups.set(key, [value]);
  }
  return groups;
}
