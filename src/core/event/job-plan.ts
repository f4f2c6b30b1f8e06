import type { Job } from "./job";
import { plannedPieces, type PlannedPiece } from "./plan-parts";
import { scenarioCosts, type ScenarioCosts } from "./scenario-costs";
import { chosenScenario, scenariosOf, jobScope, type Scenario, type JobScope } from "./scope";
import { taughtJob } from "./taught-job";
import { workTable, type WorkTable } from "./work-table";

/** A job with all that its plans share, each part worked out when it is first asked for. */
export interface JobPlan {
  readonly job: Job;
  readonly scope: JobScope;
  readonly work: WorkTable;
  /** Each event with each option that may be built. */
  readonly scenarios: readonly Scenario[];
  /** Options of the one plan of the whole job. */
  readonly chosen: Scenario["inForce"];
  /** Pieces that are built with one option of each event in force. */
  readonly piecesOf: (inForce: Scenario["inForce"]) => readonly PlannedPiece[];
  readonly costsOf: (inForce: Scenario["inForce"]) => ScenarioCosts;
}

/** Jobs that are remembered: a sheet that weighs a few events asks for many plans of each. Source: ours. */
const MOST_JOBS = 8;

const byJob = new WeakMap<Job, JobPlan>();
const byContent = new Map<string, JobPlan>();

/**
 * The plan of a job. Jobs of equal content have one plan, so that all functions over the same tables cost one computation.
 *
 * @param job the tables
 * @returns the plan
 */
export function jobPlan(job: Job): JobPlan {
  const known = byJob.get(job);
  if (known !== undefined) return known;
  const content = JSON.stringify({ ...job, given: [...job.given] });
  const plan = byContent.get(content) ?? freshPlan(job);
  byContent.delete(content);
  byContent.set(content, plan);
  for (const oldest of byContent.keys()) if (byContent.size > MOST_JOBS) byContent.delete(oldest);
  byJob.set(job, plan);
  return plan;
}

/**
 * A plan that is not remembered, for measuring. What past jobs teach stands in for what the tables do not say.
 *
 * @param tables of the job
 * @returns the plan
 */
export function freshPlan(tables: Job): JobPlan {
  const { job, terms } = taughtJob(tables);
  const scope = jobScope(job, terms);
  const work = workTable(job);
  const piecesOf = keptBy((inForce) => plannedPieces(job, scope, inForce, work));
  return {
    job,
    scope,
    work,
    scenarios: scenariosOf(scope),
    chosen: chosenScenario(scope),
    piecesOf,
    costsOf: keptBy((inForce) => scenarioCosts(job, scope, piecesOf(inForce), work)),
  };
}

/** Computes once for each set of options. */
function keptBy<Result>(
  compute: (inForce: Scenario["inForce"]) => Result,
): (inForce: Scenario["inForce"]) => Result {
  const results = new Map<string, Result>();
  return (inForce) => {
    const key = JSON.stringify(inForce);
    const known = results.get(key) ?? compute(inForce);
    results.set(key, known);
    return known;
  };
}
