import { invalid } from "../calc-error";

/**
 * A length as an error sentence shows it.
 *
 * @param length m
 * @returns metres to the tenth of a millimetre, with the unit
 */
export function inMetres(length: number): string {
  return `${Number(length.toFixed(4))} m`;
}

/**
 * Refuses a length that is not a number above 0.
 *
 * @param argument worksheet parameter
 * @param length m
 * @throws CalcError `#VALUE!`
 */
export function checkLength(argument: string, length: number): void {
  if (!(length > 0) || length === Infinity) throw invalid(argument, "be more than 0 m", length);
}

/**
 * Refuses a length below 0.
 *
 * @param argument worksheet parameter
 * @param length m
 * @throws CalcError `#VALUE!`
 */
export function checkNotNegative(argument: string, length: number): void {
  if (!(length >= 0) || length === Infinity) throw invalid(argument, "be 0 m or more", length);
}

/**
 * Refuses a length below another one.
 *
 * @param argument worksheet parameter
 * @param length m
 * @param least m
 * @param why what `least` is
 * @throws CalcError `#VALUE!`
 */
export function checkAtLeast(argument: string, length: number, least: number, why: string): void {
  if (!(length >= least * (1 - 1e-12)) || length === Infinity) {
    throw invalid(argument, `be at least ${inMetres(least)}, ${why}`, { written: inMetres(length) });
  }
}

/**
 * Refuses a number that is not a whole count within limits.
 *
 * @param argument worksheet parameter
 * @param count pieces
 * @param least smallest count that makes sense
 * @throws CalcError `#VALUE!`
 */
export function checkCount(argument: string, count: number, least: number): void {
  if (!Number.isInteger(count) || count < least || count > 1e9) {
    throw invalid(argument, `be a whole number from ${least} to 1000000000`, count);
  }
}

/**
 * Refuses a share outside 0..1.
 *
 * @param argument worksheet parameter
 * @param share 0..1
 * @throws CalcError `#VALUE!`
 */
export function checkShare(argument: string, share: number): void {
  if (!(share >= 0 && share <= 1)) throw invalid(argument, "be from 0 to 1", share);
}

/**
 * Refuses a packing that loose balloons cannot have.
 *
 * @param packing share of a volume that is balloon, above 0 up to 1
 * @throws CalcError `#VALUE!`
 */
export function checkPacking(packing: number): void {
  if (!(packing > 0 && packing <= 1)) throw invalid("packing", "be more than 0, up to 1", packing);
}

/**
 * Closest and widest spacing of neighbours, as a ratio to the inflated size: a balloon pressed further
 * bursts, wider apart leaves holes.
 */
export const SPACING_LIMITS = { least: 0.6, most: 1.2 } as const;

/**
 * Refuses an impossible balloon or spacing.
 *
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to it
 * @param argument worksheet parameter that the spacing was typed in
 * @returns centre-to-centre distance, m
 * @throws CalcError `#VALUE!`
 */
export function neighbourDistance(balloon: number, spacing: number, argument = "spacing"): number {
  checkLength("balloon", balloon);
  const { least, most } = SPACING_LIMITS;
  if (!(spacing >= least && spacing <= most)) throw invalid(argument, `be from ${least} to ${most}`, spacing);
  return spacing * balloon;
}
