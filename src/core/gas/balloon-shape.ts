import { ROUND_LATEX_ELONGATION, ROUND_LATEX_LARGE_INCHES, ROUND_LATEX_SMALL_INCHES } from "../practice";
import { fromSi } from "../units";

/**
 * Length over width of an inflated round latex balloon.
 * Source: common practice; full elongation up to 12 in, falling linearly to a ball at 24 in.
 *
 * @param across inflated diameter, m
 * @returns ratio, 1 to 1.2
 */
export function elongation(across: number): number {
  const small = ROUND_LATEX_SMALL_INCHES.value;
  const large = ROUND_LATEX_LARGE_INCHES.value;
  const stillLong = (large - fromSi(across, "in")) / (large - small);
  return 1 + (ROUND_LATEX_ELONGATION.value - 1) * Math.min(1, Math.max(0, stillLong));
}

/**
 * Volume of an inflated round latex balloon: an ellipsoid as wide as `across`, longer by `elongation`.
 * Source: ellipsoid of revolution, V = e pi/6 d^3.
 *
 * @param across inflated diameter, m
 * @returns volume, m3
 */
export function latexVolume(across: number): number {
  return (elongation(across) * Math.PI * across ** 3) / 6;
}

/**
 * Surface of an inflated round latex balloon.
 * Source: prolate ellipsoid of revolution, S = 2 pi a^2 (1 + c/(a e) asin e) with e^2 = 1 - a^2/c^2.
 *
 * @param across inflated diameter, m
 * @returns area, m2
 */
export function latexArea(across: number): number {
  const ratio = elongation(across);
  const eccentricity = Math.sqrt(1 - 1 / ratio ** 2);
  // asin(e)/e tends to 1 for a ball, where the quotient itself would be 0/0.
  const bulge = eccentricity < 1e-6 ? 1 : Math.asin(eccentricity) / eccentricity;
  return (Math.PI / 2) * across ** 2 * (1 + ratio * bulge);
}
