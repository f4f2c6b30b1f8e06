import { CellError } from "./plain-functions";

/**
 * DB: what a thing loses in one period at a fixed rate of three digits, in the first and last year by months.
 * Source: Microsoft's page DB.
 */
export function decliningBalance(
  cost: number,
  salvage: number,
  life: number,
  periods: number,
  months = 12,
): number {
  const [period, month] = [Math.trunc(periods), Math.trunc(months)];
  const isDefined = Math.min(cost, salvage) >= 0 && life > 0 && period > 0 && month >= 1 && month <= 12;
  const last = month < 12 ? life + 1 : life;
  if (!isDefined || period > last) throw new CellError("#NUM!");
  if (cost === 0) return 0;
  const rate = Number((1 - (salvage / cost) ** (1 / life)).toFixed(3));
  const first = (cost * rate * month) / 12;
  if (period < 2) return first;
  const whole = (cost - first) * (1 - rate) ** (period - 2) * rate;
  return period > life ? (whole * (12 - month)) / 12 : whole;
}
