import { performance } from "node:perf_hooks";
import { expect, it } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import type { Outcome } from "../../src/functions/definition";
import { argumentsFor, seeded } from "./hostile-arguments";
import { faultOf, forgetPurchases, leastWorkOf, MOST_MILLISECONDS, printed } from "./outcome-faults";

const CALLS = Number(process.env["FUZZ_CALLS"] ?? 30_000);
const SEED = Number(process.env["FUZZ_SEED"] ?? 20261125);

it(`survives ${CALLS} calls with random, extreme and hostile arguments (seed ${SEED})`, () => {
  const random = seeded(SEED);
  const faults: string[] = [];
  const slow: string[] = [];
  const outcomes = { value: 0, table: 0, error: 0 };
  const answering = new Set<string>();
  for (let call = 0; call < CALLS && faults.length < 20; call += 1) {
    const fn = catalogue[call % catalogue.length];
    if (fn === undefined) throw new Error("the catalogue is empty");
    const args = argumentsFor(fn, random);
    const before = printed(args);
    let outcome: Outcome;
    const start = performance.now();
    try {
      outcome = fn.call(args);
    } catch (error) {
      faults.push(`${fn.name}(${before}): threw ${String(error)}`);
      continue;
    }
    const took = performance.now() - start;
    outcomes[outcome.kind] += 1;
    if (outcome.kind !== "error") answering.add(fn.name);
    const fault = faultOf(fn, outcome);
    if (fault !== undefined)
      faults.push(`${fn.name}(${before.slice(0, 600)}): ${fault}: ${printed(outcome).slice(0, 300)}`);
    if (printed(args) !== before) faults.push(`${fn.name}(${before.slice(0, 600)}): changed its arguments`);
    if (call % 7 === 0) {
      forgetPurchases();
      if (printed(fn.call(args)) !== printed(outcome))
        faults.push(`${fn.name}(${before.slice(0, 600)}): gave another answer`);
    }
    // A pause of the machine must not look like a slow function: where a call took long, its own work is measured.
    if (took > MOST_MILLISECONDS) {
      const best = leastWorkOf(() => fn.call(args));
      if (best > MOST_MILLISECONDS) slow.push(`${best.toFixed(0)} ms ${fn.name}(${before.slice(0, 500)})`);
    }
  }
  console.log(
    `fuzz: ${CALLS} calls over ${catalogue.length} functions: ${JSON.stringify(outcomes)}, ${slow.length} slow, seed ${SEED}`,
  );
  expect(faults).toEqual([]);
  const silent = catalogue.filter((fn) => !answering.has(fn.name)).map((fn) => fn.name);
  expect(silent, "functions that never got past their arguments").toEqual([]);
  if (process.env["FUZZ_CALLS"] !== undefined) expect(slow).toEqual([]);
  else for (const line of slow) console.log(line);
}, 3_600_000);
