import { unavailable } from "../../calc-error";
import { nameKey } from "../../palette/names";
import type { Known } from "../../withheld";
import { saidOf, type Problem } from "../../problem";
import type { JobPlan } from "../job-plan";
import { statusOf } from "../status";
import type { EventTravel } from "../travel";
import { settledCosts } from "../goods-plan";

/** Papers that can be handed over. */
export const PAPERS = ["offer", "order", "packing", "returns", "setup", "venue", "terms"] as const;

/** One of `PAPERS`. */
export type PaperName = (typeof PAPERS)[number];

/** A line of a paper. Amounts are in their unit as a person reads it, money in the sheet's currency. */
export interface PaperRow {
  readonly section: string;
  readonly line: string;
  readonly amount: Known | string;
  readonly unit: string;
  readonly note: string;
  readonly status: string;
}

/**
 * A line of a paper without anything to look at.
 *
 * @param section heading that it stands under
 * @param line what it is about
 * @param amount a number, a text, or empty
 * @param unit of the amount
 * @param note beside it
 * @returns the row
 */
export function paperLine(
  section: string,
  line: string,
  amount: Known | string = "",
  unit = "",
  note = "",
): PaperRow {
  return { section, line, amount, unit, note, status: "ok" };
}

/**
 * Problems as the first section of a paper.
 *
 * @param problems those that concern the paper
 * @returns rows, worst first; none where there is nothing that stops it, endangers it or keeps it from going as planned
 */
export function problemLines(problems: readonly Problem[]): readonly PaperRow[] {
  const weights = ["stop", "unsafe", "no go"] as const;
  const seen = new Set<string>();
  return weights.flatMap((weight) =>
    problems
      .filter(
        (problem) => problem.weight === weight && !seen.has(saidOf(problem)) && seen.add(saidOf(problem)),
      )
      .map((problem) => ({
        ...paperLine("problems", problem.what, "", "", problem.todo),
        status: statusOf([problem]),
      })),
  );
}

/**
 * The event that a paper is about.
 *
 * @param plan of the job
 * @param event as typed; empty where the job has one
 * @returns its travel, which holds the event
 * @throws CalcError `#N/A` where it is not one of the job's, or several could be meant
 */
export function eventOf(plan: JobPlan, event: string): EventTravel {
  const { travel } = settledCosts(plan);
  const [only, ...others] = travel;
  if (only === undefined) throw unavailable("pieces must have a row that is built, found none");
  if (event.trim() === "") {
    if (others.length === 0) return only;
    throw unavailable(`event must be one of ${namesOf(travel)}, found nothing`);
  }
  const found = travel.find((of) => nameKey(of.event.name) === nameKey(event));
  if (found !== undefined) return found;
  if (others.length === 0 && only.event.name === "") return only;
  throw unavailable(`event must be one of ${namesOf(travel)}, found "${event.trim()}"`);
}

function namesOf(travel: readonly EventTravel[]): string {
  return travel.map((of) => `"${of.event.name}"`).join(", ");
}

/** A number of money as a paper writes it inside a sentence. */
export function moneyText(amount: number): string {
  return amount.toFixed(2);
}

/**
 * The packs of a good as the unit of an amount: `pieces`, `packs of 100 m`.
 *
 * @param good its unit and what one pack holds
 * @param packs how many
 * @returns words
 */
export function packText(
  { unit, pack }: { readonly unit: string; readonly pack: number },
  packs: Known,
): string {
  const isPiece = unit.trim().toLowerCase() === "piece";
  if (pack === 1) return isPiece && packs !== 1 ? "pieces" : unit;
  return `${packs === 1 ? "pack" : "packs"} of ${pack} ${isPiece ? "pieces" : unit}`;
}

/** A length as a paper writes it: metres to the centimetre. */
export function metresText(length: number): string {
  return `${Number(length.toFixed(2))} m`;
}
