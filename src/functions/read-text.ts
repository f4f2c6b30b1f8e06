import {
  beaufortSpeed,
  celsiusFromFahrenheit,
  unitNamed,
  UNITS,
  type Dimension,
  type UnitSymbol,
} from "../core/units";

/**
 * What a text says as a number. `ambiguous` marks a lone comma, or in an amount of money a lone point, before three digits,
 * which two conventions read differently.
 */
export type NumberReading =
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "ambiguous" }
  | { readonly kind: "none" };

const NONE: NumberReading = { kind: "none" };
const SPACES = /[\s\u00a0\u2000-\u200b\u202f\u2060\ufeff]+/g;
const CURRENCY = /[\p{Sc}]|\b(?:eur|usd|gbp|aud|cad|chf|nzd|sek|nok|dkk|pln)\b/giu;
const FRACTIONS: Readonly<Record<string, string>> = {
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅓": "1/3",
  "⅔": "2/3",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
};
const POWERS: Readonly<Record<string, string>> = { "2": "²", "3": "³" };

/** Text with every kind of space made one plain space, trimmed. */
export function plainSpaces(text: string): string {
  return text.replace(SPACES, " ").trim();
}

/** A text made comparable: plain spaces, one case, hyphens and underscores as spaces. */
export function comparable(text: string): string {
  return plainSpaces(text.replace(/[_-]/g, " ")).toLowerCase();
}

function grouped(text: string, separator: string): boolean {
  const groups = text.split(separator);
  const [head = "", ...tail] = groups;
  return /^\d{1,3}$/.test(head) && head !== "0" && tail.every((group) => /^\d{3}$/.test(group));
}

/** Reads an amount of money: a number, with a currency sign before or after or without one. */
export function readAmount(text: string): NumberReading {
  const bare = text.replace(CURRENCY, "");
  // Hardly a price has three decimals: "1.234 €" is a thousand to half of the world.
  const isUnclear = bare !== text && /^[+-]?[1-9]\d{0,2}\.\d{3}$/.test(plainSpaces(bare).replace("−", "-"));
  return isUnclear ? { kind: "ambiguous" } : readNumber(bare);
}

