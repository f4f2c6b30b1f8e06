/**
 * A number that cannot be known yet. A result shows it as an error in its own cell, so that every sum over it fails
 * loudly; the sentence says what is missing. It is never replaced by 0.
 */
export interface Withheld {
  readonly error: "#N/A";
  readonly sentence: string;
}

/** A number, or why it cannot be known. */
export type Known = number | Withheld;

/**
 * Withholds a number.
 *
 * @param sentence what is missing or unreadable: lower case, no full stop
 * @returns the error to put in place of the number
 */
export function withheld(sentence: string): Withheld {
  return { error: "#N/A", sentence };
}

/**
 * Tells a withheld number from a known value.
 *
 * @param value a number, another cell, or a withheld number
 * @returns true where it is withheld
 */
export function isWithheld(value: unknown): value is Withheld {
  return typeof value === "object" && value !== null && "error" in value && "sentence" in value;
}

/**
 * Computes with numbers of which any may be withheld.
 *
 * @param values numbers or withheld numbers
 * @param compute what to do with them where all are known
 * @returns its result, or the first withheld one
 */
export function whenKnown(
  values: readonly Known[],
  compute: (...numbers: readonly number[]) => number,
): Known {
  const missing = values.find(isWithheld);
  return missing ?? compute(...(values as readonly number[]));
}

/**
 * Adds numbers of which any may be withheld.
 *
 * @param values numbers or withheld numbers
 * @returns their sum, or the first withheld one
 */
export function sumKnown(values: readonly Known[]): Known {
  let total = 0;
  for (const value of values) {
    if (isWithheld(value)) return value;
    total += value;
  }
  return total;
}
