import { invalid, unavailable } from "../calc-error";
import { FLOAT_HOURS_11_INCH, FLOAT_RIBBON_GRAMS, TREATED_FLOAT_FACTOR } from "../practice";
import { fromSi, toSi } from "../units";
import { pressureAtAltitude } from "./atmosphere";
import { latexArea, latexVolume } from "./balloon-shape";
import { heliumMolarDensity } from "./helium";
import { liftDensity, netLift } from "./lift";
import { insidePressure } from "./overpressure";
import { BARRER, RUBBER_DENSITY, permeationFlow, permeationSpeedup } from "./permeation";
import { rubberMass } from "./rubber-mass";

const REFERENCE_TEMPERATURE = 293.15;

/**
 * Seconds until the lift that carries the rubber alone is left, through a wall of `permeability` at the
 * reference temperature.
 */
function floatSeconds(
  across: number,
  rubber: number,
  temperature: number,
  permeability: number,
  altitude = 0,
): number {
  const volume = latexVolume(across);
  const area = latexArea(across);
  const pressure = insidePressure(pressureAtAltitude(altitude));
  const spare = volume - rubber / liftDensity({ temperature, altitude });
  const flow = permeationFlow(
    permeability * permeationSpeedup(temperature, REFERENCE_TEMPERATURE),
    area,
    rubber / (RUBBER_DENSITY * area),
    pressure,
  );
  return (spare * heliumMolarDensity(pressure, temperature)) / flow;
}

/**
 * Permeability of stretched balloon rubber to helium, from the one calibration: an untreated 11 in balloon
 * at 20 C. It comes out at about a third of what handbooks give for unstretched rubber (28 to 31 barrer):
 * stretched rubber crystallises, and a shrinking balloon leaks ever slower.
 * Source: common practice, `FLOAT_HOURS_11_INCH`, through `permeationFlow`.
 *
 * @returns mol m/(m2 s Pa)
 */
export function calibratedPermeability(): number {
  const across = toSi(11, "in");
  const seconds = floatSeconds(across, rubberMass(across), REFERENCE_TEMPERATURE, BARRER);
  return (BARRER * seconds) / toSi(FLOAT_HOURS_11_INCH.value, "h");
}

/**
 * FLOAT_HOURS: time until a helium balloon's net lift is gone. Heat shortens it, as rubber lets helium
 * through faster; treatment lengthens it, as the dried film inside slows the helium. The leak of the full
 * balloon is held to the end, which is cautious for large balloons; the treated factor is known for 11 to 16 in
 * only, and above that its answer is an upper end.
 * Source: diffusion through a wall of thickness mass/(density x area), calibrated by
 * `calibratedPermeability`; treated factor by common practice.
 *
 * @param across inflated diameter, m
 * @param treated whether the inside was treated
 * @param temperature K
 * @param rubber mass of the empty balloon, kg
 * @param altitude geometric altitude, m: thin air carries less, so that less helium may leave
 * @returns s
 * @throws `#N/A` when the balloon cannot carry a ribbon from the start
 */
export function floatDuration(
  across: number,
  treated = false,
  temperature = REFERENCE_TEMPERATURE,
  rubber = rubberMass(across),
  altitude = 0,
): number {
  if (netLift(across, rubber, { temperature, altitude }) < FLOAT_RIBBON_GRAMS.value / 1000) {
    throw unavailable("a balloon of this size does not carry a ribbon with helium");
  }
  const seconds = floatSeconds(across, rubber, temperature, calibratedPermeability(), altitude);
  return seconds * (treated ? TREATED_FLOAT_FACTOR.value : 1);
}

/**
 * INFLATE_FROM: earliest moment to fill so that the balloon still floats when the event ends.
 * Source: `floatDuration`, counted back from the end.
 *
 * @param eventStart s since any epoch
 * @param eventEnd s since the same epoch
 * @param across inflated diameter, m
 * @param treated whether the inside was treated
 * @param temperature K
 * @param altitude geometric altitude, m
 * @returns s since the same epoch, not after the start
 * @throws `#VALUE!` when the event ends before it starts, `#N/A` when a balloon filled at the start does
 * not last
 */
export function earliestFill(
  eventStart: number,
  eventEnd: number,
  across: number,
  treated = false,
  temperature = REFERENCE_TEMPERATURE,
  altitude = 0,
): number {
  if (eventEnd < eventStart) {
    const early = fromSi(eventStart - eventEnd, "h").toFixed(1);
    throw invalid("event_end", "be at or after event_start", { written: `a time ${early} h before it` });
  }
  const floats = floatDuration(across, treated, temperature, undefined, altitude);
  if (eventEnd - floats > eventStart) {
    const hours = fromSi(floats, "h").toFixed(1);
    const needed = fromSi(eventEnd - eventStart, "h").toFixed(1);
    throw unavailable(
      `filled at the start it floats ${hours} h and the event lasts ${needed} h, ` +
        `take a larger ${treated ? "" : "or a treated "}balloon`,
    );
  }
  return eventEnd - floats;
}
