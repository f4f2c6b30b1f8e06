/** A row of the table of measurements. */
export interface Measurement {
  readonly work: string;
  readonly size: string;
  readonly ours: string;
  readonly other: string;
  /** How many times as long the other takes. */
  readonly ratio: string;
}

const LEAST_MILLISECONDS = 30;

/** Takes up results, so that no call can be left out as useless. */
export const results: { last: unknown } = { last: undefined };

/** Milliseconds of one call: the best of three rounds, each long enough for the clock. Calls are numbered from 0 to 9. */
export function timeOf(call: (turn: number) => unknown, rounds = 3): number {
  let calls = 1;
  let best = Infinity;
  for (let round = 0; round < rounds;) {
    const start = performance.now();
    for (let turn = 0; turn < calls; turn += 1) results.last = call(turn % 10);
    const took = performance.now() - start;
    const isLong = took >= LEAST_MILLISECONDS;
    if (isLong || calls > 1) best = Math.min(best, took / calls);
    if (isLong) round += 1;
    else calls *= Math.max(2, Math.ceil(LEAST_MILLISECONDS / Math.max(took, 0.01)));
  }
  return best;
}

/** Milliseconds of the processor that one call takes: what other programs take meanwhile says nothing about ours. */
export function processorTimeOf(call: () => unknown): number {
  const before = process.cpuUsage();
  results.last = call();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}

/** A time with three digits in the unit that suits it. */
export function shownTime(milliseconds: number): string {
  const [scale, unit] = milliseconds >= 1000 ? [0.001, "s"] : milliseconds >= 1 ? [1, "ms"] : [1000, "µs"];
  return `${Number((milliseconds * scale).toPrecision(3))} ${unit}`;
}

/** Our time beside another's on the same work. */
export function besides(
  work: string,
  size: string,
  ours: number,
  library: string,
  theirs: number,
): Measurement {
  return {
    work,
    size,
    ours: shownTime(ours),
    other: `${library} ${shownTime(theirs)}`,
    ratio: `${Number((theirs / ours).toPrecision(2))} x`,
  };
}

/** Our time alone, or anything else that was measured. */
export function alone(work: string, size: string, ours: number | string, other = ""): Measurement {
  return { work, size, ours: typeof ours === "number" ? shownTime(ours) : ours, other, ratio: "" };
}

/** The rows as a Markdown table. */
export function markdown(rows: readonly Measurement[]): string {
  return [
    "| work | size | ours | beside it | ratio |",
    "|---|---|---|---|---|",
    ...rows.map(
      ({ work, size, ours, other, ratio }) => `| ${[work, size, ours, other, ratio].join(" | ")} |`,
    ),
  ].join("\n");
}
