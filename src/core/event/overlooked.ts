import { lookAlikes, nameKey } from "../palette/names";
import { grouped } from "../stock/grouped";
import type { Problem } from "../problem";
import type { Job } from "./job";
import type { TermName } from "./term-cells";

/** Terms without which an offer is cheaper, and that nobody misses on it. */
const RAISING: ReadonlySet<TermName> = new Set(["tax", "minimum"]);

/**
 * Rows and cells that count as nothing, or as one, without being wrong: each would make an offer cheaper in silence.
 *
 * @param job the tables
 * @returns checks on a palette that no piece uses but whose name is a slip of one that is used, on a term without its
 *   value, on a piece without a quantity beside others that have one, and on a past job that does not say how many popped
 *   or what was left; notes on palettes that no piece uses
 */
export function overlooked(job: Job): readonly Problem[] {
  return [
    ...unusedPalettes(job),
    ...termsWithoutValue(job),
    ...piecesWithoutQuantity(job),
    ...jobsWithoutPopped(job.past_jobs),
    ...returnsWithoutCount(job),
  ];
}

const silent = (weight: "check" | "note", table: Problem["table"], row: number, what: string): Problem => ({
  weight,
  table,
  row,
  what,
  todo: "type it, or leave it as it is",
  reach: { of: "none" },
});

function unusedPalettes(job: Job): readonly Problem[] {
  const used = job.pieces.flatMap(({ cells }) => cells.palette ?? []);
  const keys = new Set(used.map(nameKey));
  const named = job.palettes.filter(({ cells }) => cells.palette !== undefined);
  return [...grouped(named, ({ cells }) => nameKey(cells.palette ?? ""))].flatMap(
    ([key, [first, ...more]]) => {
      if (keys.has(key)) return [];
      const name = (first.cells.palette ?? "").trim();
      const colours = [first, ...more].flatMap(({ cells }) => cells.colour?.trim() ?? []);
      const [like] = lookAlikes(name, used);
      const what = `${first.place}: palette "${name}" is used by no piece, so nobody takes its ${colours.join(", ")}`;
      const hint = like === undefined ? "" : `; did you mean "${like.trim()}"`;
      return [silent(like === undefined ? "note" : "check", "palettes", first.row, what + hint)];
    },
  );
}

function termsWithoutValue(job: Job): readonly Problem[] {
  const given = new Set(job.terms.flatMap(({ cells }) => (cells.value === undefined ? [] : cells.term)));
  return job.terms.flatMap(({ cells: { term, value }, doubts, place, row }) => {
    if (term === undefined || !RAISING.has(term) || value !== undefined || doubts.length > 0) return [];
    if (given.has(term)) return [];
    return [
      silent("check", "terms", row, `${place}: ${term} is blank or 0 and counts as none; type none if it is`),
    ];
  });
}

function piecesWithoutQuantity(job: Job): readonly Problem[] {
  const isTyped = ({ cells, doubts }: Job["pieces"][number]): boolean =>
    cells.quantity !== undefined || doubts.length > 0;
  if (!job.pieces.some(isTyped)) return [];
  const keyOf = ({ cells, place }: Job["pieces"][number]): string =>
    [cells.event, cells.name ?? place].map((text) => nameKey(text ?? "")).join("\n");
  return [...grouped(job.pieces, keyOf).values()].flatMap((lines) => {
    const [{ place, row, cells }] = lines;
    if (lines.some(isTyped) || cells.name === undefined) return [];
    return [
      silent("check", "pieces", row, `${place}: quantity of "${cells.name.trim()}" is blank and counts as 1`),
    ];
  });
}

/**
 * Past jobs that say how many balloons were taken and not how many popped. A job of which none did would teach the most, and a
 * bare 0 cannot be told from a blank cell.
 *
 * @param lines rows of past jobs
 * @returns a check for each
 */
export function jobsWithoutPopped(lines: Job["past_jobs"]): readonly Problem[] {
  return lines.flatMap(({ cells: { taken, popped }, doubts, place, row }) => {
    if (taken === undefined || taken === 0 || popped !== undefined || doubts.length > 0) return [];
    const what = `${place}: popped is 0 or a blank cell, so the row teaches no breakage; type none if nothing popped`;
    return [silent("check", "past_jobs", row, what)];
  });
}

/** Rows of the job's own events that name an item and not what was left: the book goes on with what was planned. */
function returnsWithoutCount(job: Job): readonly Problem[] {
  const lines = [...job.events, ...job.pieces];
  const own = new Set(lines.flatMap(({ cells: { event } }) => (event === undefined ? [] : [nameKey(event)])));
  return job.past_jobs.flatMap(({ cells, doubts, place, row }) => {
    const { event, printed, colour, left } = cells;
    if (event === undefined || !own.has(nameKey(event)) || doubts.length > 0) return [];
    if (printed === undefined || colour === undefined || left !== undefined) return [];
    const what = `${place}: left is 0 or a blank cell, so the book goes on as planned; type none if nothing came back`;
    return [silent("check", "past_jobs", row, what)];
  });
}
