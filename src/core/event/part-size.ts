import { invalid } from "../calc-error";
import { sizedDiameter } from "../geometry/sizing";
import type { PieceCells } from "./cells";
import type { Line } from "./job";
import { KINDS } from "./kinds";
import { longAcross, longLength } from "./long-code";

/**
 * Inflated diameter of a part's balloons: as typed, else as its use sizes it; outdoors less, since the sun expands the air.
 * A foil has its flat size, since its volume follows from that.
 * Source: `sizedDiameter`; the width of a long balloon from its trade code.
 *
 * @param line a row of pieces
 * @returns diameter, m; undefined for a sleeve, which is pulled over relaxed and holds no gas
 * @throws CalcError `#VALUE!` naming the row where the printed size is missing
 */
export function inflatedOf({ cells, place }: Line<PieceCells>): number | undefined {
  const kind = cells.kind ?? "count";
  const rule = KINDS[kind];
  const type = cells.type ?? rule.type;
  const isLong = kind === "sleeve" || type === "long";
  const size = isLong ? longLength(cells) : cells.printed;
  if (size === undefined) throw invalid(`${place}: printed`, "be given", undefined);
  if (kind === "sleeve") return undefined;
  if (type === "long") {
    const across = cells.inflated ?? (cells.code === undefined ? undefined : longAcross(cells.code));
    if (across === undefined)
      throw invalid(
        `${place}: inflated`,
        "be given for a long balloon without a code such as 260",
        undefined,
      );
    return across;
  }
  if (type === "foil") return size;
  if (cells.inflated !== undefined) return cells.inflated;
  const isHelium = (cells.gas ?? rule.gas) === "helium";
  const use = cells.where === "outdoors" ? "outdoors" : isHelium ? "helium" : rule.use;
  return sizedDiameter(size, use);
}
