import {
  allowsZero,
  isNumeric,
  isOptional,
  limitsOf,
  zeroMeans,
  type ColumnSpec,
  type Param,
  type ScalarParam,
  type ScalarSpec,
} from "./param";
import { plainNumber, rangeText } from "./read-scalar";

const UNIT_WORDS: Readonly<Record<string, string>> = {
  m: "metres",
  in: "inches",
  g: "grams",
  L: "litres",
  bar: "bar",
  "m/s": "metres per second",
  h: "hours",
  C: "degrees C",
};

/** The unit of a bare number in words, or undefined for kinds without one. */
export function unitWords(spec: ScalarSpec): string | undefined {
  if (!isNumeric(spec)) return undefined;
  const { unit } = limitsOf(spec);
  return unit === undefined ? undefined : (UNIT_WORDS[unit] ?? unit);
}

/** A default as a person would type it. */
export function defaultText(param: ScalarParam | ColumnSpec): string | undefined {
  const value = param.default;
  if (value === undefined) return undefined;
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (typeof value === "string") return `"${value}"`;
  return param.kind === "share" ? `${plainNumber(value * 100)}%` : plainNumber(value);
}

function zeroText(param: ScalarParam): string | undefined {
  const zero = zeroMeans(param);
  if (zero === "refused")
    return `type ${param.kind === "temperature" ? '"0 C"' : '"none"'} for zero; a blank cell or a bare 0 is refused`;
  return zero === "zero" && param.kind === "count" && param.default !== 0 && allowsZero(param)
    ? "0 is zero, and so is a blank cell in Excel on the desktop"
    : undefined;
}

function scalarFacts(param: ScalarParam): readonly string[] {
  const facts: string[] = [];
  if (isNumeric(param)) {
    const words = unitWords(param);
    if (words !== undefined) facts.push(`a bare number is ${words}`);
  }
  if (param.kind === "choice")
    facts.push(`one of ${param.options.map((option) => `"${option}"`).join(", ")}`);
  if (param.kind === "flag") facts.push("TRUE or FALSE");
  const fallback = defaultText(param);
  if (fallback !== undefined) facts.push(`default ${fallback}`);
  const zero = zeroText(param);
  if (zero !== undefined) facts.push(zero);
  return facts;
}

/** The allowed range of a numeric argument in words, or undefined. */
export function allowedText(spec: ScalarSpec): string | undefined {
  return isNumeric(spec) ? rangeText(spec) : undefined;
}

/** The facts about a parameter beyond its own sentence: unit, choices, default, columns. */
export function parameterFacts(param: Param): readonly string[] {
  if (param.kind === "table" && param.raw === true) return [];
  if (param.kind === "table") {
    const columns = param.columns.map((column) => (isOptional(column) ? `[${column.name}]` : column.name));
    return [`a range with the columns ${columns.join(", ")}`];
  }
  if (param.kind === "list") {
    const words = unitWords(param.of);
    return ["one row or one column of cells", ...(words === undefined ? [] : [`bare numbers are ${words}`])];
  }
  return scalarFacts(param);
}

/** A parameter's sentence with its facts, as hosts show it while a formula is typed. */
export function parameterText(param: Param): string {
  const facts = parameterFacts(param);
  return facts.length === 0 ? param.text : `${param.text} (${facts.join("; ")})`;
}

/** A parameter as it stands in a signature: brackets where it may be left out, with its default. */
export function parameterSlot(param: Param): string {
  if (!isOptional(param)) return param.name;
  const fallback = param.kind === "list" || param.kind === "table" ? undefined : defaultText(param);
  return fallback === undefined ? `[${param.name}]` : `[${param.name}=${fallback}]`;
}
