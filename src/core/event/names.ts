import { isRespelled, lookAlikesAmong, nameKey } from "../palette/names";
import type { Job, Line } from "./job";
import { check, type Problem } from "../problem";

/** Columns that hold a name which another table may write differently. */
const NAMED = ["colour", "inside", "palette", "supplier"] as const;

/**
 * A job in which the synonyms of its table of names are written out, so that every model finds one name for one thing. Each
 * synonym that was used is one check.
 *
 * @param job the tables
 * @returns the same tables with names replaced; the job itself where there is nothing to replace
 */
export function withNames(job: Job): Job {
  const synonyms = new Map(
    job.names.flatMap((line) => {
      const { written, means } = line.cells;
      if (written === undefined || means === undefined || line.doubts.length > 0) return [];
      return [[nameKey(written), { line, written, means }] as const];
    }),
  );
  if (synonyms.size === 0) return job;
  const used = new Set<string>();
  const renamed = <Cells>(lines: readonly Line<Cells>[]): readonly Line<Cells>[] =>
    lines.map((line) => {
      const changed = NAMED.flatMap((column) => {
        const value = (line.cells as Readonly<Record<string, unknown>>)[column];
        const key = typeof value === "string" ? nameKey(value) : "";
        const synonym = synonyms.get(key);
        if (synonym === undefined) return [];
        used.add(key);
        return [[column, synonym.means] as const];
      });
      return changed.length === 0
        ? line
        : { ...line, cells: { ...line.cells, ...Object.fromEntries(changed) } };
    });
  const tables = {
    pieces: renamed(job.pieces),
    palettes: renamed(job.palettes),
    price_list: renamed(job.price_list),
    delivery: renamed(job.delivery),
    stock: renamed(job.stock),
    goods: renamed(job.goods),
  };
  const checks = [...used].flatMap((key): readonly Problem[] => {
    const synonym = synonyms.get(key);
    if (synonym === undefined) return [];
    const { line, written, means } = synonym;
    return [check("names", `${line.place}: "${written}" is taken for "${means}"`, undefined, line.row)];
  });
  return { ...job, ...tables, problems: [...job.problems, ...checks] };
}

/**
 * Names of the price lists and the shelf that are taken for a colour of the job only because short forms and marks are read as
 * what they stand for.
 *
 * @param job the tables
 * @returns one check for each spelling
 */
export function respelledNames(job: Job): readonly Problem[] {
  const wanted = coloursOfJob(job);
  const seen = new Set<string>();
  const checksIn = (
    table: "price_list" | "stock",
    lines: readonly Line<{ readonly colour: string }>[],
  ): readonly Problem[] =>
    lines.flatMap(({ cells, place, row }) => {
      const { colour } = cells;
      const meant = colour === undefined ? undefined : wanted.get(nameKey(colour));
      if (colour === undefined || meant === undefined || !isRespelled(colour, meant) || seen.has(colour))
        return [];
      seen.add(colour);
      return [check(table, `${place}: "${colour}" is taken for "${meant}"`, undefined, row)];
    });
  return [...checksIn("price_list", job.price_list), ...checksIn("stock", job.stock)];
}

/** The colours that the pieces and palettes of a job name, by their keys, each as first written. */
function coloursOfJob(job: Job): ReadonlyMap<string, string> {
  const wanted = new Map<string, string>();
  for (const { cells } of [...job.palettes, ...job.pieces]) {
    for (const name of [cells.colour, "inside" in cells ? cells.inside : undefined])
      if (name !== undefined && !wanted.has(nameKey(name))) wanted.set(nameKey(name), name);
  }
  return wanted;
}

/**
 * Names of the price lists and the shelf that no colour of the job has, and that look like a slip of one: their bags are not
 * bought and their balloons not taken, which nobody notices while another row offers the colour.
 *
 * @param job the tables
 * @returns one check for each spelling
 */
export function slippedNames(job: Job): readonly Problem[] {
  const wanted = coloursOfJob(job);
  const alike = lookAlikesAmong(wanted.values());
  const seen = new Set<string>();
  const checksIn = (
    table: "price_list" | "stock",
    lines: readonly Line<{ readonly colour: string }>[],
  ): readonly Problem[] =>
    lines.flatMap(({ cells: { colour }, place, row }) => {
      if (colour === undefined || wanted.has(nameKey(colour)) || seen.has(nameKey(colour))) return [];
      seen.add(nameKey(colour));
      const [like] = alike(colour);
      if (like === undefined) return [];
      const what = `${place}: "${colour.trim()}" is no colour of the job; did you mean "${like.trim()}"`;
      return [check(table, what, `write "${like.trim()}" if it is the same`, row)];
    });
  return [...checksIn("price_list", job.price_list), ...checksIn("stock", job.stock)];
}
