import { CalcError, unavailable } from "./calc-error";
import { isWithheld, withheld, type Known } from "./withheld";

/** A sentence that names its row already, such as `price_list 2 row 7: ...`. */
const ROW_IN_FRONT = /^\w+(?: \d+)? row \d+\b/;

/**
 * Computes a number that may turn out to be unknown, so that one missing input takes away exactly the numbers that need it.
 *
 * @param compute throws CalcError where something is missing or cannot be
 * @param place what the sentence begins with where it does not name its row already, such as `pieces row 3`
 * @returns the number, or the sentence in its place
 */
export function attempt(compute: () => number, place?: string): Known {
  try {
    return compute();
  } catch (error) {
    if (!(error instanceof CalcError)) throw error;
    const isPlaced = place === undefined || ROW_IN_FRONT.test(error.message);
    return withheld(isPlaced ? error.message : `${place}: ${error.message}`);
  }
}

/**
 * Takes a number out of a `Known`, inside a computation that `attempt` surrounds.
 *
 * @param value a number or why it is withheld
 * @returns the number
 * @throws CalcError `#N/A` with the sentence of a withheld one
 */
export function required(value: Known): number {
  if (isWithheld(value)) throw unavailable(value.sentence);
  return value;
}
