import type { CellRange } from "../formula/address";
import { type Comparison, comparisonOf, rangesOf } from "./cell-checks";
import type { CellStyle } from "./model";
import { inExtensions } from "./outside-rows";
import type { ConditionalLooks } from "./styles";
import type { XmlElement } from "./xml";
import { decodeXstring } from "./xstring";

/** A point of a scale: how it is found among the numbers of the range, and its colour where it has one. */
export interface ScaleStop {
  readonly kind: "min" | "max" | "num" | "percent" | "percentile" | "formula";
  readonly value: string;
  readonly color?: string;
  /** Whether a number has to be above the stop of an icon, not just on it. */
  readonly isStrict?: boolean;
}

/** What a condition asks of a cell. Formulas are as the file stores them, for the first cell of the first range. */
export type Question =
  | { readonly kind: "formula"; readonly formula: string }
  | {
      readonly kind: "comparison";
      readonly comparison: Comparison;
      readonly formula1: string;
      readonly formula2: string;
    }
  | { readonly kind: "repetition"; readonly isRepeated: boolean }
  | { readonly kind: "rank"; readonly count: number; readonly isPercent: boolean; readonly isLowest: boolean }
  | {
      readonly kind: "average";
      readonly isAbove: boolean;
      readonly isInclusive: boolean;
      /** Standard deviations beyond the average; 0 asks for the average itself. */
      readonly deviations: number;
    };

/** A format by condition of some cells (ECMA-376 part 1, 18.3.1.10). */
export type CellCondition = { readonly ranges: readonly CellRange[]; readonly priority: number } & (
  | { readonly look: Partial<CellStyle>; readonly question: Question; readonly isLast: boolean }
  | { readonly scale: readonly ScaleStop[] }
  | {
      readonly bar: readonly [ScaleStop, ScaleStop];
      readonly color: string;
      readonly hidesNumber: boolean;
      /** Whether bars begin at zero, and the colour of those of negative numbers there. */
      readonly isFromZero: boolean;
      readonly negativeColor?: string;
    }
  | {
      readonly icons: readonly ScaleStop[];
      /** The name of the icons in the file, such as `3Arrows`. */
      readonly set: string;
      readonly isReversed: boolean;
      readonly hidesNumber: boolean;
    }
);

/** The conditions of a sheet, most important first, and whether there are others that are not read. */
export interface SheetConditions {
  readonly conditions: readonly CellCondition[];
  readonly hasOthers: boolean;
}

const STOPS = ["min", "max", "num", "percent", "percentile", "formula"] as const;
/** A later Excel keeps more about a bar in an extension, and lets it begin at zero; the bar itself stands with the others. */
const REFINED = "dataBar";

/** The formats by condition of a sheet. */
export function readConditions(root: XmlElement, looks: ConditionalLooks): SheetConditions {
  const conditions: CellCondition[] = [];
  const refined = inExtensions(root, "cfRule");
  let hasOthers = refined.some((rule) => rule.get("type") !== REFINED);
  for (const block of root.all("conditionalFormatting")) {
    const ranges = rangesOf(block.get("sqref") ?? "");
    for (const rule of block.all("cfRule")) {
      const read = ranges.length === 0 ? undefined : conditionOf(rule, ranges, looks, refined);
      if (read) conditions.push(read);
      else hasOthers = true;
      const dxf = looks.looks[rule.number("dxfId") ?? -1];
      if (dxf?.isWhole === false) hasOthers = true;
    }
  }
  return { conditions: conditions.sort((a, b) => a.priority - b.priority), hasOthers };
}

