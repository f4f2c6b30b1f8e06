import { required } from "../attempt";
import { invalid } from "../calc-error";
import { slidingMass } from "../care/anchor";
import { assertGust } from "../care/take-down";
import { balloonDrag } from "../care/tether";
import { latexVolume } from "../gas/balloon-shape";
import { massOfType } from "../gas/balloon-type";
import { foilVolume, pressureShare } from "../gas/fill";
import { liftDensity } from "../gas/lift";
import { insidePressure } from "../gas/overpressure";
import { rubberMass } from "../gas/rubber-mass";
import { orNone } from "../numeric/tally";
import { isWithheld } from "../withheld";
import { longLength } from "./long-code";
import { rowCheck, type Part } from "./part";
import type { Problem } from "../problem";
import { requiredTerm, type Terms } from "./terms";

/**
 * Room inside one balloon of a part: what its packet says, else by its shape. A sleeve is pulled over relaxed and holds none.
 * Source: `latexVolume`; `foilVolume`; a cylinder for long balloons.
 *
 * @param part its size must be known
 * @returns volume, m3
 * @throws CalcError where the size is withheld
 */
export function balloonVolume(part: Part): number {
  const { cells, inflated } = part;
  if (inflated === undefined) return 0;
  const typed = cells["litres each"];
  if (typed !== undefined) return typed;
  const across = required(inflated);
  if (part.type === "foil") return foilVolume(across);
  if (part.type === "latex") return latexVolume(across);
  const length = longLength(cells);
  if (length === undefined) throw invalid(`${part.place}: printed`, "be given", undefined);
  return (Math.PI / 4) * across ** 2 * length;
}

/**
 * A foil whose gas and weight nobody has read off its packet. A shape holds less than the round foil of its size, or more.
 *
 * @param part a row of pieces
 * @returns one check at most; none for what is filled with air, parked or not counted
 */
export function roundFoil(part: Part): readonly Problem[] {
  const isCounted = part.quantity !== 0 && !isWithheld(part.balloons);
  if (!isCounted || part.gas === "air" || part.type !== "foil" || part.cells["litres each"] !== undefined)
    return [];
  const what = `${part.place}: foil is taken as round, type litres each and grams each from its packet`;
  return [rowCheck(part, what, "type them, or leave it for a round foil")];
}

/**
 * Air to pump for all pieces of a part. Source: `balloonVolume`; the rubber's squeeze is left out, as capacity tables do.
 *
 * @param part counted
 * @returns volume, m3; 0 where it is filled with helium
 * @throws CalcError where a number of it is withheld
 */
export function partAir(part: Part): number {
  return part.gas === "air" ? required(part.balloons) * balloonVolume(part) : 0;
}

/**
 * Helium to order for all pieces of a part, as free gas at sea-level pressure, as `heliumVolume`. What a packet says is free gas
 * already, and foil is filled to the pressure of the room.
 * Source: Boyle's law at the balloon's overpressure and the altitude; loss by common practice.
 *
 * @param part counted
 * @param terms of its event, gas loss and altitude
 * @returns volume, m3; 0 where it is filled with air
 * @throws CalcError where a number of it, the gas loss or the altitude is withheld
 */
export function partHelium(part: Part, terms: Terms): number {
  if (part.gas === "air") return 0;
  const isFree = part.type === "foil" || part.cells["litres each"] !== undefined;
  const outside = pressureShare(requiredTerm(terms, "altitude"));
  const free = balloonVolume(part) * (isFree ? outside : insidePressure(outside));
  return required(part.balloons) * free * (1 + requiredTerm(terms, "gas loss"));
}

/** Weight of one empty balloon, kg. Source: typed, else rubber by printed size, foil as two discs of film. */
function balloonMass(part: Part): number {
  const { cells, place } = part;
  const typed = cells["grams each"];
  if (typed !== undefined) return typed;
  const across = required(orNone(part.inflated));
  if (part.type === "foil") return massOfType(across, "foil");
  if (part.type === "latex") return rubberMass(cells.printed ?? across);
  throw invalid(`${place}: grams each`, "be given for a long balloon with helium", undefined);
}

/**
 * What the helium balloons of a part carry in one piece beyond their own weight, second balloons inside included.
 * Source: Archimedes, balloons x (V x lift density - mass).
 *
 * @param part counted
 * @param inner balloons inside others in one piece
 * @param terms temperature, altitude, purity and humidity
 * @returns mass, kg, below 0 where they do not float; 0 for air
 * @throws CalcError where a number of it is withheld
 */
export function partLift(part: Part, inner: number, terms: Terms): number {
  if (part.gas === "air") return 0;
  const density = liftDensity({
    temperature: requiredTerm(terms, "temperature"),
    altitude: requiredTerm(terms, "altitude"),
    purity: requiredTerm(terms, "purity"),
    humidity: requiredTerm(terms, "humidity"),
  });
  const each = required(part.each);
  return each * balloonVolume(part) * density - (each + inner) * balloonMass(part);
}

/**
 * Weight that holds the helium balloons of a part down in one piece. Outdoors it must not slide either; every balloon catches
 * the full wind. Loose balloons against a ceiling have none.
 * Source: as `tetherMass`, drag by `balloonDrag`.
 *
 * @param part counted
 * @param inner balloons inside others in one piece
 * @param terms safety, and the gust outdoors
 * @returns mass, kg
 * @throws CalcError outdoors without a gust or above the take-down gust, or where a number is withheld
 */
export function partTether(part: Part, inner: number, terms: Terms): number {
  if (part.gas === "air" || part.style === "ceiling") return 0;
  const safety = requiredTerm(terms, "tether safety");
  const lift = Math.max(0, partLift(part, inner, terms));
  if (part.where === "indoors") return safety * lift;
  const gust = requiredTerm(terms, "gust");
  assertGust(gust);
  const across = required(orNone(part.inflated));
  const drag = balloonDrag(across, gust, part.type === "foil" ? "foil" : "latex");
  return safety * (lift + required(part.each) * slidingMass(drag));
}
