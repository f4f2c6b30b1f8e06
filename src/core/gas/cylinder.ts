import { overflow, unavailable } from "../calc-error";
import { GAS_LOSS, LEFT_IN_CYLINDER_BAR } from "../practice";
import { fromSi, toSi } from "../units";
import { wholeDown, wholeUp } from "../numeric/whole";
import { SEA_LEVEL_PRESSURE } from "./atmosphere";
import { heliumVolume } from "./fill";
import { heliumMolarDensity } from "./helium";

const CYLINDER_TEMPERATURE = 288.15;
const LEFT_PRESSURE = toSi(LEFT_IN_CYLINDER_BAR.value, "bar");

/**
 * CYLINDER_LITRES: free gas in a cylinder, at 101325 Pa and the cylinder's temperature.
 * Source: real gas, amount = V rho(p, T) by NISTIR 8474.
 *
 * @param waterVolume what the cylinder would hold of water, m3
 * @param gaugePressure pressure above the air's, as a gauge shows it, Pa
 * @param temperature K
 * @returns m3
 */
export function cylinderVolume(
  waterVolume: number,
  gaugePressure: number,
  temperature = CYLINDER_TEMPERATURE,
): number {
  return (
    (waterVolume * heliumMolarDensity(gaugePressure + SEA_LEVEL_PRESSURE, temperature)) /
    heliumMolarDensity(SEA_LEVEL_PRESSURE, temperature)
  );
}

/**
 * Free gas that can be taken from a cylinder before only `leftPressure` is in it.
 * Source: difference of two `cylinderVolume`.
 *
 * @param waterVolume m3
 * @param gaugePressure Pa
 * @param leftPressure gauge pressure that stays, Pa
 * @param temperature K
 * @returns m3, above 0
 * @throws `#N/A` when nothing can be taken
 */
export function usableVolume(
  waterVolume: number,
  gaugePressure: number,
  leftPressure = LEFT_PRESSURE,
  temperature = CYLINDER_TEMPERATURE,
): number {
  if (waterVolume <= 0) throw unavailable("a cylinder of no volume gives no gas");
  if (gaugePressure <= leftPressure) {
    const [bar, left] = [gaugePressure, leftPressure].map((pressure) =>
      Number(fromSi(pressure, "bar").toPrecision(4)),
    );
    throw unavailable(`nothing can be taken from a cylinder at ${bar} bar when ${left} bar stay in it`);
  }
  return (
    cylinderVolume(waterVolume, gaugePressure, temperature) -
    cylinderVolume(waterVolume, leftPressure, temperature)
  );
}

/**
 * COUNT_CYLINDERS: whole cylinders that give a volume of free gas.
 * Source: `usableVolume`.
 *
 * @param volume free gas, m3
 * @param waterVolume m3
 * @param gaugePressure Pa
 * @param leftPressure gauge pressure that stays, Pa
 * @param temperature K
 * @returns cylinders
 * @throws `#N/A` when a cylinder gives nothing, `#NUM!` above 1e9 cylinders
 */
export function countCylinders(
  volume: number,
  waterVolume: number,
  gaugePressure: number,
  leftPressure = LEFT_PRESSURE,
  temperature = CYLINDER_TEMPERATURE,
): number {
  const count = wholeUp(volume / usableVolume(waterVolume, gaugePressure, leftPressure, temperature));
  if (count > 1e9) throw overflow("more than 1e9 cylinders would be needed");
  return count;
}

/**
 * COUNT_FROM_CYLINDER: whole helium balloons that one cylinder fills.
 * Source: `usableVolume` over `heliumVolume`.
 *
 * @param waterVolume m3
 * @param gaugePressure Pa
 * @param across inflated diameter, m
 * @param leftPressure gauge pressure that stays, Pa
 * @param gasLoss helium lost, as a share of what stays in a balloon
 * @param temperature K
 * @returns balloons
 * @throws `#N/A` when the cylinder gives nothing, `#NUM!` above 1e9 balloons
 */
export function countFromCylinder(
  waterVolume: number,
  gaugePressure: number,
  across: number,
  leftPressure = LEFT_PRESSURE,
  gasLoss = GAS_LOSS.value,
  temperature = CYLINDER_TEMPERATURE,
): number {
  const usable = usableVolume(waterVolume, gaugePressure, leftPressure, temperature);
  const count = wholeDown(usable / heliumVolume(across, 1, gasLoss));
  if (count > 1e9) throw overflow("the cylinder would fill more than 1e9 balloons");
  return count;
}
