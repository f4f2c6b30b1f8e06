import type { Job } from "./job";
import type { Problem } from "../problem";
import { overlooked } from "./overlooked";
import type { PlannedPiece } from "./plan-parts";
import type { JobScope } from "./scope";
import { TERM_NAMES } from "./terms";
import { workProblems } from "./work-table";

/**
 * What stops the whole job before anything is bought: rows that cannot be read, terms that contradict, pieces that cannot be
 * counted; and what to look at in them.
 *
 * @param job the tables
 * @param scope its events
 * @param pieces of one scenario
 * @returns problems, each once
 */
export function jobProblems(job: Job, scope: JobScope, pieces: readonly PlannedPiece[]): readonly Problem[] {
  const names = pieces.map(({ piece }) => piece.name);
  const problems = [
    ...job.problems,
    ...unreadRows(job),
    ...termProblems(scope),
    ...scope.problems,
    ...workProblems(job, names),
    ...overlooked(job),
    ...pieces.flatMap((piece) => piece.problems),
  ];
  const seen = new Set<string>();
  return problems.filter(({ what }) => !seen.has(what) && seen.add(what));
}

/** Rows of the tables that concern the whole job. */
function unreadRows(job: Job): readonly Problem[] {
  return (["terms", "events", "vehicles", "past_jobs"] as const).flatMap((table) =>
    job[table].flatMap(({ doubts, row }) =>
      doubts.map((what): Problem => ({
        weight: "stop",
        table,
        row,
        what,
        todo: "mend the cell",
        reach: { of: "job" },
      })),
    ),
  );
}

function termProblems({ events }: JobScope): readonly Problem[] {
  return events.flatMap(({ terms }) =>
    TERM_NAMES.flatMap((name): readonly Problem[] => {
      const { doubt } = terms[name];
      if (doubt === undefined) return [];
      return [{ weight: "stop", table: "terms", what: doubt, todo: "mend the row", reach: { of: "job" } }];
    }),
  );
}
