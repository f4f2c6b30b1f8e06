import { overflow, unavailable } from "../calc-error";
import { wholeDown, wholeUp } from "../numeric/whole";
import { sum } from "../numeric/sums";
import { DISPOSABLE_BAR, DISPOSABLE_LITRES, GAS_LOSS, LEFT_IN_CYLINDER_BAR } from "../practice";
import { fromSi, toSi } from "../units";
import { pressureAtAltitude, SEA_LEVEL_PRESSURE } from "./atmosphere";
import { heliumVolume } from "./fill";
import { heliumMolarDensity } from "./helium";

/** A helium cylinder as it stands there. */
export interface Cylinder {
  /** What it would hold of water, m3. */
  readonly waterVolume: number;
  /** Pressure above the air's, as a gauge shows it, Pa. */
  readonly gaugePressure: number;
}

/** Where cylinder and balloons are. */
export interface CylinderConditions {
  /** Temperature of the cylinder, K. */
  readonly temperature?: number;
  /** Temperature of the room in which the gas ends up, K. */
  readonly roomTemperature?: number;
  /** Geometric altitude, m. */
  readonly altitude?: number;
}

/** Amount of helium in a cylinder, mol: the one balance that all cylinder functions keep. */
function amount({ waterVolume, gaugePressure }: Cylinder, conditions: CylinderConditions): number {
  const { temperature = 288.15, altitude = 0 } = conditions;
  return waterVolume * heliumMolarDensity(gaugePressure + pressureAtAltitude(altitude), temperature);
}

/** Volume of an amount as free gas at 101325 Pa and the room's temperature, m3. */
function freeVolume(moles: number, { roomTemperature = 293.15 }: CylinderConditions): number {
  return moles / heliumMolarDensity(SEA_LEVEL_PRESSURE, roomTemperature);
}

/**
 * CYLINDER_LITRES: free gas in a cylinder, at 101325 Pa and the room's temperature. At the same gauge pressure a warm
 * cylinder holds less.
 * Source: real gas, amount = V rho(p, T) by NISTIR 8474; air pressure under the gauge by ISO 2533:1975.
 *
 * @param cylinder water volume and gauge pressure
 * @param conditions cylinder 15 C, room 20 C, sea level unless given
 * @returns m3
 */
export function cylinderVolume(cylinder: Cylinder, conditions: CylinderConditions = {}): number {
  return freeVolume(amount(cylinder, conditions), conditions);
}

/**
 * Gauge pressure that stays in a cylinder where nobody typed it: a hired one goes back with some pressure, so that no
 * damp air gets in; a disposable one is emptied.
 * Source: common practice; disposable is what `DISPOSABLE_LITRES` and `DISPOSABLE_BAR` bound.
 *
 * @param cylinder water volume and gauge pressure
 * @returns Pa
 */
export function leftPressureOf({ waterVolume, gaugePressure }: Cylinder): number {
  const isSmall = waterVolume <= toSi(DISPOSABLE_LITRES.value, "L") * (1 + 1e-9);
  const isDisposable = isSmall && gaugePressure <= toSi(DISPOSABLE_BAR.value, "bar") * (1 + 1e-9);
  return isDisposable ? 0 : toSi(LEFT_IN_CYLINDER_BAR.value, "bar");
}

function usable(cylinder: Cylinder, left: number, conditions: CylinderConditions): number {
  const rest = { ...cylinder, gaugePressure: left };
  return Math.max(0, freeVolume(amount(cylinder, conditions) - amount(rest, conditions), conditions));
}

/**
 * Free gas that can be taken from a cylinder before only `leftPressure` is in it.
 * Source: difference of two `cylinderVolume`.
 *
 * @param cylinder water volume and gauge pressure
 * @param leftPressure gauge pressure that stays, Pa; by kind of cylinder unless given
 * @param conditions where cylinder and balloons are
 * @returns m3 at 101325 Pa and the room's temperature, above 0
 * @throws `#N/A` when nothing can be taken
 */
export function usableVolume(
  cylinder: Cylinder,
  leftPressure = leftPressureOf(cylinder),
  conditions: CylinderConditions = {},
): number {
  if (cylinder.waterVolume <= 0) throw unavailable("a cylinder of no volume gives no gas");
  if (cylinder.gaugePressure <= leftPressure) {
    const [bar, left] = [cylinder.gaugePressure, leftPressure].map((pressure) =>
      Number(fromSi(pressure, "bar").toPrecision(4)),
    );
    throw unavailable(`nothing can be taken from a cylinder at ${bar} bar when ${left} bar stay in it`);
  }
  return usable(cylinder, leftPressure, conditions);
}

/**
 * COUNT_CYLINDERS: cylinders that give a volume of free gas, opened in the order given. The last one stands for as many
 * of its kind as are needed; those before it are at hand once, such as part-used ones.
 * Source: `usableVolume`.
 *
 * @param volume free gas at 101325 Pa and the room's temperature, m3
 * @param cylinders in order, at least one
 * @param leftPressure gauge pressure that stays, Pa; by kind of each cylinder unless given
 * @param conditions where cylinders and balloons are
 * @returns cylinders, whole, part-used ones included; those that give nothing are not counted
 * @throws `#N/A` when the last cylinder gives nothing and is needed, `#NUM!` above 1e9 cylinders
 */
export function countCylinders(
  volume: number,
  cylinders: readonly Cylinder[],
  leftPressure?: number,
  conditions: CylinderConditions = {},
): number {
  let [missing, opened] = [volume, 0];
  const last = cylinders.at(-1);
  for (const cylinder of cylinders.slice(0, -1)) {
    const gas = usable(cylinder, leftPressure ?? leftPressureOf(cylinder), conditions);
    if (missing <= volume * 1e-12) break;
    if (gas > 0) opened += 1;
    missing -= gas;
  }
  if (last === undefined || (missing <= volume * 1e-12 && cylinders.length > 1)) return opened;
  const count = opened + wholeUp(missing / usableVolume(last, leftPressure, conditions));
  if (count > 1e9) throw overflow("more than 1e9 cylinders would be needed");
  return count;
}

/**
 * COUNT_FROM_CYLINDER: whole helium balloons that the cylinders at hand fill, each balloon from one of them.
 * Source: `usableVolume` over `heliumVolume`, both as free gas at 101325 Pa and the room's temperature.
 *
 * @param cylinders at hand, at least one
 * @param across inflated diameter, m
 * @param leftPressure gauge pressure that stays, Pa; by kind of each cylinder unless given
 * @param gasLoss helium lost, as a share of what stays in a balloon
 * @param conditions where cylinders and balloons are
 * @returns balloons
 * @throws `#N/A` when no cylinder gives anything, `#NUM!` above 1e9 balloons
 */
export function countFromCylinders(
  cylinders: readonly Cylinder[],
  across: number,
  leftPressure?: number,
  gasLoss = GAS_LOSS.value,
  conditions: CylinderConditions = {},
): number {
  const each = heliumVolume(across, 1, gasLoss, conditions.altitude);
  const gas = cylinders.map((cylinder) =>
    usable(cylinder, leftPressure ?? leftPressureOf(cylinder), conditions),
  );
  const [first] = cylinders;
  // Says why, in the words of a single cylinder.
  if (first !== undefined && gas.every((volume) => volume <= 0))
    usableVolume(first, leftPressure, conditions);
  const count = sum(gas.map((volume) => wholeDown(volume / each)));
  if (count > 1e9) throw overflow("the cylinder would fill more than 1e9 balloons");
  return count;
}
