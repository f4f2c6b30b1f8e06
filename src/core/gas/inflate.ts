import { unavailable } from "../calc-error";
import { fromSi, toSi } from "../units";
import { pressureAtAltitude } from "./atmosphere";
import { elongation, latexVolume } from "./balloon-shape";

const SMALLEST = toSi(1, "in");
const LARGEST = toSi(120, "in");
const ROOM_TEMPERATURE = 293.15;

/**
 * Inflated diameter of a round latex balloon that holds `volume`.
 * Source: inverse of `latexVolume`; elongation changes so slowly with size that the fixed point contracts
 * by at least seven a step.
 *
 * @param volume m3, above 0
 * @returns diameter, m
 */
export function acrossOfVolume(volume: number): number {
  let across = Math.cbrt((6 * volume) / Math.PI);
  for (let step = 0; step < 30; step++) across = Math.cbrt((6 * volume) / (Math.PI * elongation(across)));
  return across;
}

/**
 * INFLATE_INCHES: size to fill to now, so that the balloon has its wanted size at the venue.
 * Source: ideal gas law, p V/T is constant; pressure by ISO 2533:1975. The overpressure of the rubber, the
 * same share at both places, cancels.
 *
 * @param wanted diameter at the venue, m
 * @param fillTemperature K where it is filled
 * @param siteTemperature K at the venue (in the sun a balloon is warmer than the air)
 * @param fillAltitude geometric altitude where it is filled, m
 * @param siteAltitude geometric altitude of the venue, m
 * @returns diameter to fill to, m
 * @throws `#N/A` when that is outside 1 to 120 in
 */
export function fillDiameter(
  wanted: number,
  fillTemperature = ROOM_TEMPERATURE,
  siteTemperature = ROOM_TEMPERATURE,
  fillAltitude = 0,
  siteAltitude = 0,
): number {
  const shrink =
    (fillTemperature / siteTemperature) *
    (pressureAtAltitude(siteAltitude) / pressureAtAltitude(fillAltitude));
  const across = shrink === 1 ? wanted : acrossOfVolume(latexVolume(wanted) * shrink);
  if (across < SMALLEST || across > LARGEST) {
    const inches = Number(fromSi(across, "in").toPrecision(3));
    throw unavailable(`the balloon would have to be filled to ${inches} in, which is not from 1 to 120 in`);
  }
  return across;
}
