/** Molar mass of helium, kg/mol. Source: CIAAW standard atomic weight 4.002602(2). */
export const HELIUM_MOLAR_MASS = 0.004002602;
/** Molar gas constant, J/(mol K). Source: CODATA 2018, exact since the 2019 SI. */
export const GAS_CONSTANT = 8.31446261815324;

const REDUCING_TEMPERATURE = 5.1953;
const REDUCING_MOLAR_DENSITY = 17383.7;

/**
 * Terms n tau^t delta^d exp(-delta^l): [n, t, d, l]; l = 0 has no exponential. Source: NISTIR 8474 (2023).
 */
const POWER_TERMS: readonly (readonly [number, number, number, number])[] = [
  [0.015559018, 1, 4, 0],
  [3.0638932, 0.425, 1, 0],
  [-4.2420844, 0.63, 1, 0],
  [0.054418088, 0.69, 2, 0],
  [-0.18971904, 1.83, 2, 0],
  [0.087856262, 0.575, 3, 0],
  [2.2833566, 0.925, 1, 1],
  [-0.53331595, 1.585, 1, 2],
  [-0.53296502, 1.69, 3, 2],
  [0.99444915, 1.51, 2, 1],
  [-0.30078896, 2.9, 2, 2],
  [-1.6432563, 0.8, 1, 1],
];

/**
 * Terms n tau^t delta^d exp(-eta (delta - epsilon)^2 - beta (tau - gamma)^2): [n, t, d, eta, epsilon, beta,
 * gamma]. Source: as above.
 */
const GAUSSIAN_TERMS: readonly (readonly [number, number, number, number, number, number, number])[] = [
  [0.8029102, 1.26, 2, 1.5497, 0.596, 0.2471, 3.15],
  [0.026838669, 3.51, 1, 9.245, 0.3423, 0.0983, 2.54505],
  [0.04687678, 2.785, 2, 4.76323, 0.761, 0.1556, 1.2513],
  [-0.14832766, 1, 1, 6.3826, 0.9747, 2.6782, 1.9416],
  [0.03016211, 4.22, 1, 8.7023, 0.5868, 2.7077, 0.5984],
  [-0.019986041, 0.83, 3, 0.255, 0.5627, 0.6621, 2.2282],
  [0.14283514, 1.575, 2, 0.3523, 2.5346, 0.1775, 1.606],
  [0.007418269, 3.447, 2, 0.1492, 3.6763, 0.4821, 3.815],
  [-0.22989793, 0.73, 3, 0.05, 4.5245, 0.3069, 1.61958],
  [0.79224829, 1.634, 2, 0.1668, 5.039, 0.1758, 0.6407],
  [-0.049386338, 6.13, 2, 42.2358, 0.959, 1357.6577, 1.076],
];

/** Z at a known density: 1 + delta times the density derivative of the residual Helmholtz energy. */
function compressibilityAtDensity(molarDensity: number, temperature: number): number {
  const delta = molarDensity / REDUCING_MOLAR_DENSITY;
  const tau = REDUCING_TEMPERATURE / temperature;
  const power = POWER_TERMS.map(
    ([n, t, d, l]) =>
      n * tau ** t * delta ** d * (l === 0 ? d : (d - l * delta ** l) * Math.exp(-(delta ** l))),
  );
  const gaussian = GAUSSIAN_TERMS.map(
    ([n, t, d, eta, epsilon, beta, gamma]) =>
      n *
      tau ** t *
      delta ** d *
      Math.exp(-eta * (delta - epsilon) ** 2 - beta * (tau - gamma) ** 2) *
      (d - 2 * eta * delta * (delta - epsilon)),
  );
  return [...power, ...gaussian].reduce((sum, term) => sum + term, 1);
}

/**
 * Molar density of helium.
 * Source: Ortiz Vega, Hall, Holste, Harvey & Lemmon, An Equation of State for the Thermodynamic Properties
 * of Helium, NISTIR 8474 (2023); p = Z rho R T. The fixed point contracts, since Z grows by less than half
 * of itself up to 1000 bar above -40 C.
 *
 * @param pressure absolute pressure, Pa, up to 1000 bar
 * @param temperature K, 233 to 400
 * @returns mol/m3
 */
export function heliumMolarDensity(pressure: number, temperature: number): number {
  const ideal = pressure / (GAS_CONSTANT * temperature);
  let density = ideal;
  for (let step = 0; step < 60; step++) {
    const next = ideal / compressibilityAtDensity(density, temperature);
    if (next === density) break;
    density = next;
  }
  return density;
}

/**
 * Density of helium. Source: as `heliumMolarDensity`.
 *
 * @param pressure absolute pressure, Pa
 * @param temperature K
 * @returns kg/m3
 */
export function heliumDensity(pressure: number, temperature: number): number {
  return heliumMolarDensity(pressure, temperature) * HELIUM_MOLAR_MASS;
}

/**
 * Compressibility factor of helium, Z = p/(rho R T). Source: as `heliumMolarDensity`.
 *
 * @param pressure absolute pressure, Pa, above 0
 * @param temperature K
 * @returns Z
 */
export function heliumCompressibility(pressure: number, temperature: number): number {
  return pressure / (heliumMolarDensity(pressure, temperature) * GAS_CONSTANT * temperature);
}
