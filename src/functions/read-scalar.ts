import { CalcError, invalid } from "../core/calc-error";
import { fromSi, kelvinFromCelsius, toSi, UNITS, type UnitSymbol } from "../core/units";
import {
  isQuantity,
  limitsOf,
  type ChoiceSpec,
  type NumberSpec,
  type QuantitySpec,
  type ScalarSpec,
} from "./param";
import {
  comparable,
  plainSpaces,
  readAmount,
  readDateTime,
  readNumber,
  readQuantity,
  readTemperature,
  readTime,
  type NumberReading,
} from "./read-text";

/** A value as core receives it. */
export type ScalarValue = number | string | boolean;

const ZERO_WORDS = new Set(["none", "no", "nil", "zero"]);
const DATE_SERIALS = { first: 36526, last: 73050 };

/** True for what hosts send for a cell or argument that is not filled. */
export function isBlank(value: unknown): boolean {
  if (value === null || value === undefined || value === "") return true;
  return typeof value === "string" && plainSpaces(value) === "";
}

/**
 * The refusal of a bare 0 where neither reading is safe, because some hosts send 0 for a blank cell.
 *
 * @param argument how error sentences name the cell
 * @param spec what the cell must hold
 * @param advice what to do for a value that is not zero
 */
export function refusedZero(
  argument: string,
  spec: ScalarSpec,
  advice: "leave it out" | "type the number",
): CalcError {
  const asked = zeroWords(spec, advice === "type the number");
  return new CalcError(
    "#VALUE!",
    `${argument} is 0 or a blank cell: ${advice === "leave it out" ? `${asked}, or leave it out` : asked}`,
  );
}

function zeroWords(spec: ScalarSpec, isNumberAsked: boolean): string {
  switch (spec.kind) {
    case "temperature":
      return 'type "0 C" for zero';
    case "time":
    case "moment":
      return 'type "0:00" for midnight';
    case "flag":
      return isNumberAsked ? "type yes or no" : "type no";
    default:
      return isNumberAsked ? "type the number, or none for zero" : "type none for zero";
  }
}

/** A number as a person reads it, at most 12 significant digits. */
export function plainNumber(value: number): string {
  return String(Number(value.toPrecision(12)) || 0);
}

/** The limits of a numeric kind as the end of a sentence: `be from 1 to 120 in`. */
export function rangeText(spec: QuantitySpec | NumberSpec): string {
  const { min, max, isAbove, unit } = limitsOf(spec);
  const suffix = unit === undefined ? "" : ` ${unit}`;
  return isAbove
    ? `above ${plainNumber(min)} and at most ${plainNumber(max)}${suffix}`
    : `from ${plainNumber(min)} to ${plainNumber(max)}${suffix}`;
}

function hintFor(spec: QuantitySpec | NumberSpec, value: number, max: number): string | undefined {
  if (spec.kind === "share" && value > max && value <= 100) return `type ${plainNumber(value)}%`;
  const isSerial = value >= DATE_SERIALS.first && value <= DATE_SERIALS.last;
  if (isSerial && max < DATE_SERIALS.first)
    return "this may be a date: sizes such as 5/11/16 must be one per cell";
  return undefined;
}

function checked(argument: string, spec: QuantitySpec | NumberSpec, value: number): number {
  const { min, max, isAbove, unit, noun, such } = limitsOf(spec);
  if (!Number.isFinite(value)) throw invalid(argument, `be ${noun} such as ${such}`, value);
  const isInside = (isAbove ? value > min : value >= min) && value <= max;
  if (!isInside) {
    const written = unit === undefined ? plainNumber(value) : `${plainNumber(value)} ${unit}`;
    throw invalid(argument, `be ${rangeText(spec)}`, { written }, hintFor(spec, value, max));
  }
  if (spec.kind === "count" && !Number.isInteger(value)) throw invalid(argument, "be a whole number", value);
  return value === 0 ? 0 : value;
}

function notReadable(argument: string, spec: QuantitySpec | NumberSpec, value: unknown): CalcError {
  const { noun, such } = limitsOf(spec);
  return invalid(argument, `be ${noun} such as ${such}`, value);
}

function ambiguous(argument: string, text: string): CalcError {
  return invalid(
    argument,
    `be clear about its ${text.includes(",") ? "comma" : "point"}`,
    text,
    "type it as a number, without a thousands mark",
  );
}

/** Fewer minutes are no work and no way that anybody counts. */
const LEAST_BARE_MINUTES = 0.1;

/** The clock that a cell shows whose number, taken for minutes, would be next to nothing; undefined for all others. */
function clockBehind(minutes: number): string | undefined {
  const shown = minutes * 1440;
  const whole = Math.round(shown);
  const isClock = whole > 0 && minutes < LEAST_BARE_MINUTES && Math.abs(shown - whole) < 1e-6;
  return isClock ? `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}` : undefined;
}

/** Throws for a bare number of minutes that a clock left in its cell. */
function refuseClock(argument: string, spec: QuantitySpec, value: number): void {
  const clock = clockBehind(value);
  if (clock === undefined) return;
  const bare = plainNumber(Number(value.toPrecision(3)));
  const { noun, such } = limitsOf({ ...spec, unit: "min" });
  const hint = `a cell that shows ${clock} holds this share of a day: type ${plainNumber(Math.round(value * 1440))}, or "${bare} min" if that is meant`;
  throw invalid(argument, `be ${noun} such as ${such}`, { written: bare }, hint);
}

