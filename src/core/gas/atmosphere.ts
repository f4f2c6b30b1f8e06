/** Standard gravity, m/s2. Source: ISO 80000-3, exact. */
export const STANDARD_GRAVITY = 9.80665;
/** Pressure at sea level, Pa. Source: ISO 2533:1975, exact. */
export const SEA_LEVEL_PRESSURE = 101325;
/** Temperature at sea level, K. Source: ISO 2533:1975, exact. */
export const SEA_LEVEL_TEMPERATURE = 288.15;

const EARTH_RADIUS = 6356766;
const LAPSE_RATE = 0.0065;
const MOLAR_MASS = 0.0289644;
const GAS_CONSTANT = 8.31432;
const EXPONENT = (STANDARD_GRAVITY * MOLAR_MASS) / (GAS_CONSTANT * LAPSE_RATE);

/** State of the standard atmosphere: K, Pa, kg/m3. */
export interface AtmosphereState {
  readonly temperature: number;
  readonly pressure: number;
  readonly density: number;
}

/**
 * Geopotential from geometric altitude.
 * Source: ISO 2533:1975 (International Standard Atmosphere), H = r Z/(r + Z), r = 6356766 m.
 *
 * @param altitude geometric altitude above sea level, m
 * @returns geopotential altitude, m
 */
export function geopotentialAltitude(altitude: number): number {
  return (EARTH_RADIUS * altitude) / (EARTH_RADIUS + altitude);
}

/**
 * Standard atmosphere of the lowest layer.
 * Source: ISO 2533:1975 = ICAO Doc 7488, T = T0 - L H, p = p0 (T/T0)^(g M/(R L)), density = p M/(R T).
 *
 * @param geopotential geopotential altitude, m, under 11000
 * @returns temperature, pressure and density
 */
export function standardAtmosphere(geopotential: number): AtmosphereState {
  const temperature = SEA_LEVEL_TEMPERATURE - LAPSE_RATE * geopotential;
  const pressure = SEA_LEVEL_PRESSURE * (temperature / SEA_LEVEL_TEMPERATURE) ** EXPONENT;
  return { temperature, pressure, density: (pressure * MOLAR_MASS) / (GAS_CONSTANT * temperature) };
}

/**
 * Air pressure at an altitude of the map.
 * Source: ISO 2533:1975, `standardAtmosphere` at the geopotential of `altitude`.
 *
 * @param altitude geometric altitude above sea level, m
 * @returns pressure, Pa
 */
export function pressureAtAltitude(altitude: number): number {
  return standardAtmosphere(geopotentialAltitude(altitude)).pressure;
}
