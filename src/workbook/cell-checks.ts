import { type CellRange, parseRange } from "../formula/address";
import { inExtensions } from "./outside-rows";
import type { XmlElement } from "./xml";
import { decodeXstring } from "./xstring";

const KINDS = ["list", "whole", "decimal", "date", "time", "textLength", "custom"] as const;
const OPERATORS = [
  "between",
  "notBetween",
  "equal",
  "notEqual",
  "lessThan",
  "lessThanOrEqual",
  "greaterThan",
  "greaterThanOrEqual",
] as const;

/** How a check or a condition compares. */
export type Comparison = (typeof OPERATORS)[number];

/** What cells may hold, as the file says it (ECMA-376 part 1, 18.3.1.32). */
export interface CellCheck {
  readonly ranges: readonly CellRange[];
  readonly kind: (typeof KINDS)[number];
  readonly comparison: Comparison;
  /** Formulas as the file stores them, without equals sign, written for the first cell of the first range. */
  readonly formula1: string;
  readonly formula2: string;
  readonly allowsBlank: boolean;
  /** What becomes of a value that does not pass: refused, accepted with a word about it, or accepted. */
  readonly strictness: "stop" | "warning" | "none";
  /** Whether a list is offered to choose from. */
  readonly isOffered: boolean;
  /** What the file says to a person who chose the cell. */
  readonly prompt?: string;
  /** What the file says to a person whose value does not pass. */
  readonly fault?: string;
}

/** How something is compared, as an attribute says it. */
export function comparisonOf(word: string | undefined, otherwise: Comparison): Comparison {
  return OPERATORS.find((operator) => operator === word) ?? otherwise;
}

/** The ranges of a `sqref`; what is no range is left out. */
export function rangesOf(text: string): readonly CellRange[] {
  return text
    .trim()
    .split(/\s+/)
    .flatMap((word) => parseRange(word) ?? []);
}

/** The direct child of a name, whatever its namespace. */
function inner(element: XmlElement, local: string): XmlElement | undefined {
  return element.children.find((child) => child.local === local);
}

function checkOf(element: XmlElement): CellCheck | undefined {
  const kind = KINDS.find((word) => word === element.get("type"));
  const ranges = rangesOf(element.get("sqref") ?? inner(element, "sqref")?.text ?? "");
  if (kind === undefined || ranges.length === 0) return undefined;
  const formula = (local: string): string => {
    const found = inner(element, local);
    return decodeXstring((found && inner(found, "f")?.text) ?? found?.text ?? "").trim();
  };
  const words = (flag: string, title: string, text: string): string | undefined => {
    const said = [title, text].flatMap((name) => element.get(name) ?? []).map(decodeXstring);
    return element.flag(flag) && said.length > 0 ? said.join(": ") : undefined;
  };
  const prompt = words("showInputMessage", "promptTitle", "prompt");
  const fault = words("showErrorMessage", "errorTitle", "error");
  const style = element.get("errorStyle") ?? "stop";
  return {
    ranges,
    kind,
    comparison: comparisonOf(element.get("operator"), "between"),
    formula1: formula("formula1"),
    formula2: formula("formula2"),
    allowsBlank: element.flag("allowBlank"),
    strictness: !element.flag("showErrorMessage") ? "none" : style === "stop" ? "stop" : "warning",
    // The attribute of this name hides the arrow.
    isOffered: kind === "list" && !element.flag("showDropDown"),
    ...(prompt !== undefined && { prompt }),
    ...(fault !== undefined && { fault }),
  };
}

/** The checks of a sheet's cells, those that Excel 2010 and later keep in an extension included. */
export function readCellChecks(root: XmlElement): readonly CellCheck[] {
  const plain = root.child("dataValidations")?.all("dataValidation") ?? [];
  return [...plain, ...inExtensions(root, "dataValidation")].flatMap((element) => checkOf(element) ?? []);
}
