import { invalid } from "../../core/calc-error";
import type { Line, Sort } from "../../core/event/job";
import { nameKey, lookAlikes } from "../../core/palette/names";
import { unitNamed, UNITS, type UnitSymbol } from "../../core/units";
import { isTitled, located, readHeading, titlesOf, type Located } from "../headings";
import { plainCell } from "../incoming";
import type { TableColumn } from "../param";
import { isSectionTitle } from "../read-range";
import { readRow, totalText, type RowReading } from "../read-row";
import { isBlank, refusedZero, type ScalarValue } from "../read-scalar";
import { comparable, readNumber } from "../read-text";
import type { Recognised } from "./recognise";
import { columnsOfSort } from "./sorts";
import { TERM_COLUMNS } from "./terms";

/** The unit that a bare length or distance has, where the terms say so. */
export interface BareUnits {
  readonly lengths: "m" | "ft";
  readonly distances: "km" | "mi";
}

/** The rows of a range as core takes them, and a sentence for each sort of row that was left out. */
export interface RangeLines {
  readonly lines: readonly Line<Record<string, ScalarValue>>[];
  readonly notes: readonly string[];
}

const TITLED: ReadonlySet<Sort> = new Set(["price_list", "stock"]);

/** Reads every row of a range; `name` is how sentences call it, such as `price_list 2`. */
export function linesOf({ sort, spots, body }: Recognised, name: string, units: BareUnits): RangeLines {
  const lines: Line<Record<string, ScalarValue>>[] = [];
  const totals: number[] = [];
  const titles: number[] = [];
  const inUnits = spots.map((spot) => ({ ...spot, ...bareUnit(spot, units) }));
  for (const filled of body) {
    const place = `${name} row ${filled.row}`;
    if (totalText(filled.cells) !== undefined) totals.push(filled.row);
    else if (TITLED.has(sort) && isSectionTitle(filled.cells)) titles.push(filled.row);
    else {
      const reading = readingOf(sort, place, inUnits, filled.cells, units);
      if (reading !== undefined) lines.push({ place, row: filled.row, ...reading });
    }
  }
  return {
    lines: checked(sort, lines),
    notes: [skipped(name, totals, "a total"), skipped(name, titles, "a title")].filter((note) => note !== ""),
  };
}

function skipped(name: string, rows: readonly number[], what: string): string {
  if (rows.length === 0) return "";
  const [first, ...rest] = rows;
  return rest.length === 0
    ? `${name} row ${first} is left out as ${what}`
    : `${name} rows ${rows.join(", ")} are left out, each as ${what}`;
}

function bareUnit(
  { column, unit }: Located,
  { lengths, distances }: BareUnits,
): { readonly unit?: UnitSymbol } {
  if (unit !== undefined) return { unit };
  if (column.kind !== "length") return {};
  if (column.unit === "km") return distances === "mi" ? { unit: "mi" } : {};
  return lengths === "ft" && column.unit === undefined ? { unit: "ft" } : {};
}

function readingOf(
  sort: Sort,
  place: string,
  spots: readonly Located[],
  cells: readonly unknown[],
  units: BareUnits,
): RowReading | undefined {
  if (sort === "terms") return termReading(place, spots, cells, units);
  const columns = columnsOfSort(sort);
  if (sort === "goods") return goodsReading(place, columns, spots, cells);
  const coded = spots.some(({ column }) => column.name === "printed") ? sizeCode(spots, cells) : undefined;
  if (coded === undefined) return readRow(place, columns, spots, cells);
  const { code, index, isLong } = coded;
  if (!isLong) {
    const { cells: read, doubts } = readRow(place, columns, spots, cells);
    const hinted = doubts.map((doubt) =>
      doubt.startsWith(`${place}: printed `)
        ? `${doubt}; a size code such as ${code} needs type long`
        : doubt,
    );
    return { cells: read, doubts: hinted };
  }
  const length = cells.map((cell, at) => (at === index ? `${code % 100} in` : cell));
  const { cells: read, doubts } = readRow(place, columns, spots, length);
  return { cells: { ...read, code }, doubts };
}

function cellOf(spots: readonly Located[], cells: readonly unknown[], name: string): unknown {
  const spot = spots.find(({ column }) => column.name === name);
  return spot === undefined ? undefined : plainCell(cells[spot.index]);
}

function wordOf(spots: readonly Located[], cells: readonly unknown[], name: string): string {
  const cell = cellOf(spots, cells, name);
  return typeof cell === "string" ? comparable(cell) : "";
}

/** A trade code of a long balloon where its size stands: inches across times 100 plus inches of length. */
function sizeCode(
  spots: readonly Located[],
  cells: readonly unknown[],
): { readonly code: number; readonly index: number; readonly isLong: boolean } | undefined {
  const spot = spots.find(({ column }) => column.name === "printed");
  if (spot === undefined || !(spot.unit === undefined || spot.unit === "in")) return undefined;
  const cell = plainCell(cells[spot.index]);
  const reading =
    typeof cell === "string" ? readNumber(cell) : ({ kind: "number", value: Number(cell) } as const);
  if (typeof cell === "boolean" || reading.kind !== "number") return undefined;
  const code = reading.value;
  if (!(Number.isInteger(code) && code > 120 && code <= 999 && code % 100 > 0)) return undefined;
  const isLong = wordOf(spots, cells, "type") === "long" || wordOf(spots, cells, "kind") === "sleeve";
  return { code, index: spot.index, isLong };
}

