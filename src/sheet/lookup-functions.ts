import {
  ErrorType,
  ErrorValueObject,
  type FunctionVariantType,
  NumberValueObject,
} from "@univerjs/engine-formula";
import { cellAddress, MAX_COLUMNS, MAX_ROWS } from "../formula/address";
import type { CellValue } from "../workbook/model";
import { isNothing } from "./corrected-arguments";
import { MATCH, positionOf, SEARCH } from "./lookups";
import {
  type Calculate,
  CellError,
  cellByCell,
  cellsOf,
  isCells,
  numberOf,
  type PlainArgument,
  tableOf,
  textOf,
} from "./plain-functions";
import { codeOf } from "./trust";
import { rowsOf } from "./univer-values";

type Rows = readonly (readonly CellValue[])[];

function rowsIn(argument: PlainArgument): Rows {
  return isCells(argument) ? argument : [[argument]];
}

function lineOf(argument: PlainArgument): readonly CellValue[] {
  const rows = rowsIn(argument);
  if (rows.length > 1 && (rows[0]?.length ?? 0) > 1) throw new CellError(ErrorType.VALUE);
  return rows.flat();
}

function modeOf(argument: PlainArgument | undefined, absent: number): number {
  const [value] = argument === undefined || argument === null ? [absent] : cellsOf(argument);
  return value === null ? absent : Math.trunc(numberOf(value, absent));
}

function failed(code: string | undefined): void {
  if (code !== undefined) throw new CellError(code);
}

/** A lookup that is exact and goes from the first to the last: Univer's own does that through an index. */
function isPlain(variants: readonly (FunctionVariantType | undefined)[]): boolean {
  return variants.every((variant) => variant === undefined || rowsOf(variant)[0]?.[0] === null);
}

/** XMATCH in the modes that Univer computes otherwise. */
export function matching(univer: Calculate): Calculate {
  const ours = tableOf((value = null, list = null, matchMode, searchMode) => {
    const line = lineOf(list);
    const [match, search] = [modeOf(matchMode, MATCH.exact), modeOf(searchMode, SEARCH.first)];
    return rowsIn(value).map((row) =>
      row.map((wanted) => {
        if (codeOf(wanted) !== undefined) return wanted;
        const at = positionOf(wanted, line, match, search);
        return at === undefined ? { error: ErrorType.NA } : at + 1;
      }),
    );
  });
  return (...variants) => (isPlain(variants.slice(2)) ? univer : ours)(...variants);
}

/** XLOOKUP in the modes that Univer computes otherwise. */
export function lookingUp(univer: Calculate): Calculate {
  const ours = tableOf((value = null, list = null, results = null, ifNotFound, matchMode, searchMode) => {
    const line = lineOf(list);
    const table = rowsIn(results);
    const isColumn = rowsIn(list).length > 1 || line.length === 1;
    const wanted = rowsIn(value).flat();
    const [match, search] = [modeOf(matchMode, MATCH.exact), modeOf(searchMode, SEARCH.first)];
    const none = ifNotFound === undefined || ifNotFound === null ? undefined : rowsIn(ifNotFound);
    const found = (item: CellValue): Rows => {
      failed(codeOf(item));
      const at = positionOf(item, line, match, search);
      if (at === undefined) return none ?? [[{ error: ErrorType.NA }]];
      return isColumn ? [table[at] ?? []] : table.map((row) => [row[at] ?? null]);
    };
    const [only] = wanted;
    if (wanted.length === 1 && only !== undefined) return found(only);
    return rowsIn(value).map((row) => row.map((item) => found(item)[0]?.[0] ?? null));
  });
  return (...variants) => {
    const wanted = variants.slice(0, 1).flatMap(rowsOf).flat();
    const isFailing = wanted.length === 1 && codeOf(wanted[0] ?? null) !== undefined;
    return (isPlain(variants.slice(4)) && !isFailing ? univer : ours)(...variants);
  };
}

/**
 * MATCH, VLOOKUP or HLOOKUP: exact where only the comma of the last argument stands there; a near match looks at values of
 * the kind of the wanted one only, and MATCH finds the last of equal numbers.
 */
export function nearMatching(univer: Calculate, name: string): Calculate {
  const howAt = name === "MATCH" ? 2 : 3;
  return (...variants) => {
    const given = variants.map((variant, at) =>
      at === howAt && isNothing(variant) ? NumberValueObject.create(0) : variant,
    );
    const [wanted = [], where = [], ...rest] = given.map(rowsOf);
    const how = rest[howAt - 2]?.[0]?.[0] ?? 1;
    const value = wanted.length === 1 && wanted[0]?.length === 1 ? (wanted[0][0] ?? null) : null;
    if (Number(how) === 0 || typeof value === "object") return univer(...given);
    const list =
      name === "MATCH" ? where.flat() : name === "VLOOKUP" ? where.map(([first = null]) => first) : where[0];
    const isMet = list?.some((cell) => typeof cell === typeof value || codeOf(cell) !== undefined);
    if (isMet !== true) return ErrorValueObject.create(ErrorType.NA);
    if (name !== "MATCH" || Number(how) < 0 || list === undefined || !isAscending(list))
      return univer(...given);
    const at = list.findLastIndex((cell) => Number(cell) <= Number(value));
    return at < 0 ? ErrorValueObject.create(ErrorType.NA) : NumberValueObject.create(at + 1);
  };
}

/** Whether a list holds numbers only, none of them below the one before it. */
function isAscending(list: readonly CellValue[]): boolean {
  return list.every((cell, at) => typeof cell === "number" && (at === 0 || cell >= Number(list[at - 1])));
}

/** ADDRESS for cells that exist; others are `#VALUE!`. */
export function addressing(univer: Calculate): Calculate {
  const check = cellByCell((row, column) => {
    const [r, c] = [Math.trunc(numberOf(row)), Math.trunc(numberOf(column))];
    if (r < 1 || r > MAX_ROWS || c < 1 || c > MAX_COLUMNS) throw new CellError(ErrorType.VALUE);
    return cellAddress(r - 1, c - 1);
  });
  return (...variants) => {
    const [row, column] = variants;
    if (row === undefined || column === undefined || row.isArray() !== column.isArray())
      return univer(...variants);
    const found = check(row, column);
    return found.isError() ? found : univer(...variants);
  };
}

/** What CELL can tell about. */
const CELL_INFO = new Set(
  "address col color contents filename format parentheses prefix protect row type width".split(" "),
);

/** CELL of something that cannot be asked for is `#VALUE!`. */
export function cellInfo(univer: Calculate): Calculate {
  return (...variants) => {
    const [asked] = variants;
    const value = asked === undefined ? null : (rowsOf(asked)[0]?.[0] ?? null);
    if (codeOf(value) === undefined && !CELL_INFO.has(textOf(value).toLowerCase())) {
      return tableOf(() => [[{ error: ErrorType.VALUE }]])();
    }
    return univer(...variants);
  };
}
