import { invalid, overflow } from "../calc-error";
import { entryAt, present } from "../numeric/entry-at";
import { largestRemainder } from "../numeric/largest-remainder";
import { sum } from "../numeric/sums";
import { grouped } from "../stock/grouped";
import { itemKey, sizeKey } from "../stock/item";
import { countWithSpares } from "../stock/spares";
import { lookAlikes, lookAlikesAmong, nameKey } from "./names";
import { refuseSlippedPercents } from "./palette-split";
import { patternSplit } from "./pattern";

/** A row of the pieces of an event, its balloons already counted. */
export interface NeededPiece {
  readonly row: number;
  readonly name: string;
  readonly kind: string;
  /** How many of it are built, whole. */
  readonly quantity: number;
  /** Size printed on the bag, m. */
  readonly printed: number;
  /** Inflated diameter, m. */
  readonly inflated: number;
  /** Balloons in one of it, whole. */
  readonly balloons: number;
  /** Clusters in one of it, where it is clustered. */
  readonly clusters?: number | undefined;
  readonly palette: string;
}

/** A colour of a palette: a share, or a number in the pattern of a cluster, or both. */
export interface PaletteRow {
  readonly row: number;
  /** How sentences name the row, where there is more than one range of palettes. */
  readonly place?: string | undefined;
  readonly palette: string;
  readonly colour: string;
  readonly share?: number | undefined;
  /** Balloons of this colour in one cluster. */
  readonly pattern?: number | undefined;
  /** Colour of a second balloon inside each of this colour: layered balloons take rubber twice, but one place. */
  readonly inside?: string | undefined;
}

/** What one row of pieces takes of one item. */
export interface Demand {
  /** Row of the piece. */
  readonly row: number;
  readonly printed: number;
  readonly inflated: number;
  readonly colour: string;
  /** Balloons seen, whole. */
  readonly places: number;
  /** Balloons taken from bags, whole: places plus insides. */
  readonly count: number;
  /** What the decorator should look at, or empty. */
  readonly warning: string;
}

/** One row of an event's needs. */
export interface Need {
  readonly printed: number;
  readonly inflated: number;
  readonly colour: string;
  readonly places: number;
  readonly count: number;
  /** Balloons to take: spares are found for the printed size and colour as a whole, then shared over its rows. */
  readonly withSpares: number;
  /** Warnings and names that look alike, or `ok`. */
  readonly status: string;
}

/** How many spares: chance that a balloon fails and confidence of having enough. */
export interface Spares {
  readonly breakage: number;
  readonly confidence: number;
}

/** Most colours of all pieces together: many pieces of a very long palette would take minutes. */
export const MOST_DEMANDS = 200_000;

/** The colours of one palette, ready to split balloons by. */
export interface Palette {
  readonly rows: readonly PaletteRow[];
  readonly shares: readonly number[];
  /** Balloons of each colour in one cluster, whole; undefined where the palette has no pattern. */
  readonly pattern: readonly number[] | undefined;
}

/**
 * What every piece takes of every item. A clustered piece with a pattern palette takes whole patterns, every other piece
 * splits by shares with largest remainders; equal pieces are split alike.
 *
 * @param pieces rows of pieces; sizes in m
 * @param palettes rows of palettes, those of one palette under one name
 * @returns demands in the order of pieces and of the palette's colours, insides last
 * @throws `#VALUE!` naming the row for an unknown palette, a colour with neither share nor pattern, percents that miss 100,
 * more than 200,000 colours of all pieces together; `#NUM!` beyond whole numbers
 */
export function pieceDemands(
  pieces: readonly NeededPiece[],
  palettes: readonly PaletteRow[],
): readonly Demand[] {
  const byName = readPalettes(palettes);
  let due = 0;
  return pieces.flatMap((piece) => {
    const palette = byName.get(nameKey(piece.palette));
    if (palette === undefined) {
      const [like] = lookAlikes(
        piece.palette,
        palettes.map((row) => row.palette),
      );
      throw invalid(
        `pieces row ${piece.row}: palette`,
        "be one of the palettes",
        piece.palette,
        like === undefined ? undefined : `did you mean "${like}"`,
      );
    }
    due += palette.rows.length;
    if (due > MOST_DEMANDS)
      throw invalid("pieces", `take at most ${MOST_DEMANDS} colours in all`, { written: "more" });
    return demandsOf(piece, palette);
  });
}

function readPalettes(rows: readonly PaletteRow[]): ReadonlyMap<string, Palette> {
  const byName = grouped(rows, (row) => nameKey(row.palette));
  return new Map([...byName].map(([key, group]) => [key, readPalette(group)]));
}

/**
 * Reads one palette: a share for each colour, or a number in the pattern of a cluster, or both.
 *
 * @param rows all rows of the palette
 * @returns the palette
 * @throws `#VALUE!` naming the row for a colour with neither share nor pattern, percents that miss 100
 */
