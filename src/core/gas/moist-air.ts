/** Molar mass of dry air with 400 ppm carbon dioxide, kg/mol. Source: CIPM-2007. */
export const DRY_AIR_MOLAR_MASS = 0.02896546;

const WATER_MOLAR_MASS = 0.01801528;
/** The gas constant that the CIPM-2007 equation was adjusted with (CODATA 2006), J/(mol K). */
const GAS_CONSTANT = 8.314472;

/**
 * Pressure of water vapour at saturation.
 * Source: Picard, Davis, Glaeser & Fujii, Metrologia 45 (2008) 149-155 (CIPM-2007), equation A1.1.
 *
 * @param temperature K
 * @returns pressure, Pa
 */
export function saturationPressure(temperature: number): number {
  return Math.exp(
    1.2378847e-5 * temperature ** 2 - 1.9121316e-2 * temperature + 33.93711047 - 6343.1645 / temperature,
  );
}

/**
 * Density of moist air.
 * Source: CIPM-2007 (as above), equations 1, A1.1 (vapour), A1.2 (enhancement), A1.4 (compressibility);
 * made for 15 to 27 C and 600 to 1100 hPa, used a little beyond.
 *
 * @param temperature K
 * @param pressure Pa
 * @param humidity relative humidity, share 0..1
 * @returns density, kg/m3
 */
export function moistAirDensity(temperature: number, pressure: number, humidity: number): number {
  const celsius = temperature - 273.15;
  const enhancement = 1.00062 + 3.14e-8 * pressure + 5.6e-7 * celsius ** 2;
  const vapour = (humidity * enhancement * saturationPressure(temperature)) / pressure;
  const ratio = pressure / temperature;
  const compressibility =
    1 -
    ratio *
      (1.58123e-6 -
        2.9331e-8 * celsius +
        1.1043e-10 * celsius ** 2 +
        (5.707e-6 - 2.051e-8 * celsius) * vapour +
        (1.9898e-4 - 2.376e-6 * celsius) * vapour ** 2) +
    ratio ** 2 * (1.83e-11 - 0.765e-8 * vapour ** 2);
  const molarMass = DRY_AIR_MOLAR_MASS * (1 - vapour * (1 - WATER_MOLAR_MASS / DRY_AIR_MOLAR_MASS));
  return (pressure * molarMass) / (compressibility * GAS_CONSTANT * temperature);
}
