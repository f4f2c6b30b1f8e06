import { FOIL_FILM_GRAMS_PER_M2 } from "../practice";
import { latexVolume } from "./balloon-shape";
import { foilVolume } from "./fill";
import { rubberMass } from "./rubber-mass";

/** What a helium balloon is made of: its size is the inflated one of latex, the flat one of foil. */
export const HELIUM_TYPES = ["latex", "foil"] as const;

/** One of `BALLOON_TYPES`. */
export type HeliumType = (typeof HELIUM_TYPES)[number];

/**
 * Room inside a full balloon.
 * Source: `latexVolume`, `foilVolume`.
 *
 * @param across inflated diameter of latex, flat diameter of round foil, m
 * @param type latex or foil
 * @returns volume, m3
 */
export function volumeOfType(across: number, type: HeliumType): number {
  return type === "foil" ? foilVolume(across) : latexVolume(across);
}

/**
 * Mass of an empty balloon.
 * Source: `rubberMass`; foil is two discs of film, common practice, from memory.
 *
 * @param across inflated diameter of latex, flat diameter of round foil, m
 * @param type latex or foil
 * @returns mass, kg
 */
export function massOfType(across: number, type: HeliumType): number {
  return type === "foil"
    ? (((2 * Math.PI) / 4) * across ** 2 * FOIL_FILM_GRAMS_PER_M2.value) / 1000
    : rubberMass(across);
}
