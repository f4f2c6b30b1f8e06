import { CalcError, invalid } from "../calc-error";
import type { Problem } from "../problem";
import { orNone } from "../numeric/tally";
import { wholeRows, type Doubtful } from "../stock/doubtful";
import { grouped } from "../stock/grouped";
import { nameKey } from "./names";
import { MOST_DEMANDS, pieceDemands, type Demand, type PaletteRow } from "./needs";
import { pieceCounter, type CountedPiece, type PieceKind, type PieceRow } from "./piece-count";

/** What the pieces of an event take, and which of them cannot be counted. */
export interface EventNeeds {
  /** Pieces that could be counted, in order. */
  readonly counted: readonly CountedPiece[];
  /** What those take of each item; pieces whose colours are not known take none. */
  readonly demands: readonly Demand[];
  /** Why a row of pieces takes an unknown number, by row. */
  readonly stops: ReadonlyMap<number, string>;
  /** One problem for each row that cannot be read or counted. */
  readonly problems: readonly Problem[];
}

function stopOf(table: string, row: number, what: string): Problem {
  return {
    weight: "stop",
    table,
    row,
    what,
    todo: "mend the row or park it with quantity none",
    reach: { of: "job" },
  };
}

function sentenceOf(compute: () => void): string | undefined {
  try {
    compute();
    return undefined;
  } catch (error) {
    if (error instanceof CalcError) return error.message;
    throw error;
  }
}

/** A row of pieces whose number of balloons is not known. */
export interface UncountedPiece {
  readonly row: number;
  readonly kind: PieceKind | undefined;
  /** Why, with its place. */
  readonly what: string;
}

/**
 * Counts the pieces of an event row by row.
 *
 * @param pieces rows of pieces as they were read
 * @returns what could be counted, and what could not with the reason
 */
export function countedPieces(pieces: readonly Doubtful<PieceRow>[]): {
  readonly counted: readonly CountedPiece[];
  readonly uncounted: readonly UncountedPiece[];
} {
  const uncounted: UncountedPiece[] = pieces
    .filter(({ doubts }) => doubts.length > 0)
    .map(({ row, cells, doubts }) => ({ row, kind: cells.kind, what: doubts.join("; ") }));
  const mixDoubts = new Map(
    pieces
      .filter(({ doubts, cells }) => doubts.length > 0 && cells.kind === "mix")
      .map(({ cells, doubts }) => [nameKey(cells.name ?? ""), doubts.join("; ")]),
  );
  const whole = wholeRows(pieces);
  const count = pieceCounter(whole);
  const counted = whole.flatMap((row): readonly CountedPiece[] => {
    const mixDoubt = row.kind === "mix" ? mixDoubts.get(nameKey(row.name)) : undefined;
    let piece: CountedPiece | undefined;
    const what =
      mixDoubt ??
      sentenceOf(() => {
        piece = count(row);
      });
    if (what !== undefined) uncounted.push({ row: row.row, kind: row.kind, what });
    return piece === undefined ? [] : [piece];
  });
  return { counted, uncounted };
}

/**
 * Counts the pieces of an event and splits them into colours, row by row: what cannot be read or counted is named and costs no
 * other row.
 *
 * @param pieces rows of pieces as they were read
 * @param palettes rows of palettes as they were read
 * @returns what is known and what is not
 */
export function eventNeeds(
  pieces: readonly Doubtful<PieceRow>[],
  palettes: readonly Doubtful<PaletteRow>[],
): EventNeeds {
  const stops = new Map<number, string>();
  const problems: Problem[] = [];
  const stop = (row: number, what: string): void => {
    if (!stops.has(row)) stops.set(row, what);
    problems.push(stopOf("pieces", row, what));
  };
  const { counted, uncounted } = countedPieces(pieces);
  for (const { row, what } of uncounted) stop(row, what);
  const readable = readablePalettes(palettes, problems);
  let due = 0;
  const demands = counted.flatMap((piece): readonly Demand[] => {
    const doubt = readable.doubts.get(nameKey(piece.palette)) ?? readable.doubts.get("");
    if (doubt !== undefined) {
      stops.set(piece.row, doubt);
      return [];
    }
    let taken: readonly Demand[] = [];
    const colours = readable.rows.get(nameKey(piece.palette));
    due += orNone(colours?.length);
    const sentence = sentenceOf(() => {
      if (due > MOST_DEMANDS)
        throw invalid("pieces", `take at most ${MOST_DEMANDS} colours in all`, { written: "more" });
      taken = pieceDemands([piece], colours ?? readable.all);
    });
    if (sentence !== undefined) stop(piece.row, sentence);
    return taken;
  });
  return { counted, demands, stops, problems: distinctProblems(problems) };
}

interface ReadablePalettes {
  readonly rows: ReadonlyMap<string, readonly PaletteRow[]>;
  readonly all: readonly PaletteRow[];
  /** Doubts by key of the palette; an empty key may be any palette. */
  readonly doubts: ReadonlyMap<string, string>;
}

function readablePalettes(palettes: readonly Doubtful<PaletteRow>[], problems: Problem[]): ReadablePalettes {
  const doubts = new Map<string, string>();
  for (const { row, cells, doubts: found } of palettes) {
    if (found.length === 0) continue;
    const what = found.join("; ");
    doubts.set(nameKey(cells.palette ?? ""), what);
    problems.push(stopOf("palettes", row, what));
  }
  const all = wholeRows(palettes);
  return { rows: grouped(all, ({ palette }) => nameKey(palette)), all, doubts };
}

function distinctProblems(problems: readonly Problem[]): readonly Problem[] {
  const seen = new Set<string>();
  return problems.filter(({ what }) => {
    if (seen.has(what)) return false;
    seen.add(what);
    return true;
  });
}
