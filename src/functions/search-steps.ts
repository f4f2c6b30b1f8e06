import { PURCHASE_STEPS } from "../core/stock/buy-plan";

/**
 * Steps of a search for each second that a formula may take. Source: ours, half of what two to three seconds for
 * `PURCHASE_STEPS` come to, since tables are read and plans are written in that time too.
 */
const STEPS_PER_SECOND = 1e8;

let allowed = PURCHASE_STEPS;

/** Steps that a search may take in the call that is under way; what they do not prove is stated as a gap. */
export function searchSteps(): number {
  return allowed;
}

/** Does some work, in which a search ends in about so many seconds. By steps, so that the same call gives the same. */
export function withinSeconds<Result>(seconds: number, work: () => Result): Result {
  const before = allowed;
  allowed = Math.min(PURCHASE_STEPS, Math.floor(seconds * STEPS_PER_SECOND));
  try {
    return work();
  } finally {
    allowed = before;
  }
}
