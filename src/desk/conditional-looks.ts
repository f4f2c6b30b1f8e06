import { type CellRange, contains } from "../formula/address";
import type { CellPlace } from "../sheet/engine";
import { isErrorCell } from "../sheet/value-cells";
import type { Comparison } from "../workbook/cell-checks";
import type { CellCondition, Question, ScaleStop, SheetConditions } from "../workbook/conditions";
import type { CellStyle, CellValue } from "../workbook/model";
import { constantOf, formulaFor } from "./cell-rules";
import type { GridValue } from "./grid-reading";
import { barOf, type CellBar } from "./data-bars";
import { type CellIcon, iconOf } from "./icon-sets";
import { compareValues } from "./sorting";
import { colorBetween, stopPosition } from "./color-scale";

/** What conditions change about how a cell looks. */
export interface ConditionalCell extends CellPlace {
  readonly look: Partial<CellStyle>;
  readonly bar?: CellBar;
  readonly icon?: CellIcon;
  /** Whether the bar or the icon stands in place of the number. */
  readonly hidesNumber?: boolean;
}

/** A workbook that is computed. */
export interface ComputedCells {
  value(place: CellPlace): CellValue;
  /** What a formula gives where it stands in a cell. */
  evaluate(place: CellPlace, formula: string): Promise<CellValue>;
}

/** Cells that one condition is asked for one by one; a condition over more is left out and named. */
const MOST_CELLS = 5_000;

/** The part of a sheet in use. */
export interface SheetExtent {
  readonly lastRow: number;
  readonly lastColumn: number;
}

/** Whether a condition asks so many cells that it is left out. */
export function isTooLarge({ ranges }: CellCondition, extent: SheetExtent): boolean {
  const areas = ranges.map((range) => within(range, extent));
  const size = areas.reduce((sum, { firstRow, lastRow, firstColumn, lastColumn }) => {
    return sum + Math.max(0, lastRow - firstRow + 1) * Math.max(0, lastColumn - firstColumn + 1);
  }, 0);
  return size > MOST_CELLS;
}

function within(range: CellRange, { lastRow, lastColumn }: SheetExtent): CellRange {
  return {
    ...range,
    lastRow: Math.min(range.lastRow, lastRow),
    lastColumn: Math.min(range.lastColumn, lastColumn),
  };
}

function* cellsOf(ranges: readonly CellRange[], sheet: number, extent: SheetExtent): Generator<CellPlace> {
  for (const [index, whole] of ranges.entries()) {
    const range = within(whole, extent);
    for (let row = range.firstRow; row <= range.lastRow; row++) {
      for (let column = range.firstColumn; column <= range.lastColumn; column++) {
        // Ranges may overlap; a cell counts once.
        if (!ranges.slice(0, index).some((before) => contains(before, row, column)))
          yield { sheet, row, column };
      }
    }
  }
}

interface Taken {
  readonly place: CellPlace;
  look: Partial<CellStyle>;
  bar?: CellBar;
  icon?: CellIcon;
  hidesNumber?: boolean;
  isLast: boolean;
}

/**
 * How the cells of a sheet look under its conditions: the more important one wins where two speak of the same, as in
 * Excel. Gives other work its turn after every condition; throws the signal's reason where it is stopped.
 */
export async function conditionalLooks(
  sheet: number,
  { conditions }: SheetConditions,
  extent: SheetExtent,
  cells: ComputedCells,
  signal: AbortSignal,
): Promise<readonly ConditionalCell[]> {
  const found = new Map<string, Taken>();
  for (const condition of conditions) {
    if (isTooLarge(condition, extent)) continue;
    await new Promise((resolve) => setTimeout(resolve));
    const places = [...cellsOf(condition.ranges, sheet, extent)];
    const values = places.map((place) => cells.value(place));
    const shown = await shownBy(condition, places, values, cells, signal);
    for (const [index, place] of places.entries()) {
      const more = shown[index];
      const key = `${String(place.row)}/${String(place.column)}`;
      const known = found.get(key);
      if (!more || known?.isLast) continue;
      const [bar, icon] = [known?.bar ?? more.bar, known?.icon ?? more.icon];
      found.set(key, {
        place,
        look: { ...more.look, ...known?.look },
        ...(bar && { bar }),
        ...(icon && { icon }),
        hidesNumber: more.hidesNumber === true || known?.hidesNumber === true,
        isLast: more.isLast === true,
      });
    }
  }
  return [...found.values()].map(({ place, look, bar, icon, hidesNumber }) => ({
    ...place,
    look,
    ...(bar && { bar }),
    ...(icon && { icon }),
    ...(hidesNumber === true && { hidesNumber }),
  }));
}

interface Shown {
  readonly look?: Partial<CellStyle>;
  readonly bar?: CellBar;
  readonly icon?: CellIcon;
  readonly hidesNumber?: boolean;
  readonly isLast?: boolean;
}

