import type { CellValue } from "../workbook/model";
import { CellError, cellsOf, numberOf, type PlainArgument } from "./plain-functions";
import { numbersIn } from "./statistics";
import { codeOf } from "./trust";

const MAX_STEPS = 100;

/**
 * IRR by Newton's method, to the last digit: the rate at which payments at equal intervals are worth nothing.
 * `near` is such a rate to some digits, where one is known.
 */
export function internalRate(
  near: CellValue,
  values: PlainArgument = null,
  guess: PlainArgument = null,
): CellValue {
  const payments = cellsOf(values).filter((value): value is number => {
    const code = codeOf(value);
    if (code !== undefined) throw new CellError(code);
    return typeof value === "number";
  });
  const start = cellsOf(guess)[0] ?? null;
  const given = start === null ? 0.1 : numberOf(start);
  if (given <= -1) throw new CellError("#VALUE!");
  let rate = typeof near === "number" && near > -1 ? near : given;
  if (!payments.some((payment) => payment > 0) || !payments.some((payment) => payment < 0)) {
    throw new CellError("#NUM!");
  }
  for (let step = 0; step < MAX_STEPS; step++) {
    let [value, slope] = [0, 0];
    for (const [period, payment] of payments.entries()) {
      const discounted = payment / (1 + rate) ** period;
      value += discounted;
      slope -= (period * discounted) / (1 + rate);
    }
    const next = rate - value / slope;
    if (!Number.isFinite(next) || next <= -1) break;
    if (Math.abs(next - rate) <= 1e-15 * Math.max(1, Math.abs(next))) return next;
    if (step === MAX_STEPS - 1 && Math.abs(next - rate) < 1e-12) return next;
    rate = next;
  }
  if (typeof near === "number") return near;
  throw new CellError("#NUM!");
}

/**
 * MIRR: the rate at which what is paid, discounted at one rate, grows to what is earned, invested again at another.
 * Source: Microsoft's page MIRR, brought into the form in which no rate is divided by.
 */
export function modifiedRate(
  values: PlainArgument = null,
  financeRate: PlainArgument = null,
  reinvestRate: PlainArgument = null,
): CellValue {
  const payments = numbersIn([values]);
  const [finance, reinvest] = [financeRate, reinvestRate].map((rate) => 1 + numberOf(cellsOf(rate)[0]));
  if (finance === undefined || reinvest === undefined) throw new CellError("#VALUE!");
  let [earned, paid] = [0, 0];
  for (const [period, payment] of payments.entries()) {
    if (payment > 0) earned += payment * reinvest ** (payments.length - 1 - period);
    else paid -= payment / finance ** period;
  }
  if (paid === 0 || payments.length < 2) throw new CellError("#DIV/0!");
  return (earned / paid) ** (1 / (payments.length - 1)) - 1;
}
