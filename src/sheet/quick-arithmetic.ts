/** Largest scaled number whose decimal digits a double holds for certain: 15 of them. */
const MAX_SCALED = 1e15;

/** A number as whole steps of 1 / scale; undefined where it has more decimals, or too many digits. */
function scaled(value: number, scale: number): number | undefined {
  const steps = Math.round(value * scale);
  return steps / scale === value && Math.abs(steps) < MAX_SCALED ? steps : undefined;
}

const SUM_SCALE = 1e6;
const FACTOR_SCALE = 1e3;

/** The sum that decimal arithmetic gives, for numbers of few decimals; undefined for others. */
export function decimalSum(a: number, b: number): number | undefined {
  const left = scaled(a, SUM_SCALE);
  const right = scaled(b, SUM_SCALE);
  return left === undefined || right === undefined ? undefined : (left + right) / SUM_SCALE || 0;
}

/** The product that decimal arithmetic gives, for numbers of few decimals; undefined for others. */
export function decimalProduct(a: number, b: number): number | undefined {
  const left = scaled(a, FACTOR_SCALE);
  const right = scaled(b, FACTOR_SCALE);
  if (left === undefined || right === undefined) return undefined;
  const steps = left * right;
  return Math.abs(steps) < MAX_SCALED ? steps / FACTOR_SCALE ** 2 || 0 : undefined;
}
