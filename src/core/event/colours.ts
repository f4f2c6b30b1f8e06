import { attempt, required } from "../attempt";
import { CalcError, invalid, unavailable } from "../calc-error";
import { entryAt } from "../numeric/entry-at";
import { sum } from "../numeric/sums";
import { lookAlikes, nameKey } from "../palette/names";
import { readPalette, splitPiece, type Palette } from "../palette/needs";
import { grouped } from "../stock/grouped";
import { isWithheld, type Known } from "../withheld";
import type { Job } from "./job";
import type { Problem } from "../problem";
import { rowCheck, rowStop, type Part } from "./part";

/** Balloons of one colour in one piece of a part. */
export interface ColourCount {
  readonly colour: string;
  /** Balloons that are seen, whole. */
  readonly places: number;
  /** Balloons that are taken, whole: also those inside others. */
  readonly count: number;
}

/** The colours of a part. */
export interface PartColours {
  readonly part: Part;
  /** Colours of one piece, those inside others last; none where they cannot be known. */
  readonly colours: readonly ColourCount[];
  /** Balloons inside others in one piece. */
  readonly inner: Known;
  readonly problems: readonly Problem[];
}

/** Finds a palette by its name. */
export interface Palettes {
  /** False where the job has no table of palettes: then nothing can be layered, and nothing can be bought. */
  readonly isGiven: boolean;
  /** Throws CalcError where the palette is not there or cannot be read. */
  readonly find: (name: string, place: string) => Palette;
}

/**
 * Reads the palettes of a job, each when it is first asked for, so that one bad palette stops only the pieces that use it.
 *
 * @param job the tables
 * @returns finds a palette by its name
 */
export function palettesOf(job: Job): Palettes {
  const byName = grouped(job.palettes, ({ cells }) => nameKey(cells.palette ?? ""));
  const names = [...byName.values()].flatMap(([{ cells }]) => cells.palette ?? []);
  // A colour without the name of its palette may be missing from any of them.
  const [nameless] = byName.get("") ?? [];
  const read = new Map<string, Palette>();
  return {
    isGiven: job.given.has("palettes") || job.palettes.length > 0,
    find: (name, place) => {
      const key = nameKey(name);
      const known = read.get(key);
      if (known !== undefined) return known;
      const lines = byName.get(key);
      if (lines === undefined) {
        const [like] = lookAlikes(name, names);
        const hint = like === undefined ? undefined : `did you mean "${like}"`;
        throw invalid(`${place}: palette`, "be one of the palettes", name, hint);
      }
      if (nameless !== undefined)
        throw unavailable(nameless.doubts[0] ?? `${nameless.place}: palette must be given, found nothing`);
      const doubts = lines.flatMap((line) => line.doubts);
      if (doubts[0] !== undefined) throw unavailable(doubts[0]);
      const [first, ...others] = lines.map(({ cells, place: at, row }) => {
        if (cells.colour === undefined) throw invalid(`${at}: colour`, "be given", undefined);
        return { ...cells, row, place: at, palette: name, colour: cells.colour };
      });
      if (first === undefined) throw unavailable(`${place}: palette "${name}" has no colours`);
      const palette = readPalette([first, ...others]);
      read.set(key, palette);
      return palette;
    },
  };
}

/**
 * The colours of a part: its one colour, or its palette split over its balloons.
 * Source: whole patterns for clusters, else largest remainder, as `splitPiece`.
 *
 * @param part counted
 * @param palettes of the job
 * @returns colours of one piece; a part whose colours cannot be known has none and says why
 */
export function coloursOf(part: Part, palettes: Palettes): PartColours {
  const { cells, each, quantity, place } = part;
  if (quantity === 0 || isWithheld(quantity)) return { part, colours: [], inner: 0, problems: [] };
  const { palette: name, colour } = cells;
  let colours: readonly ColourCount[] = [];
  let warning = "";
  let inner = 0;
  const found = attempt(() => {
    if (name !== undefined && colour !== undefined)
      throw new CalcError("#VALUE!", `${place}: palette and colour must not both be given`);
    const balloons = required(each);
    if (colour !== undefined) {
      colours = [{ colour: colour.trim(), places: balloons, count: balloons }];
      return 0;
    }
    if (name === undefined) throw invalid(`${place}: palette`, "be given, or colour", undefined);
    const palette = palettes.find(name, place);
    const clusters = required(part.clusters);
    const isWhole = Number.isInteger(Number(clusters.toFixed(9)));
    const split = splitPiece({ balloons, clusters: isWhole ? Math.round(clusters) : 0 }, palette);
    warning =
      isWhole || palette.pattern === undefined
        ? split.warning
        : "a pattern needs whole clusters, split by ratio";
    const taken = palette.rows.map((row, index) => ({ row, count: entryAt(split.parts, index) }));
    const insides = taken.flatMap(({ row, count }) =>
      row.inside === undefined ? [] : [{ colour: row.inside.trim(), places: 0, count }],
    );
    inner = sum(insides.map(({ count }) => count));
    const outer = taken.map(({ row, count }) => ({ colour: row.colour.trim(), places: count, count }));
    colours = [...outer, ...insides].filter(({ count }) => count > 0);
    return 0;
  }, place);
  if (!isWithheld(found)) {
    const problems = warning === "" ? [] : [rowCheck(part, `${place}: ${warning}`)];
    return { part, colours, inner, problems };
  }
  // A count that is missing is said by the part itself; colours matter only to what is bought.
  if (isWithheld(each)) return { part, colours: [], inner: each, problems: [] };
  const isUnreadable = palettes.isGiven && name !== undefined && colour === undefined;
  return {
    part,
    colours: [],
    inner: isUnreadable ? found : 0,
    problems: [rowStop(part, found.sentence, "mend the palette or type a colour")],
  };
}