/** Helium comes in any unit of volume and is counted in litres. */
function goodsReading(
  place: string,
  columns: readonly TableColumn[],
  spots: readonly Located[],
  cells: readonly unknown[],
): RowReading {
  const price = spots.some(({ column }) => column.name === "price");
  const read = readRow(place, columns, spots, cells);
  if (wordOf(spots, cells, "per") !== "helium litre") return withPrice(place, columns, price, read);
  const typed = cellOf(spots, cells, "unit");
  const named = typeof typed === "string" ? unitNamed(typed) : undefined;
  const unit = named !== undefined && UNITS[named].dimension === "volume" ? named : "L";
  const volumes = ["amount", "pack"].map((name): TableColumn => {
    const above = name === "pack" ? { above: 0 } : {};
    return { name, kind: "volume", unit, optional: true, zero: "default", ...above };
  });
  const volumeSpots = volumes.flatMap((column) => {
    const spot = spots.find((candidate) => candidate.column.name === column.name);
    return spot === undefined ? [] : [{ column, index: spot.index, ...(spot.unit && { unit: spot.unit }) }];
  });
  const litres = readRow(place, volumes, volumeSpots, cells);
  const isVolume = (doubt: string): boolean =>
    volumes.some(({ name }) => doubt.startsWith(`${place}: ${name} `));
  const inLitres = Object.fromEntries(
    Object.entries(litres.cells).map(([name, value]) => [name, Number(value) * 1000]),
  );
  return withPrice(place, columns, price, {
    cells: { ...read.cells, ...inLitres, unit: "L" },
    doubts: [...read.doubts.filter((doubt) => !isVolume(doubt)), ...litres.doubts],
  });
}

/** A price that has no column is as missing as one that has no cell. */
function withPrice(
  place: string,
  columns: readonly TableColumn[],
  hasColumn: boolean,
  read: RowReading,
): RowReading {
  const column = columns.find(({ name }) => name === "price");
  if (hasColumn || column === undefined || read.doubts.some((doubt) => doubt.startsWith(`${place}: price `)))
    return read;
  return {
    ...read,
    doubts: [...read.doubts, refusedZero(`${place}: price`, column, "type the number").message],
  };
}

const TERM_NAMES = TERM_COLUMNS.map(({ name }) => name);

function termReading(
  place: string,
  spots: readonly Located[],
  cells: readonly unknown[],
  units: BareUnits,
): RowReading | undefined {
  const term = cellOf(spots, cells, "term");
  const value = cellOf(spots, cells, "value");
  if (isBlank(term) || term === 0) {
    if (isBlank(value) || value === 0) return undefined;
    return { cells: {}, doubts: [invalid(`${place}: term`, "be given", undefined).message] };
  }
  const heading = readHeading(term);
  const column = TERM_COLUMNS.find((candidate) => isTitled(heading, titlesOf(candidate)));
  if (column === undefined) {
    const [like] = lookAlikes(typeof term === "string" ? term : "", TERM_NAMES);
    const hint = like === undefined ? undefined : `did you mean "${like}"`;
    return { cells: {}, doubts: [invalid(`${place}: term`, "be one of the terms", term, hint).message] };
  }
  const spot = located(column, 0, heading);
  const read = readRow(place, [column], [{ ...spot, ...bareUnit(spot, units) }], [value]);
  const known = read.cells[column.name];
  return { cells: { term: column.name, ...(known !== undefined && { value: known }) }, doubts: read.doubts };
}

type ReadLine = Line<Record<string, ScalarValue>>;

/** What can be told only with the other rows of the table at hand. */
function checked(sort: Sort, lines: readonly ReadLine[]): readonly ReadLine[] {
  if (sort === "pieces") return withQuantities(lines);
  return sort === "past_jobs" ? lines.map(withinTaken) : lines;
}

/** No more balloons can pop or come back than were taken. */
function withinTaken(line: ReadLine): ReadLine {
  const { taken, popped, left } = line.cells;
  if (typeof taken !== "number") return line;
  const over = Object.entries({ popped, left }).flatMap(([name, count]) =>
    typeof count === "number" && count > taken
      ? [invalid(`${line.place}: ${name}`, `be at most the ${taken} taken`, count).message]
      : [],
  );
  return over.length === 0 ? line : { ...line, doubts: [...line.doubts, ...over] };
}

/**
 * A piece says how many it is in any one of its rows; a bare 0 in another is then a blank cell, and is refused only where no
 * row of the piece has a number.
 */
function withQuantities(lines: readonly ReadLine[]): readonly ReadLine[] {
  const key = (...parts: readonly unknown[]): string =>
    parts.map((part) => nameKey(String(part ?? ""))).join("\n");
  const counted = new Set(
    lines
      .filter(({ cells }) => cells["quantity"] !== undefined)
      .map(({ cells }) => key(cells["event"], cells["name"], cells["option"])),
  );
  const column = columnsOfSort("pieces").find(({ name }) => name === "quantity");
  if (column === undefined) return lines;
  return lines.map((line) => {
    const { event, name, option } = line.cells;
    if (!counted.has(key(event, name, option)) && !counted.has(key(event, name, ""))) return line;
    const refused = refusedZero(`${line.place}: quantity`, column, "type the number").message;
    return line.doubts.includes(refused)
      ? { ...line, doubts: line.doubts.filter((doubt) => doubt !== refused) }
      : line;
  });
}