/** Seconds of `2:30` or `2:30:15`, as a cell shows a number of hours; undefined for every other text. */
function clockSeconds(text: string): number | undefined {
  const [, hours, minutes, seconds = 0] =
    /^(\d{1,4}):([0-5]\d)(?::([0-5]\d))?$/.exec(plainSpaces(text)) ?? [];
  if (hours === undefined) return undefined;
  return Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds);
}

function readQuantityCell(
  argument: string,
  spec: QuantitySpec,
  value: unknown,
  headerUnit?: UnitSymbol,
): number {
  const own = limitsOf(spec).unit as UnitSymbol;
  const bareUnit = headerUnit ?? own;
  // Limits are stated and compared in the parameter's own unit; 15 digits keep 120 in from passing 120 on its way there.
  const quantity = (si: number): number => {
    checked(argument, spec, Number(fromSi(si, own).toPrecision(15)));
    return si;
  };
  if (typeof value === "number") {
    if (bareUnit === "min") refuseClock(argument, spec, value);
    return bareUnit === own ? toSi(checked(argument, spec, value), own) : quantity(toSi(value, bareUnit));
  }
  if (typeof value !== "string") throw notReadable(argument, spec, value);
  if (ZERO_WORDS.has(comparable(value))) return quantity(0);
  // As minutes a clock could be minutes and seconds.
  const clock = bareUnit === "h" ? clockSeconds(value) : undefined;
  if (clock !== undefined) return quantity(clock);
  const reading = readQuantity(value, UNITS[own].dimension);
  if (reading.kind === "ambiguous") throw ambiguous(argument, value);
  if (reading.kind === "bare") return readQuantityCell(argument, spec, reading.value, headerUnit);
  if (reading.kind === "quantity") return quantity(reading.si);
  throw notReadable(argument, spec, value);
}

function readNumberText(spec: NumberSpec, text: string): NumberReading {
  if (spec.kind === "temperature") return readTemperature(text);
  if (spec.kind === "datetime") return readDateTime(text);
  if (spec.kind === "time") return readTime(text);
  if (spec.kind === "moment") {
    const date = readDateTime(text);
    return date.kind === "none" ? readTime(text) : date;
  }
  if (spec.kind === "money" || spec.kind === "number") return readAmount(text);
  const percent = /^(.*)%$/.exec(plainSpaces(text));
  if (!percent || !(spec.kind === "share" || spec.kind === "ratio" || spec.kind === "weight"))
    return readNumber(text);
  const reading = readNumber(percent[1] ?? "");
  return reading.kind === "number" ? { kind: "number", value: reading.value / 100 } : reading;
}

function readNumberCell(argument: string, spec: NumberSpec, value: unknown): number {
  let number: number;
  if (typeof value === "number") number = value;
  else if (typeof value === "string") {
    const reading: NumberReading = ZERO_WORDS.has(comparable(value))
      ? { kind: "number", value: 0 }
      : readNumberText(spec, value);
    if (reading.kind === "ambiguous") throw ambiguous(argument, value);
    if (reading.kind === "none") throw notReadable(argument, spec, value);
    number = reading.value;
  } else throw notReadable(argument, spec, value);
  const inside = checked(argument, spec, number);
  return spec.kind === "temperature" ? kelvinFromCelsius(inside) : inside;
}

const YES = new Set(["true", "yes", "y", "1"]);
const NO = new Set(["false", "no", "n", "0", "none"]);

function readFlagCell(argument: string, value: unknown): boolean {
  if (typeof value === "boolean") return value;
  const word = typeof value === "string" || typeof value === "number" ? comparable(String(value)) : "";
  if (YES.has(word)) return true;
  if (NO.has(word)) return false;
  throw invalid(argument, "be TRUE or FALSE", value);
}

function readChoiceCell(argument: string, spec: ChoiceSpec, value: unknown): string {
  const word = typeof value === "string" ? comparable(value) : undefined;
  const option = spec.options.find((candidate) => comparable(candidate) === word);
  if (option !== undefined) return option;
  throw invalid(argument, `be one of ${spec.options.map((candidate) => `"${candidate}"`).join(", ")}`, value);
}

function readTextCell(argument: string, value: unknown): string {
  if (typeof value !== "string" && typeof value !== "number") throw invalid(argument, "be text", value);
  const text = typeof value === "number" ? plainNumber(value) : plainSpaces(value);
  if (text.length > 255) throw invalid(argument, "be at most 255 characters", { written: `${text.length}` });
  return text;
}

/**
 * Reads one filled cell as its kind, in SI units.
 *
 * @param argument how error sentences name the cell
 * @param spec what the cell must hold
 * @param value the cell, not blank
 * @param headerUnit unit of a bare number where a table header names one
 */
export function readScalar(
  argument: string,
  spec: ScalarSpec,
  value: unknown,
  headerUnit?: UnitSymbol,
): ScalarValue {
  if (isQuantity(spec)) return readQuantityCell(argument, spec, value, headerUnit);
  switch (spec.kind) {
    case "flag":
      return readFlagCell(argument, value);
    case "choice":
      return readChoiceCell(argument, spec, value);
    case "text":
      return readTextCell(argument, value);
    default:
      return readNumberCell(argument, spec, value);
  }
}