/** What one condition shows in each of its cells; undefined where it does not apply. */
async function shownBy(
  condition: CellCondition,
  places: readonly CellPlace[],
  values: readonly CellValue[],
  cells: ComputedCells,
  signal: AbortSignal,
): Promise<readonly (Shown | undefined)[]> {
  const numbers = values.filter((value) => typeof value === "number").sort((a, b) => a - b);
  const [first] = places;
  const at = async ({ kind, value }: ScaleStop): Promise<number | undefined> => {
    const constant = constantOf(value);
    const given = typeof constant === "number" || !first ? constant : await cells.evaluate(first, value);
    return stopPosition(kind, typeof given === "number" ? given : undefined, numbers);
  };
  if ("scale" in condition) {
    const stops = await Promise.all(
      condition.scale.map(async (stop) => ({ at: await at(stop), color: stop.color })),
    );
    return values.map((value) => {
      const fill = typeof value === "number" ? colorBetween(stops, value) : undefined;
      return fill === undefined ? undefined : { look: { fill } };
    });
  }
  if ("bar" in condition) {
    const [low, high] = [await at(condition.bar[0]), await at(condition.bar[1])];
    if (low === undefined || high === undefined) return [];
    return values.map((value) =>
      typeof value === "number"
        ? { bar: barOf(condition, low, high, value), hidesNumber: condition.hidesNumber }
        : undefined,
    );
  }
  if ("icons" in condition) {
    const stops: (number | undefined)[] = [];
    for (const stop of condition.icons) stops.push(await at(stop));
    return values.map((value) => {
      const icon = typeof value === "number" ? iconOf(condition, stops, value) : undefined;
      return icon && { icon, hidesNumber: condition.hidesNumber };
    });
  }
  const { look, isLast } = condition;
  const answers = await answersTo(condition, condition.question, places, values, cells, signal);
  return answers.map((applies) => (applies ? { look, isLast } : undefined));
}

async function answersTo(
  owner: CellCondition,
  question: Question,
  places: readonly CellPlace[],
  values: readonly CellValue[],
  cells: ComputedCells,
  signal: AbortSignal,
): Promise<readonly boolean[]> {
  const known = new Map<string, CellValue>();
  const evaluate = async (formula: string, place: CellPlace): Promise<CellValue> => {
    const constant = constantOf(formula);
    if (constant !== undefined) return constant;
    const text = formulaFor(owner, formula, place.row, place.column);
    const before = known.get(text);
    if (before !== undefined) return before;
    if (known.size % 100 === 99) await new Promise((resolve) => setTimeout(resolve));
    signal.throwIfAborted();
    const value = await cells.evaluate(place, text);
    known.set(text, value);
    return value;
  };
  const one = async (index: number): Promise<boolean> => {
    const [place, value = null] = [places[index], values[index]];
    if (!place) return false;
    if (question.kind === "formula") {
      const given = await evaluate(question.formula, place);
      return given === true || (typeof given === "number" && given !== 0);
    }
    if (question.kind !== "comparison") return false;
    const { comparison, formula1, formula2 } = question;
    const a = await evaluate(formula1, place);
    const b = formula2 === "" ? null : await evaluate(formula2, place);
    return compares(comparison, value, a, b);
  };
  if (question.kind === "formula" || question.kind === "comparison") {
    const answers: boolean[] = [];
    for (const index of places.keys()) answers.push(await one(index));
    return answers;
  }
  return amongOthers(question, values);
}

function amongOthers(
  question: Exclude<Question, { readonly kind: "formula" | "comparison" }>,
  values: readonly CellValue[],
): readonly boolean[] {
  const numbers = values.filter((value) => typeof value === "number");
  switch (question.kind) {
    case "repetition": {
      const keys = values.map((value) => (isErrorCell(value) ? undefined : keyOf(value)));
      const counts = new Map<string, number>();
      for (const key of keys) if (key !== undefined) counts.set(key, (counts.get(key) ?? 0) + 1);
      return keys.map((key) => key !== undefined && (counts.get(key) ?? 0) > 1 === question.isRepeated);
    }
    case "rank": {
      const { count, isPercent, isLowest } = question;
      const sorted = numbers.sort((a, b) => (isLowest ? a - b : b - a));
      const taken = isPercent ? Math.max(1, Math.floor((sorted.length * count) / 100)) : count;
      const limit = sorted[Math.min(taken, sorted.length) - 1] ?? 0;
      return values.map((value) => typeof value === "number" && (isLowest ? value <= limit : value >= limit));
    }
    case "average": {
      const { isAbove, isInclusive, deviations } = question;
      const mean = numbers.reduce((sum, value) => sum + value, 0) / numbers.length;
      const squares = numbers.reduce((sum, value) => sum + (value - mean) ** 2, 0);
      // Excel takes the deviation of a sample, that of STDEV.S.
      const deviation = Math.sqrt(squares / Math.max(1, numbers.length - 1));
      const limit = mean + (isAbove ? deviations : -deviations) * deviation;
      return values.map((value) => {
        if (typeof value !== "number") return false;
        return (isInclusive && value === limit) || (isAbove ? value > limit : value < limit);
      });
    }
  }
}

function keyOf(value: CellValue): string | undefined {
  if (value === null || value === "") return undefined;
  return typeof value === "string" ? `"${value.toLowerCase()}` : String(value);
}

/** Excel's order; a blank counts as 0, as an empty text or as FALSE, by what it is compared with. */
function order(a: GridValue, b: GridValue): number {
  const blank = (value: GridValue, other: GridValue): GridValue =>
    value ?? (typeof other === "string" ? "" : typeof other === "boolean" ? false : 0);
  return compareValues(blank(a, b), blank(b, a));
}

function compares(comparison: Comparison, value: CellValue, a: CellValue, b: CellValue): boolean {
  if (isErrorCell(value) || isErrorCell(a) || isErrorCell(b)) return false;
  const [low, high] = order(a, b) <= 0 ? [a, b] : [b, a];
  switch (comparison) {
    case "between":
      return order(value, low) >= 0 && order(value, high) <= 0;
    case "notBetween":
      return order(value, low) < 0 || order(value, high) > 0;
    case "equal":
      return order(value, a) === 0;
    case "notEqual":
      return order(value, a) !== 0;
    case "lessThan":
      return order(value, a) < 0;
    case "lessThanOrEqual":
      return order(value, a) <= 0;
    case "greaterThan":
      return order(value, a) > 0;
    case "greaterThanOrEqual":
      return order(value, a) >= 0;
  }
}
