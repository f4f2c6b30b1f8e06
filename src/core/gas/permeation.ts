import { GAS_CONSTANT } from "./helium";

/** Volume of a mole of ideal gas at 0 C and 101325 Pa, cm3. Source: CODATA 2018. */
const STANDARD_MOLE = 22413.96954;
/** Pressure of a centimetre of mercury, Pa. Source: NIST SP 811 (2008) Appendix B. */
const CENTIMETRE_OF_MERCURY = 1333.22387;
/** One barrer in SI, mol m/(m2 s Pa). Source: its definition, 1e-10 cm3(STP) cm/(cm2 s cmHg). */
export const BARRER = 1e-8 / STANDARD_MOLE / CENTIMETRE_OF_MERCURY;
/** Density of balloon rubber, kg/m3. Source: thermopedia.com 1105, specific gravity of natural rubber. */
export const RUBBER_DENSITY = 930;
/**
 * Activation energy of helium permeation through natural rubber, J/mol. Source: van Amerongen, J. Appl.
 * Phys. 17 (1946) 972, from memory.
 */
export const PERMEATION_ENERGY = 27000;

/**
 * Gas that passes a thin wall.
 * Source: Fick's law with Henry's law, flow = P A dp/h (Cengel, Heat and Mass Transfer, mass diffusion
 * through a plane wall).
 *
 * @param permeability mol m/(m2 s Pa)
 * @param area wall area, m2
 * @param thickness wall thickness, m, above 0
 * @param pressure partial pressure difference, Pa
 * @returns mol/s
 */
export function permeationFlow(
  permeability: number,
  area: number,
  thickness: number,
  pressure: number,
): number {
  return (permeability * area * pressure) / thickness;
}

/**
 * How much faster helium passes rubber than at a reference temperature.
 * Source: Arrhenius' law with `PERMEATION_ENERGY`: a third faster for 8 K more.
 *
 * @param temperature K
 * @param reference K
 * @returns ratio, above 1 when warmer
 */
export function permeationSpeedup(temperature: number, reference: number): number {
  return Math.exp((PERMEATION_ENERGY / GAS_CONSTANT) * (1 / reference - 1 / temperature));
}