/** Reads a number as people type it: decimal point or comma, thousands in groups. */
export function readNumber(text: string): NumberReading {
  const bare = plainSpaces(text).replace(/[ '’]/g, "").replace("−", "-");
  const match = /^([+-]?)([\d.,]+)(e[+-]?\d{1,3})?$/i.exec(bare);
  if (!match) return NONE;
  const [, sign = "", digits = "", exponent = ""] = match;
  if (!/\d/.test(digits)) return NONE;
  const decimal = decimalDigits(digits);
  if (typeof decimal !== "string") return decimal;
  const value = Number(sign + decimal + exponent);
  return Number.isFinite(value) ? { kind: "number", value } : NONE;
}

function decimalDigits(digits: string): string | NumberReading {
  const lastComma = digits.lastIndexOf(",");
  const lastPoint = digits.lastIndexOf(".");
  if (lastComma < 0 && lastPoint < 0) return digits;
  const decimalMark = lastComma > lastPoint ? "," : ".";
  const otherMark = decimalMark === "," ? "." : ",";
  const [whole = "", ...rest] = digits.split(decimalMark);
  if (rest.length > 1) {
    if (digits.includes(otherMark)) return NONE;
    return grouped(digits, decimalMark) ? digits.replaceAll(decimalMark, "") : NONE;
  }
  const fraction = rest[0] ?? "";
  if (whole.includes(otherMark)) {
    return grouped(whole, otherMark) ? `${whole.replaceAll(otherMark, "")}.${fraction}` : NONE;
  }
  if (decimalMark === "," && grouped(digits, ",")) return { kind: "ambiguous" };
  return `${whole || "0"}.${fraction || "0"}`;
}

function readFraction(text: string): NumberReading {
  const match = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(plainSpaces(text));
  if (!match) return readNumber(text);
  const denominator = Number(match[3]);
  if (denominator === 0) return NONE;
  return { kind: "number", value: Number(match[1] ?? 0) + Number(match[2]) / denominator };
}

/** What a text says as a quantity: a value in SI units, or why it cannot be read. */
export type QuantityReading =
  | { readonly kind: "quantity"; readonly si: number }
  | { readonly kind: "bare"; readonly value: number }
  | { readonly kind: "ambiguous" }
  | { readonly kind: "unit"; readonly word: string }
  | { readonly kind: "none" };

/** The number of `6 bft`, `Beaufort 6` or `force 6`; undefined for every other text. */
function beaufortForce(text: string): number | undefined {
  const word = plainSpaces(text).toLowerCase();
  const match =
    /^(\d{1,2}) ?(?:bft|bf|beaufort)\.?$/.exec(word) ??
    /^(?:bft|bf|beaufort|force)\.? ?(\d{1,2})$/.exec(word);
  return match === null ? undefined : Number(match[1]);
}

/**
 * Reads a quantity of one dimension: `6 ft`, `6'2"`, `6 ft 2 1/2 in`, `1,80 m`, `1 m 20 cm`. A number without any unit
 * comes back as `bare`. Curly quotes and prime marks are feet and inches as straight ones are.
 */
export function readQuantity(text: string, dimension: Dimension): QuantityReading {
  const force = dimension === "speed" ? beaufortForce(text) : undefined;
  if (force !== undefined) {
    const si = beaufortSpeed(force);
    return si === undefined ? { kind: "none" } : { kind: "quantity", si };
  }
  const isPower = dimension === "area" || dimension === "volume";
  const straight = plainSpaces(text)
    .replace(/''|[“”″‟„]/g, '"')
    .replace(/[’′‘`´]/g, "'")
    .replace(/[½¼¾⅓⅔⅛⅜⅝⅞]/g, (sign) => ` ${FRACTIONS[sign] ?? ""}`)
    // The digit of m2 and ft3 is part of the unit; that of 6ft2 is a number of inches.
    .replace(/(m|ft)([23])\b/gi, (typed, unit: string, digit: string) =>
      isPower ? `${unit}${POWERS[digit] ?? ""}` : typed,
    );
  const bare = readFraction(straight);
  if (bare.kind === "number") return { kind: "bare", value: bare.value };
  if (bare.kind === "ambiguous") return bare;
  const pieces = [...straight.matchAll(/([+-]?\d[\d.,]*(?: \d+\/\d+|\/\d+)?) ?([^\d+-]*)/g)];
  if (pieces.length === 0 || pieces.map((piece) => piece[0]).join("") !== straight) return { kind: "none" };
  let si = 0;
  let previous: UnitSymbol | undefined;
  for (const [, amount = "", rawWord = ""] of pieces) {
    const number = readFraction(amount);
    if (number.kind !== "number") return number;
    const word = plainSpaces(rawWord)
      .replace(/(?:,| and| &)$/, "")
      .trim();
    const symbol = word === "" && previous === "ft" ? "in" : unitNamed(word);
    if (symbol === undefined || UNITS[symbol].dimension !== dimension) return { kind: "unit", word };
    if (previous !== undefined && (UNITS[symbol].si >= UNITS[previous].si || number.value < 0))
      return { kind: "none" };
    si += number.value * UNITS[symbol].si;
    previous = symbol;
  }
  return { kind: "quantity", si };
}

/** Reads a temperature in degrees C from text such as `77 F`, `25 °C` or a bare number. */
export function readTemperature(text: string): NumberReading {
  const match = /^(.*?)(?:°|º|deg(?:rees)?\.?)? ?(c|f|celsius|fahrenheit)?$/i.exec(plainSpaces(text));
  const number = readNumber(match?.[1] ?? "");
  if (number.kind !== "number") return number;
  const isFahrenheit = (match?.[2] ?? "").toLowerCase().startsWith("f");
  return { kind: "number", value: isFahrenheit ? celsiusFromFahrenheit(number.value) : number.value };
}

const CUMULATIVE_DAYS = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];

/** Reads an ISO date or date-time (`2027-06-19 18:30`) as Excel's serial number in the 1900 date system. */
export function readDateTime(text: string): NumberReading {
  const match = /^(\d{4})-(\d{2})-(\d{2})(?:[ T](\d{1,2}):(\d{2})(?::(\d{2}))?)?$/.exec(plainSpaces(text));
  if (!match) return readNumber(text);
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0] = match
    .slice(1)
    .map((part) => Number(part ?? 0));
  const leap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  const monthStart = CUMULATIVE_DAYS[month - 1];
  const nextMonth = CUMULATIVE_DAYS[month] ?? 365;
  if (monthStart === undefined || year < 1901 || day < 1 || hour > 23 || minute > 59 || second > 59)
    return NONE;
  const monthDays = nextMonth - monthStart + (month === 2 && leap ? 1 : 0);
  if (day > monthDays) return NONE;
  const before = year - 1;
  const leapDays = Math.floor(before / 4) - Math.floor(before / 100) + Math.floor(before / 400);
  const dayNumber = before * 365 + leapDays + monthStart + (month > 2 && leap ? 1 : 0) + day;
  // Serial 0 is 1899-12-30, day 693594 of the proleptic Gregorian calendar counted from 0001-01-01 = 1.
  return { kind: "number", value: dayNumber - 693594 + (hour * 3600 + minute * 60 + second) / 86400 };
}

/** Reads a time of day such as `14:30`, `8:00 pm` or `midnight` as a part of a day, below 1. */
export function readTime(text: string): NumberReading {
  const word = plainSpaces(text).toLowerCase();
  if (word === "midnight") return { kind: "number", value: 0 };
  if (word === "noon") return { kind: "number", value: 0.5 };
  const match = /^(\d{1,2}):(\d{2})(?::(\d{2}))? ?([ap])?\.?m?\.?$/.exec(word);
  if (!match) return readNumber(text);
  const [typed = 0, minute = 0, second = 0] = match.slice(1, 4).map((part) => Number(part ?? 0));
  const half = match[4];
  const hour = half === undefined ? typed : (typed % 12) + (half === "p" ? 12 : 0);
  const isClock =
    hour <= 23 && minute <= 59 && second <= 59 && (half === undefined || (typed >= 1 && typed <= 12));
  return isClock ? { kind: "number", value: (hour * 3600 + minute * 60 + second) / 86400 } : NONE;
}
