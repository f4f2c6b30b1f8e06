import { dateText, otherUnits } from "../functions/echo";
import type { Cell, Measure } from "../functions/definition";

const THIN_SPACE = "\u202f";
const SIGNS: Readonly<Partial<Record<Measure, string>>> = { m2: "m²", m3: "m³", ft2: "ft²", ft3: "ft³" };

/** Groups of three parted by a thin space: readable everywhere, and our own functions read it back. */
function grouped(value: number, least: number, most: number): string {
  return new Intl.NumberFormat("en", { minimumFractionDigits: least, maximumFractionDigits: most })
    .format(value)
    .replaceAll(",", THIN_SPACE);
}

function decimals(value: number): number {
  const size = Math.abs(value);
  if (size === 0 || size >= 1000) return 1;
  return Math.min(6, Math.max(2, 2 - Math.floor(Math.log10(size))));
}

/** A cell as a person reads it, without its unit. */
export function cellText(measure: Measure, value: Cell): string {
  if (typeof value === "object") return value.error;
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (typeof value === "string") return value;
  switch (measure) {
    case "count":
      return grouped(value, 0, 0);
    case "money":
      return grouped(value, 2, 2);
    case "share":
      return `${grouped(value * 100, 0, 2)}%`;
    case "datetime":
      return dateText(value);
    default:
      return grouped(value, 0, decimals(value));
  }
}

const UNITLESS = new Set<Measure>(["count", "share", "money", "number", "datetime", "text", "flag"]);

/** A result with its unit, and what it is in the units of the other half of the world. */
export function valueText(measure: Measure, value: Cell): { readonly text: string; readonly other?: string } {
  const text = cellText(measure, value);
  if (typeof value !== "number" || UNITLESS.has(measure)) return { text };
  const other = otherUnits(measure, value);
  return { text: `${text} ${SIGNS[measure] ?? measure}`, ...(other !== undefined && { other }) };
}

/** True where a column reads better flush right. */
export function isNumberColumn(measure: Measure): boolean {
  return !(measure === "text" || measure === "flag" || measure === "datetime");
}
