import {
  type ArrayValueObject,
  type BaseFunction,
  type BaseValueObject,
  ErrorType,
  ErrorValueObject,
  NullValueObject,
} from "@univerjs/engine-formula";
import { isPattern } from "./wildcards";

type Key = number | string;

interface Position {
  readonly row: number;
  readonly column: number;
}

/** Where each value of a row or column stands first; arrays stay the same objects as long as their cells do. */
const indexes = new WeakMap<ArrayValueObject, ReadonlyMap<Key, Position>>();

/** Lets a lookup function find exact matches through an index instead of comparing every cell each time. */
export function withExactIndex(executor: BaseFunction): void {
  const compareAll = executor.equalSearch.bind(executor);
  executor.equalSearch = (value, search, result, isFirst = true) => {
    const position = isFirst ? firstMatch(value, search) : undefined;
    if (position === undefined) return compareAll(value, search, result, isFirst);
    return position === null
      ? notFound()
      : (result.get(position.row, position.column) ?? NullValueObject.create());
  };
  const compareAllExpanding = executor.equalSearchExpand.bind(executor);
  executor.equalSearchExpand = (value, search, result, isFirst = true, axis = 0) => {
    const position = isFirst ? firstMatch(value, search) : undefined;
    if (position === undefined) return compareAllExpanding(value, search, result, isFirst, axis);
    if (position === null) return notFound();
    const line =
      axis === 0
        ? result.slice([position.row, position.row + 1])
        : result.slice(undefined, [position.column, position.column + 1]);
    return line ?? notFound();
  };
}

function notFound(): ErrorValueObject {
  return ErrorValueObject.create(ErrorType.NA);
}

/** The first equal cell; null where there is none, undefined where an index does not tell. */
function firstMatch(value: BaseValueObject, search: ArrayValueObject): Position | null | undefined {
  const key = keyOf(value);
  const isLine = search.getRowCount() === 1 || search.getColumnCount() === 1;
  const isSpelt = typeof key === "string" && isPattern(key);
  if (key === undefined || isSpelt || !isLine) return undefined;
  let index = indexes.get(search);
  if (index === undefined) {
    index = indexOf(search);
    indexes.set(search, index);
  }
  return index.get(key) ?? null;
}

function indexOf(search: ArrayValueObject): ReadonlyMap<Key, Position> {
  const index = new Map<Key, Position>();
  for (const [row, cells] of search.getArrayValue().entries()) {
    for (let column = 0; column < search.getColumnCount(); column++) {
      const cell = cells[column];
      const key = cell ? keyOf(cell) : undefined;
      if (key !== undefined && !index.has(key)) index.set(key, { row, column });
    }
  }
  return index;
}

/** Numbers match numbers, text matches text in any case, logical values match each other. */
function keyOf(value: BaseValueObject): Key | undefined {
  if (value.isArray() || value.isNull() || value.isError() || value.isLambda()) return undefined;
  const content = value.getValue();
  if (value.isBoolean()) return `logical:${String(Boolean(content))}`;
  return typeof content === "number" ? content : `text:${String(content).toLowerCase()}`;
}
