/** Places that a number may take before it is written with an exponent. */
const MOST_PLACES = 20;

/**
 * A number as it stands within a text, with the 15 digits that Excel keeps and without an exponent as long as 20 places
 * suffice: 0.1 + 0.2 is `0.3`, 1E-7 is `0.0000001`, 1E+21 has its exponent.
 */
export function decimalText(number: number): string {
  const text = String(Number(number.toPrecision(15)));
  const [, sign = "", whole = "", decimals = "", exponent = "0"] =
    /^(-?)(\d+)(?:\.(\d+))?(?:e([+-]\d+))?$/.exec(text) ?? [];
  const shift = Number(exponent);
  if (shift === 0 || Math.abs(shift) > MOST_PLACES) return text.toUpperCase();
  const places = whole.length + shift;
  const all = whole + decimals;
  if (places <= 0) return `${sign}0.${"0".repeat(-places)}${all}`;
  const padded = all.padEnd(places, "0");
  const rest = padded.slice(places);
  return sign + padded.slice(0, places) + (rest === "" ? "" : `.${rest}`);
}
