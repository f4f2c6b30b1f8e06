import { ourFunction } from "../formula/names";
import { closingOf, tokenize, withoutPrefix } from "../formula/tokens";
import { functionNamed } from "../functions/catalogue";
import type { Measure } from "../functions/define";

const FORMATS: Readonly<Partial<Record<Measure, string>>> = {
  datetime: "yyyy-mm-dd hh:mm",
  share: "0.0%",
  money: "#,##0.00",
};
/** Excel's own functions that format an unformatted cell. */
const OWN: Readonly<Record<string, string>> = {
  TODAY: "yyyy-mm-dd",
  DATE: "yyyy-mm-dd",
  EDATE: "yyyy-mm-dd",
  EOMONTH: "yyyy-mm-dd",
  WORKDAY: "yyyy-mm-dd",
  NOW: "yyyy-mm-dd hh:mm",
  TIME: "hh:mm",
};

/** The number format of a cell whose formula is one call of a function that gives a date, a share or money. */
export function resultFormat(typed: string): string | undefined {
  const tokens = tokenize(typed.replace(/^=/, "").trim());
  const [first] = tokens;
  if (first?.kind !== "call" || closingOf(tokens, 1) !== tokens.length - 1) return undefined;
  const ours = ourFunction(first.text);
  if (ours === undefined) return OWN[withoutPrefix(first.text).toUpperCase()];
  const result = functionNamed(ours)?.result;
  return result?.kind === "value" ? FORMATS[result.measure] : undefined;
}
