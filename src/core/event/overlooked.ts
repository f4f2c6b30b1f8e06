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
 *   value, and on a piece without a quantity beside others that have one; notes on palettes that no piece uses
 */
export function overlooked(job: Job): readonly Problem[] {
  return [...unusedPalettes(job), ...termsWithoutValue(job), ...piecesWithoutQuantity(job)];
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
