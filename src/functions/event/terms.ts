import { DAY_WITHOUT_DATE } from "../../core/event/event-stages";
import type { TermName } from "../../core/event/term-cells";
import { momentText } from "../../core/event/papers/setup";
import { clockText } from "../../core/event/work-plan";
import { fromSi, kelvinFromCelsius, type UnitSymbol } from "../../core/units";
import { isNumeric, isQuantity, limitsOf, type ScalarSpec, type TableColumn } from "../param";

/** How the value of a term is read. A bare 0 is refused where a default above 0 would cost more or nothing stands for it. */
type TermSpec = ScalarSpec & { readonly aliases?: readonly string[]; readonly isNeverZero?: true };

const share: TermSpec = { kind: "share" };
const money: TermSpec = { kind: "money" };
const flag: TermSpec = { kind: "flag" };
const moment: TermSpec = { kind: "moment" };
const never = { isNeverZero: true } as const;

/** Every term. Those marked cannot be told from a blank cell as a bare 0; the others take it for not given. */
const TERMS: Readonly<Record<TermName, TermSpec>> = {
  breakage: { kind: "share", max: 0.9 },
  "breakage outdoors": { kind: "share", max: 0.9 },
  "breakage foil": { kind: "share", max: 0.9 },
  confidence: { kind: "share", min: 0.5, max: 0.9999, ...never },
  costing: { kind: "choice", options: ["used share", "whole bags", "replacement"] },
  "leftover worth": { ...share, ...never },
  "missing balloon each": money,
  pay: { kind: "money", aliases: ["pay per hour"], ...never },
  crew: { kind: "count", min: 1, max: 1000, ...never },
  pace: { kind: "ratio", above: 0, max: 10, ...never },
  buffer: { ...share, ...never },
  "day start": { kind: "time", ...never },
  "day end": { kind: "time", ...never },
  travel: { kind: "duration", unit: "min", max: 10080, ...never },
  distance: { kind: "length", unit: "km", max: 20000, ...never },
  "per km": { ...money, ...never },
  collect: { ...flag, ...never },
  "collect crew": { kind: "count", min: 1, max: 1000, ...never },
  stay: flag,
  "spread travel": flag,
  lengths: { kind: "choice", options: ["m", "ft"] },
  distances: { kind: "choice", options: ["km", "mi"] },
  "gas loss": share,
  purity: { kind: "share", min: 0.5, ...never },
  treated: flag,
  "tether safety": { kind: "ratio", min: 1, max: 10, ...never },
  humidity: { ...share, ...never },
  temperature: { kind: "temperature", ...never },
  altitude: { kind: "altitude" },
  "fill temperature": { kind: "temperature", ...never },
  "fill altitude": { kind: "altitude" },
  gust: { kind: "speed" },
  "room m3": { kind: "volume", unit: "m3", max: 1e7 },
  margin: { kind: "ratio", max: 10, ...never },
  basis: { kind: "choice", options: ["price", "cost"] },
  discount: share,
  tax: share,
  deposit: share,
  minimum: money,
  "tax included": flag,
  "round to": money,
  ending: money,
  budget: money,
  option: { kind: "text" },
  ready: moment,
  access: moment,
  start: moment,
  end: moment,
  "clear by": moment,
  "job spread": { kind: "ratio", above: 0, max: 3, ...never },
  "own spread": { kind: "ratio", above: 0, max: 3, ...never },
  "fullness job spread": { kind: "ratio", above: 0, max: 3, ...never },
  "fullness own spread": { kind: "ratio", above: 0, max: 3, ...never },
  "breakage weight": { kind: "number", min: 1, max: 1e6, ...never },
  "breakage likeness": { ...share, ...never },
  sure: { kind: "share", min: 0.5, max: 0.999, ...never },
};

/** The terms as columns: of the table of events, and of the values in the table of terms. */
export const TERM_COLUMNS: readonly TableColumn[] = Object.entries(TERMS).map(
  ([name, { isNeverZero, ...spec }]): TableColumn => ({
    ...spec,
    name,
    optional: true,
    zero: isNeverZero === true ? "refused" : "default",
  }),
);

const UNIT_WORDS: Readonly<Record<string, string>> = {
  share: "share",
  time: "time of day",
  temperature: "C",
  money: "",
};

/**
 * The value of a term as the worksheet types it, and its unit.
 *
 * @param name the term
 * @param value in SI units; undefined where it is not given
 */
export function typedTerm(
  name: TermName,
  value: number | string | boolean | undefined,
): { readonly amount: number | string; readonly unit: string } {
  const spec = TERMS[name];
  if (value === undefined) return { amount: "", unit: "" };
  if (typeof value === "boolean") return { amount: value ? "yes" : "no", unit: "" };
  if (typeof value === "string") return { amount: value, unit: "" };
  if (spec.kind === "time" || spec.kind === "moment")
    return { amount: value < 1 ? clockText(DAY_WITHOUT_DATE + value) : momentText(value), unit: "" };
  if (spec.kind === "temperature")
    return { amount: Number((value - kelvinFromCelsius(0)).toFixed(6)), unit: "C" };
  if (!isNumeric(spec)) return { amount: value, unit: "" };
  const { unit } = limitsOf(spec);
  if (isQuantity(spec))
    return { amount: Number(fromSi(value, unit as UnitSymbol).toPrecision(12)), unit: unit ?? "" };
  return { amount: Number(value.toFixed(6)), unit: UNIT_WORDS[spec.kind] ?? "" };
}
