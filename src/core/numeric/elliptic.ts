/**
 * Complete elliptic integrals by the arithmetic-geometric mean.
 * Source: Abramowitz & Stegun 17.6; convergence is quadratic: one step after a difference of 1e-9 it is below
 * the resolution of a double.
 */
function byMean(modulus: number, complement: number): { readonly k: number; readonly e: number } {
  let a = 1;
  let b = complement;
  let c = modulus;
  let excess = (c * c) / 2;
  for (let weight = 1; Math.abs(c) > 1e-9 * a; weight *= 2) {
    c = (a - b) / 2;
    [a, b] = [(a + b) / 2, Math.sqrt(a * b)];
    excess += weight * c * c;
  }
  const k = Math.PI / (2 * a);
  return { k, e: k * (1 - excess) };
}

/**
 * Complete elliptic integral of the first kind, K(m).
 * Source: Abramowitz & Stegun 17.3.1, by the arithmetic-geometric mean, 17.6.3.
 *
 * @param m parameter, the square of the modulus, 0 to below 1
 * @returns K(m)
 * @throws RangeError where `m` is outside its limits
 */
export function ellipticK(m: number): number {
  if (!(m >= 0 && m < 1)) throw new RangeError("the first kind needs a parameter from 0 to below 1");
  return byMean(Math.sqrt(m), Math.sqrt(1 - m)).k;
}

/**
 * Complete elliptic integral of the second kind, E(m).
 * Source: Abramowitz & Stegun 17.3.3, by the arithmetic-geometric mean, 17.6.4.
 *
 * @param m parameter, the square of the modulus, 0 to 1
 * @returns E(m)
 * @throws RangeError where `m` is outside its limits
 */
export function ellipticE(m: number): number {
  if (!(m >= 0 && m <= 1)) throw new RangeError("the second kind needs a parameter from 0 to 1");
  return m === 1 ? 1 : byMean(Math.sqrt(m), Math.sqrt(1 - m)).e;
}

/**
 * Circumference of an ellipse. Source: 4 a E(1 - b^2/a^2), a the larger half axis.
 *
 * @param halfAxis one half axis, m, 0 or more
 * @param otherHalfAxis the other, m, 0 or more
 * @returns length, m
 */
export function ellipseCircumference(halfAxis: number, otherHalfAxis: number): number {
  const large = Math.max(halfAxis, otherHalfAxis);
  if (large === 0) return 0;
  const ratio = Math.min(halfAxis, otherHalfAxis) / large;
  // A flat ellipse loses digits in 1 - ratio^2, but there E differs from 1 by less than ratio^2 ln(4/ratio).
  if (ratio < 1e-9) return 4 * large;
  return 4 * large * byMean(Math.sqrt((1 - ratio) * (1 + ratio)), ratio).e;
}
