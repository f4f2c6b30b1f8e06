import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expressionOf, MATCH, positionOf, SEARCH } from "../../src/sheet/lookups";
import type { CellValue } from "../../src/workbook/model";

const NA = { error: "#N/A" };
/** Kinds that XLOOKUP tells apart, text in either case. */
const value = fc.oneof(
  fc.integer({ min: 0, max: 6 }),
  fc.constantFrom("a", "A", "b", "c", ""),
  fc.boolean(),
  fc.constantFrom(null, NA),
);
const list = fc.array(value, { maxLength: 8 });

/** The value as Excel compares it: within its kind, letters without case. */
function key(cell: CellValue): { readonly kind: string; readonly at: number | string } | undefined {
  if (typeof cell === "string") return { kind: "text", at: cell.toLowerCase() };
  if (typeof cell === "number") return { kind: "number", at: cell };
  return typeof cell === "boolean" ? { kind: "logical", at: Number(cell) } : undefined;
}

/**
 * Microsoft's page XLOOKUP: an exact match; where there is none, the next smaller or larger one; from the first or from
 * the last. Worked out by going through all cells for the value that is nearest.
 */
function expected(
  wanted: CellValue,
  cells: readonly CellValue[],
  mode: number,
  search: number,
): number | undefined {
  const own = key(wanted);
  if (own === undefined) {
    if (wanted !== null) return undefined;
    const blanks = cells.flatMap((cell, at) => (cell === null || cell === "" ? [at] : []));
    return search === 1 ? blanks[0] : blanks.at(-1);
  }
  const alike = cells.flatMap((cell, at) => {
    const other = key(cell);
    return other?.kind === own.kind ? [{ at, value: other.at }] : [];
  });
  const exact = alike.filter((cell) => cell.value === own.at);
  const side = alike.filter((cell) =>
    mode === -1 ? cell.value < own.at : mode === 1 && cell.value > own.at,
  );
  const sorted = [...side].sort((a, b) =>
    a.value === b.value ? 0 : a.value < b.value === (mode === 1) ? -1 : 1,
  );
  const near = sorted.filter((cell) => cell.value === sorted[0]?.value);
  const found = exact.length > 0 ? exact : near;
  return (search === 1 ? found[0] : found.at(-1))?.at;
}

describe("a position", () => {
  it("is where the page says, in lists of any order", () => {
    fc.assert(
      fc.property(
        value,
        list,
        fc.constantFrom(0, -1, 1),
        fc.constantFrom(1, -1),
        (wanted, cells, mode, search) => {
          expect(positionOf(wanted, cells, mode, search)).toBe(expected(wanted, cells, mode, search));
        },
      ),
      { numRuns: 10_000 },
    );
  });

  it("is found by halving where the list is sorted", () => {
    const numbers = fc.uniqueArray(fc.integer({ min: 0, max: 40 }), { maxLength: 12 });
    fc.assert(
      fc.property(
        numbers,
        fc.integer({ min: -1, max: 41 }),
        fc.constantFrom(0, -1, 1),
        fc.boolean(),
        (all, wanted, mode, isDown) => {
          const cells = [...all].sort((a, b) => (isDown ? b - a : a - b));
          const search = isDown ? SEARCH.binaryDown : SEARCH.binary;
          expect(positionOf(wanted, cells, mode, search)).toBe(expected(wanted, cells, mode, 1));
        },
      ),
      { numRuns: 3000 },
    );
  });

  it.each([
    ["r?d", MATCH.wildcards, SEARCH.first, 0],
    ["R*", MATCH.wildcards, SEARCH.last, 3],
    ["r~*d", MATCH.wildcards, SEARCH.first, 2],
    ["r*d", MATCH.exact, SEARCH.first, 2],
    ["red", MATCH.wildcards, SEARCH.last, 1],
    [7, MATCH.wildcards, SEARCH.first, 4],
    ["^R", MATCH.expression, SEARCH.first, 1],
    ["d$", MATCH.expression, SEARCH.last, 3],
    [7, MATCH.expression, SEARCH.first, 4],
    ["[0-9]", MATCH.expression, SEARCH.first, undefined],
    ["x*", MATCH.wildcards, SEARCH.first, undefined],
  ])("of %j by mode %i from %i is %j", (wanted, mode, search, at) => {
    expect(positionOf(wanted, ["red", "Red", "r*d", "round", 7, NA, null], mode, search)).toBe(at);
  });

  it.each([
    [4, 1],
    [-2, 1],
    [0, 0],
    [0, 3],
    [MATCH.wildcards, SEARCH.binary],
    [MATCH.expression, SEARCH.binaryDown],
  ])("has no mode %i with search %i", (mode, search) => {
    expect(() => positionOf(1, [1], mode, search)).toThrow("#VALUE!");
  });

  it("takes no expression that cannot be read", () => {
    expect(() => positionOf("(", ["("], MATCH.expression, SEARCH.first)).toThrow("#VALUE!");
    expect(() => expressionOf("[")).toThrow("#VALUE!");
    expect(expressionOf("A", "i").test("a")).toBe(true);
    // One sign, although it takes two code units.
    expect(/^.$/u.test("🎈") && expressionOf("^.$").test("🎈")).toBe(true);
  });
});
