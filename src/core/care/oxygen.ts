import { invalid } from "../calc-error";

/**
 * Oxygen in room air, share by volume. Source: University of Nottingham, safety calculators, cryogen oxygen
 * depletion: 20.95 %.
 */
export const OXYGEN_IN_AIR = 0.2095;
/**
 * Below this share the air counts as oxygen-deficient. Source: 29 CFR 1910.134(d)(2)(iii), 19.5 % by
 * volume.
 */
export const OXYGEN_LIMIT = 0.195;

/**
 * Oxygen left when the helium pushes out as much plain room air as it takes up and then mixes with the rest.
 * Source: displacement model of the University of Nottingham safety calculator, 0.2095 (V - v)/V.
 *
 * @param roomVolume m3, above 0
 * @param heliumVolume free gas, m3
 * @returns share, 0 to 0.2095
 */
export function oxygenByDisplacement(roomVolume: number, heliumVolume: number): number {
  return OXYGEN_IN_AIR * Math.max(0, 1 - heliumVolume / roomVolume);
}

/**
 * Oxygen left when the helium mixes at once and the mixture leaves the room, so that some helium leaves
 * with it.
 * Source: perfectly mixed vessel, exponential dilution, 0.2095 exp(-v/V).
 *
 * @param roomVolume m3, above 0
 * @param heliumVolume free gas, m3
 * @returns share, 0 to 0.2095
 */
export function oxygenByDilution(roomVolume: number, heliumVolume: number): number {
  return OXYGEN_IN_AIR * Math.exp(-heliumVolume / roomVolume);
}

/**
 * OXYGEN_PERCENT: oxygen left in a closed room when all of the helium leaks: the worse of displacement and
 * exponential dilution, which is always displacement. Both are means over the room: helium gathers under
 * the ceiling, where it can be far worse. An estimate, never a permission to enter.
 * Source: `oxygenByDisplacement`, `oxygenByDilution`.
 *
 * @param roomVolume m3, above 0
 * @param heliumVolume free gas, m3
 * @returns share, 0 to 0.2095; compare with `OXYGEN_LIMIT`
 * @throws `#VALUE!` for a room of no volume
 */
export function oxygenShare(roomVolume: number, heliumVolume: number): number {
  if (roomVolume <= 0) throw invalid("room_m3", "be above 0 m3", roomVolume);
  return Math.min(oxygenByDisplacement(roomVolume, heliumVolume), oxygenByDilution(roomVolume, heliumVolume));
}
