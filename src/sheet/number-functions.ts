import { NumberValueObject } from "@univerjs/engine-formula";
import { type Calculate, CellError } from "./plain-functions";
import { contentOf, single } from "./univer-values";
import { RefusedFormula } from "./refused-formula";

/** TRUNC: towards zero, to so many decimals. */
export function truncated(number: number, digits = 0): number | undefined {
  // Decimal text keeps 2.3 with one digit from becoming 2.2.
  const whole = Math.trunc(Number(`${String(number)}e${String(Math.trunc(digits))}`));
  const result = Number(`${String(whole)}e${String(-Math.trunc(digits))}`);
  return Number.isFinite(result) ? result : undefined;
}

/** ATAN2: the angle of a direction. */
export function direction(x: number, y: number): number {
  if (x === 0 && y === 0) throw new CellError("#DIV/0!");
  return Math.atan2(y, x);
}

/** CONVERT: temperatures exactly; what Univer has no unit for is refused. */
export function converting(univer: Calculate): Calculate {
  return (...variants) => {
    const [number, from, to] = variants.map((variant) => contentOf(single(variant)));
    const [source, target] = [temperatureScale(from), temperatureScale(to)];
    if (typeof number !== "number" || source === undefined || target === undefined) {
      const result = univer(...variants);
      if (!result.isError() || variants.some((variant) => single(variant).isError())) return result;
      throw new RefusedFormula("CONVERT does not know these units here");
    }
    return NumberValueObject.create((number + source.zero) * (source.step / target.step) - target.zero);
  };
}

/** Kelvins of one degree, and degrees from absolute zero to the scale's own zero. */
const SCALES: Readonly<Record<string, { readonly step: number; readonly zero: number }>> = {
  C: { step: 1, zero: 273.15 },
  cel: { step: 1, zero: 273.15 },
  F: { step: 5 / 9, zero: 459.67 },
  fah: { step: 5 / 9, zero: 459.67 },
  K: { step: 1, zero: 0 },
  kel: { step: 1, zero: 0 },
  Rank: { step: 5 / 9, zero: 0 },
  Reau: { step: 5 / 4, zero: 218.52 },
};

function temperatureScale(unit: unknown): { readonly step: number; readonly zero: number } | undefined {
  return typeof unit === "string" && Object.hasOwn(SCALES, unit) ? SCALES[unit] : undefined;
}
