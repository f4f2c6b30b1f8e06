import { TALL_PIECE_METRES } from "../core/practice";
import { fromSi, unitNamed, UNITS, type Dimension, type UnitSymbol } from "../core/units";
import type { Measure } from "./definition";
import { isQuantity, limitsOf, type Param, type QuantitySpec, type ScalarSpec } from "./param";
import { isBlank, plainNumber, readScalar } from "./read-scalar";
import { plainSpaces, readQuantity } from "./read-text";

/** What was understood from an argument: one line, and a question where the value is allowed but unlikely. */
export interface Echo {
  readonly text: string;
  readonly note?: string;
}

const FOREIGN = new Set<UnitSymbol>(["in", "ft", "yd", "ft2", "ft3", "oz", "lb", "psi", "mph", "lbf"]);

/** A number with few enough digits to be read at a glance: three significant, no fraction from 100 on. */
function short(value: number): string {
  return plainNumber(Math.abs(value) >= 100 ? Math.round(value) : Number(value.toPrecision(3)));
}

function amount(si: number, symbol: UnitSymbol): string {
  return `${short(fromSi(si, symbol))} ${symbol}`;
}

function feetAndInches(metres: number): string {
  const inches = Math.round(fromSi(metres, "in"));
  if (inches < 36) return amount(metres, "in");
  if (inches >= 1200) return amount(metres, "ft");
  const rest = inches % 12;
  return `${Math.floor(inches / 12)} ft${rest === 0 ? "" : ` ${rest} in`}`;
}

function hoursAndMinutes(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}

/** A quantity in the units of the other half of the world, or undefined where both halves use the same. */
const IN_FEET: Readonly<Partial<Record<Dimension, (si: number) => string>>> = {
  length: feetAndInches,
  area: (si) => amount(si, "ft2"),
  volume: (si) => amount(si, "ft3"),
  mass: (si) => amount(si, si < 0.5 ? "oz" : "lb"),
  pressure: (si) => amount(si, "psi"),
  speed: (si) => amount(si, "mph"),
  force: (si) => amount(si, "lbf"),
};
const IN_METRES: Readonly<Partial<Record<Dimension, (si: number) => string>>> = {
  length: (si) => amount(si, si < 1 ? "cm" : "m"),
  area: (si) => amount(si, "m2"),
  volume: (si) => amount(si, si < 1 ? "L" : "m3"),
  mass: (si) => amount(si, si < 1 ? "g" : "kg"),
  pressure: (si) => amount(si, "bar"),
  speed: (si) => amount(si, "m/s"),
  force: (si) => amount(si, "N"),
};

function counterpart(si: number, symbol: UnitSymbol): string | undefined {
  const { dimension } = UNITS[symbol];
  if (dimension === "duration") return hoursAndMinutes(si);
  return (FOREIGN.has(symbol) ? IN_METRES : IN_FEET)[dimension]?.(si);
}

/**
 * A result in the units of the other half of the world: a length in metres in feet and inches, grams in ounces.
 *
 * @param measure what the number is
 * @param value the number in that measure
 * @returns the text, or undefined for what has no other unit
 */
export function otherUnits(measure: Measure, value: number): string | undefined {
  return measure in UNITS
    ? counterpart(value * UNITS[measure as UnitSymbol].si, measure as UnitSymbol)
    : undefined;
}

function unitTyped(text: string): UnitSymbol | undefined {
  const words =
    text
      .replace(/[’′]/g, "'")
      .replace(/[”″]/g, '"')
      .match(/[^\d\s.,/+-]+/g) ?? [];
  return words.map((word) => unitNamed(word)).find((symbol) => symbol !== undefined);
}

function quantityEcho(param: QuantitySpec, name: string, value: unknown, si: number): Echo | undefined {
  const own = limitsOf(param).unit as UnitSymbol;
  const reading = typeof value === "string" ? readQuantity(value, UNITS[own].dimension) : undefined;
  const isBare = reading?.kind !== "quantity";
  const typed = isBare ? own : (unitTyped(String(value)) ?? own);
  const given = isBare ? `${plainNumber(fromSi(si, own))} ${own}` : plainSpaces(String(value));
  const inOwn = typed === own ? undefined : amount(si, own);
  // Feet turned into metres already are in the units of the other half.
  const other = FOREIGN.has(typed) === FOREIGN.has(own) ? counterpart(si, own) : undefined;
  const steps = [...new Set([given, inOwn, other].filter((step) => step !== undefined))];
  const isTall = isBare && own === "m" && /(?:^|_)height$/.test(name) && si > TALL_PIECE_METRES.value;
  if (steps.length < 2 && !isTall) return undefined;
  const feet = `${plainNumber(fromSi(si, own))} ft`;
  return {
    text: steps.join(" = "),
    ...(isTall && { note: `few pieces are that tall; did you mean feet? then type "${feet}"` }),
  };
}

/** An Excel date serial as a calendar date with its time. */
export function dateText(serial: number): string {
  const minutes = Math.round(serial * 1440);
  const date = new Date(Date.UTC(1899, 11, 30) + minutes * 60_000);
  const [day = "", time = ""] = date.toISOString().slice(0, 16).split("T");
  return time === "00:00" ? day : `${day} ${time}`;
}

function numberEcho(spec: ScalarSpec, value: unknown, read: number): Echo | undefined {
  const typed = typeof value === "string" ? plainSpaces(value) : plainNumber(Number(value));
  if (spec.kind === "temperature") {
    const celsius = plainNumber(Number((read - 273.15).toFixed(2)));
    const fahrenheit = plainNumber(Number(((read - 273.15) * 1.8 + 32).toFixed(1)));
    return { text: /f/i.test(typed) ? `${typed} = ${celsius} C` : `${celsius} C = ${fahrenheit} F` };
  }
  if (spec.kind === "datetime") {
    const text = dateText(read);
    return text === typed ? undefined : { text: `${typed} = ${text}` };
  }
  if (spec.kind === "share" && !typed.endsWith("%"))
    return { text: `${typed} = ${plainNumber(read * 100)}%` };
  const plain = plainNumber(read);
  return plain === typed ? undefined : { text: `${typed} = ${plain}` };
}

/**
 * Says how an argument was understood, in units of both halves of the world. Undefined where there is nothing to add to
 * what was typed, and where the argument is blank or refused.
 *
 * @param param the parameter
 * @param value the argument as the worksheet sends it: a cell, or rows of cells
 */
export function echo(param: Param, value: unknown): Echo | undefined {
  if (param.kind === "table" || param.kind === "list" || Array.isArray(value) || isBlank(value))
    return undefined;
  let read;
  try {
    read = readScalar(param.name, param, value);
  } catch {
    return undefined;
  }
  if (typeof read !== "number") return undefined;
  return isQuantity(param) ? quantityEcho(param, param.name, value, read) : numberEcho(param, value, read);
}