export function readPalette(rows: readonly [PaletteRow, ...PaletteRow[]]): Palette {
  const hasPattern = rows.some((row) => row.pattern !== undefined);
  const hasShares = !hasPattern || rows.some((row) => row.share !== undefined);
  for (const row of rows) {
    const place = row.place ?? `palettes row ${row.row}`;
    if (hasShares && row.share === undefined) throw invalid(`${place}: share`, "be given", undefined);
    if (hasPattern && row.pattern === undefined) throw invalid(`${place}: pattern`, "be given", undefined);
  }
  const pattern = hasPattern ? rows.map((row) => present(row.pattern)) : undefined;
  const shares = hasShares ? rows.map((row) => present(row.share)) : undefined;
  if (shares) refuseSlippedPercents(shares, `palettes "${rows[0].palette.trim()}": share`);
  return { rows, shares: shares ?? pattern ?? [], pattern };
}

function demandsOf(piece: NeededPiece, palette: Palette): readonly Demand[] {
  const { parts, warning } = splitPiece(piece, palette);
  if (piece.quantity * sum(parts) * 2 > Number.MAX_SAFE_INTEGER)
    throw overflow("pieces need too many balloons");
  const warnings = [warning, piece.inflated > piece.printed * 1.001 ? "inflated above its printed size" : ""];
  const demand = (colour: string, places: number, count: number): Demand => ({
    row: piece.row,
    printed: piece.printed,
    inflated: piece.inflated,
    colour,
    places,
    count,
    warning: joined(warnings),
  });
  const taken = parts.map((part) => part * piece.quantity);
  const outer = palette.rows.map((row, index) =>
    demand(row.colour, entryAt(taken, index), entryAt(taken, index)),
  );
  const inner = palette.rows.flatMap((row, index) =>
    row.inside === undefined ? [] : [demand(row.inside, 0, entryAt(taken, index))],
  );
  return [...outer, ...inner].filter((row) => row.count > 0);
}

/**
 * Balloons of each colour in one piece: whole patterns where it is clustered and the palette has one, else shares by largest
 * remainder.
 *
 * @param piece balloons and clusters in one of it
 * @param palette its colours
 * @returns whole numbers that add up to the balloons, and what to look at, or empty
 */
export function splitPiece(
  piece: Pick<NeededPiece, "balloons" | "clusters">,
  palette: Palette,
): { readonly parts: readonly number[]; readonly warning: string } {
  const { pattern, shares } = palette;
  const { balloons, clusters = 0 } = piece;
  if (clusters > 0 && pattern !== undefined) {
    const repeats = balloons / (clusters * sum(pattern));
    if (Number.isInteger(repeats)) return { parts: patternSplit(clusters * repeats, pattern), warning: "" };
    const places = Number((balloons / clusters).toPrecision(6));
    const warning = `a pattern of ${sum(pattern)} does not fit clusters of ${places}, split by ratio`;
    return { parts: largestRemainder(balloons, pattern, "palettes"), warning };
  }
  return { parts: largestRemainder(balloons, shares, "palettes"), warning: "" };
}

/**
 * NEEDS_PLAN: the demand of a whole event, pooled by printed size and colour. Rows of one printed size that are inflated
 * differently stay apart, since gas follows the inflated size; their spares are pooled all the same.
 *
 * @param demands what the pieces take, from `pieceDemands`
 * @param spares breakage and confidence; without them `withSpares` is the count
 * @returns rows by printed size, inflated size, then first use
 * @throws as `countWithSpares`
 */
export function pooledNeeds(demands: readonly Demand[], spares?: Spares): readonly Need[] {
  const colours = new Map(demands.map(({ colour }) => [nameKey(colour), colour.trim()]));
  const alikeOf = lookAlikesAmong(colours.values());
  const needs = [...grouped(demands, itemKey).values()].flatMap((ofItem) => {
    const rows = [...grouped(ofItem, (demand) => sizeKey(demand.inflated)).values()];
    const counts = rows.map((row) => sum(row.map((demand) => demand.count)));
    const total = sum(counts);
    const taken = spares ? countWithSpares(total, spares.breakage, spares.confidence) : total;
    const withSpares = largestRemainder(taken, counts);
    return rows.map((row, index): Need => {
      const { printed, inflated, colour } = row[0];
      const alike = alikeOf(colour).map((name) => `looks like "${name}"`);
      return {
        printed,
        inflated,
        colour: colour.trim(),
        places: sum(row.map((demand) => demand.places)),
        count: entryAt(counts, index),
        withSpares: entryAt(withSpares, index),
        status: joined([...row.map((demand) => demand.warning), ...alike]) || "ok",
      };
    });
  });
  return needs.sort((a, b) => a.printed - b.printed || a.inflated - b.inflated);
}

function joined(remarks: readonly string[]): string {
  return [...new Set(remarks.filter((remark) => remark !== ""))].join("; ");
}