function conditionOf(
  rule: XmlElement,
  ranges: readonly CellRange[],
  looks: ConditionalLooks,
  refined: readonly XmlElement[],
): CellCondition | undefined {
  const where = { ranges, priority: rule.number("priority") ?? 0 };
  const type = rule.get("type") ?? "";
  if (type === "colorScale") {
    const scale = stopsOf(rule.child(type), looks);
    return scale && scale.every(({ color }) => color !== undefined) ? { ...where, scale } : undefined;
  }
  if (type === REFINED) {
    const bar = rule.child(type);
    const [low, high, ...more] = stopsOf(bar, looks) ?? [];
    const color = looks.color(bar?.child("color"));
    if (!bar || !low || !high || more.length > 0 || color === undefined) return undefined;
    const known = { ...where, bar: [low, high] as const, color, hidesNumber: !bar.flag("showValue", true) };
    if (rule.child("extLst") === undefined) return { ...known, isFromZero: false };
    const id = firstBelow(rule.child("extLst"), "id")?.text.trim();
    const more14 = firstBelow(
      refined.find((other) => other.get("id") === id),
      REFINED,
    );
    // Bars that all go one way whatever their sign, and those from the middle of the cell, are not drawn.
    if (["none", "middle"].includes(more14?.get("axisPosition") ?? "")) return undefined;
    const isSame = more14?.flag("negativeBarColorSameAsPositive") === true;
    const negativeColor = isSame ? color : looks.color(firstBelow(more14, "negativeFillColor"));
    return { ...known, isFromZero: true, ...(negativeColor !== undefined && { negativeColor }) };
  }
  if (type === "iconSet") {
    const set = rule.child(type);
    const icons = stopsOf(set, looks);
    if (!set || !icons) return undefined;
    return {
      ...where,
      icons,
      set: set.get("iconSet") ?? "3TrafficLights1",
      isReversed: set.flag("reverse"),
      hidesNumber: !set.flag("showValue", true),
    };
  }
  const question = questionOf(rule, type);
  const look = looks.looks[rule.number("dxfId") ?? -1]?.look;
  return question && look ? { ...where, question, look, isLast: rule.flag("stopIfTrue") } : undefined;
}

function firstBelow(element: XmlElement | undefined, local: string): XmlElement | undefined {
  for (const child of element?.children ?? []) {
    const found = child.local === local ? child : firstBelow(child, local);
    if (found) return found;
  }
  return undefined;
}

function stopsOf(scale: XmlElement | undefined, looks: ConditionalLooks): readonly ScaleStop[] | undefined {
  const colors = (scale?.all("color") ?? []).map((color) => looks.color(color));
  const stops = (scale?.all("cfvo") ?? []).map((stop, index): ScaleStop | undefined => {
    const kind = STOPS.find((word) => word === stop.get("type"));
    const color = colors[index];
    const isStrict = !stop.flag("gte", true);
    return (
      kind && {
        kind,
        value: stop.get("val") ?? "",
        ...(color !== undefined && { color }),
        ...(isStrict && { isStrict }),
      }
    );
  });
  const known = stops.filter((stop) => stop !== undefined);
  return known.length >= 2 && known.length === stops.length ? known : undefined;
}

function questionOf(rule: XmlElement, type: string): Question | undefined {
  const [formula1 = "", formula2 = ""] = rule.all("formula").map(({ text }) => decodeXstring(text).trim());
  switch (type) {
    case "cellIs": {
      const comparison = comparisonOf(rule.get("operator"), "equal");
      return { kind: "comparison", comparison, formula1, formula2 };
    }
    case "duplicateValues":
    case "uniqueValues":
      return { kind: "repetition", isRepeated: type === "duplicateValues" };
    case "top10": {
      const [isPercent, isLowest] = [rule.flag("percent"), rule.flag("bottom")];
      return { kind: "rank", count: rule.number("rank") ?? 10, isPercent, isLowest };
    }
    case "aboveAverage": {
      const [isAbove, isInclusive] = [rule.flag("aboveAverage", true), rule.flag("equalAverage")];
      return { kind: "average", isAbove, isInclusive, deviations: rule.number("stdDev") ?? 0 };
    }
    default:
      // Rules about texts, blanks, errors and dates say in a formula what they ask.
      return formula1 === "" ? undefined : { kind: "formula", formula: formula1 };
  }
}
