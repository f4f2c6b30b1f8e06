import { betaQuantile, normalQuantile } from "../numeric/quantiles";

/** What one past job says: how much it took as a ratio to the trade default, and how many balloons or pieces it was. */
export interface RatioEvidence {
  /** Actual over planned, above 0. */
  readonly ratio: number;
  /** Balloons or pieces, above 0: a small job says less. */
  readonly size: number;
}

/** What one past job says about breakage, both whole, `taken` above 0. */
export interface BreakageEvidence {
  readonly taken: number;
  readonly popped: number;
}

/** An estimate from past jobs and a prior. */
export interface Learned {
  readonly jobs: number;
  /** What the jobs alone say; undefined without jobs. */
  readonly ownAlone: number | undefined;
  readonly estimate: number;
  readonly low: number;
  readonly high: number;
  /** Share of the estimate that comes from the jobs, 0 to 1. */
  readonly ownWeight: number;
}

/**
 * A decorator's own factor on a trade default, shrunk towards 1. The logarithm of each job's ratio is normal round the
 * decorator's own mean with variance `jobSpread`^2 + 1/size, and that mean is normal round 0 with `ownSpread`.
 * Source: conjugate normal with known variance (Held and Sabanes Bove, Applied Statistical Inference, 2014, p. 182, as
 * quoted by a package's page).
 *
 * @param evidence past jobs
 * @param jobSpread standard deviation of the logarithm between jobs of one decorator, above 0
 * @param ownSpread standard deviation of the logarithm between decorators, above 0
 * @param sure chance that the range holds the own factor, above 0 and below 1
 * @returns factors: 1.2 is a fifth more than the default
 */
export function learnedFactor(
  evidence: readonly RatioEvidence[],
  jobSpread: number,
  ownSpread: number,
  sure: number,
): Learned {
  const prior = 1 / (ownSpread * ownSpread);
  let own = 0;
  let weighted = 0;
  for (const { ratio, size } of evidence) {
    const precision = 1 / (jobSpread * jobSpread + 1 / size);
    own += precision;
    weighted += Math.log(ratio) * precision;
  }
  const mean = weighted / (prior + own);
  const half = normalQuantile(0.5 + sure / 2) / Math.sqrt(prior + own);
  return {
    jobs: evidence.length,
    ownAlone: own > 0 ? Math.exp(weighted / own) : undefined,
    estimate: Math.exp(mean),
    low: Math.exp(mean - half),
    high: Math.exp(mean + half),
    ownWeight: own / (prior + own),
  };
}

/**
 * A decorator's own breakage, shrunk towards the trade default. Balloons of one job fail alike, so a job counts as fewer
 * balloons than it took: divided by 1 + (taken - 1) x likeness.
 * Source: Beta-binomial with the prior's mean at the default; design effect of Kish, Survey Sampling (1965), from memory.
 *
 * @param evidence past jobs
 * @param usual trade default, above 0 and below 1
 * @param weight how many balloons the default counts as, above 0
 * @param likeness correlation of two balloons of one job, 0 to 1
 * @param sure chance that the range holds the own breakage, above 0 and below 1
 * @returns shares
 */
export function learnedBreakage(
  evidence: readonly BreakageEvidence[],
  usual: number,
  weight: number,
  likeness: number,
  sure: number,
): Learned {
  let taken = 0;
  let popped = 0;
  for (const job of evidence) {
    const effect = 1 + (job.taken - 1) * likeness;
    taken += job.taken / effect;
    popped += job.popped / effect;
  }
  const a = usual * weight + popped;
  const b = weight + taken - a;
  return {
    jobs: evidence.length,
    ownAlone: taken > 0 ? popped / taken : undefined,
    estimate: a / (a + b),
    low: betaQuantile(0.5 - sure / 2, a, b),
    high: betaQuantile(0.5 + sure / 2, a, b),
    ownWeight: taken / (weight + taken),
  };
}
