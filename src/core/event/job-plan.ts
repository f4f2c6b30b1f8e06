import type { Job } from "./job";
import { scenarioCosts, type ScenarioCosts } from "./scenario-costs";
import { chosenScenario, scenariosOf, scopeOf, type Scenario, type Scope } from "./scope";
import { taughtJob } from "./taught-job";
import { workTable, type WorkTable } from "./work-table";

/** A job with all that its plans share, each part worked out when it is first asked for. */
export interface JobPlan {
  readonly job: Job;
  readonly scope: Scope;
  readonly work: WorkTable;
  /** Each event with each option that may be built. */
  readonly scenarios: readonly Scenario[];
  /** Options of the one plan of the whole job. */
  readonly chosen: Scenario["inForce"];
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
 * A plan that is not remembered, for measuring.
 *
 * @param typed the tables; what past jobs teach is filled in where they say nothing
 * @returns the plan
 */
export function freshPlan(typed: Job): JobPlan {
  const { job, terms } = taughtJob(typed);
  const scope = scopeOf(job, terms);
  const work = workTable(job);
  const costs = new Map<string, ScenarioCosts>();
  return {
    job,
    scope,
    work,
    scenarios: scenariosOf(scope),
    chosen: chosenScenario(scope),
    costsOf: (inForce) => {
      const key = JSON.stringify(inForce);
      const found = costs.get(key) ?? scenarioCosts(job, scope, inForce, work);
      costs.set(key, found);
      return found;
    },
  };
}
