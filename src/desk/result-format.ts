import { ourFunction } from "../formula/names";
import { closingOf, tokenize, withoutPrefix } from "../formula/tokens";
import { functionNamed } from "../functions/catalogue";
import type { Measure } from "../functions/definition";

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

/** The name of the function that a typed formula calls, where the formula is one call. */
function calledName(typed: string): string | undefined {
  const tokens = tokenize(typed.replace(/^=/, "").trim());
  const [first] = tokens;
  return first?.kind === "call" && closingOf(tokens, 1) === tokens.length - 1 ? first.text : undefined;
}

/** The number format of a cell whose formula is one call of a function that gives a date, a share or money. */
export function resultFormat(typed: string): string | undefined {
  const name = calledName(typed);
  if (name === undefined) return undefined;
  const ours = ourFunction(name);
  if (ours === undefined) return OWN[withoutPrefix(name).toUpperCase()];
  const result = functionNamed(ours)?.result;
  return result?.kind === "value" ? FORMATS[result.measure] : undefined;
}

/** The number format of a cell that a formula fills, by its place in what the formula gives; a table begins with its headings. */
export function spillFormat(typed: string): (row: number, column: number) => string | undefined {
  const result = functionNamed(ourFunction(calledName(typed) ?? "") ?? "")?.result;
  if (result?.kind === "list") return () => FORMATS[result.measure];
  if (result?.kind !== "table") return () => undefined;
  const formats = result.columns.map(({ measure }) => FORMATS[measure]);
  return (row, column) => (row === 0 ? undefined : formats[column]);
}
