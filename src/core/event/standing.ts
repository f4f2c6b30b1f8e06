import { attempt, required } from "../attempt";
import { CalcError, unavailable } from "../calc-error";
import { anchorMass } from "../care/anchor";
import type { WindForm } from "../care/wind";
import { columnAcross } from "../geometry/clusters";
import { orNone } from "../numeric/tally";
import { isWithheld, type Known } from "../withheld";
import { SLEEVE_BOX_METRES } from "../practice";
import type { PartBox } from "./kinds";
import type { Part, Piece } from "./part";
import { boxOf } from "./part-room";
import { termOf, type Terms } from "./terms";

const built = ({ parts }: Piece): readonly Part[] =>
  parts.filter(({ quantity }) => isWithheld(quantity) || quantity > 0);

/**
 * The box that one finished piece fills where it stands.
 *
 * @param piece counted
 * @returns m; undefined where none of its parts has one
 */
export function standingBox(piece: Piece): PartBox | undefined {
  return boxOf(built(piece).filter(({ box }) => box !== undefined));
}

/** How the wind sees a piece that stands on the ground; undefined for what hangs, lies or floats. */
function windForm(parts: readonly Part[]): WindForm | undefined {
  const has = (kind: Part["kind"]): boolean => parts.some((part) => part.kind === kind);
  const isBall = has("tied ball") || has("ball") || has("cover");
  if (isBall) return has("sleeve") ? "pole and ball" : "ball";
  if (has("arch")) return "arch";
  if (has("column") || has("sleeve")) return "column";
  return has("wall") ? "wall" : undefined;
}

/** Width and height in the wind, and the thickness of an arch or pole, m. */
function windSize(piece: Piece, form: WindForm): readonly [number, number, number | undefined] {
  const parts = built(piece);
  const arch = parts.find(({ kind }) => kind === "arch");
  if (form === "arch" && arch !== undefined) {
    const { width, height, spacing } = arch.cells;
    const across = columnAcross(required(orNone(arch.inflated)), arch.cells["per cluster"], spacing);
    return [orNone(width), orNone(height), across];
  }
  const [width = 0, , height = 0] = standingBox(piece) ?? [];
  return [width, height, form === "pole and ball" ? SLEEVE_BOX_METRES.value : undefined];
}

/**
 * Feet that share the ballast of one piece outdoors. Source: `anchoring`.
 *
 * @param piece counted
 * @returns 2 for an arch, else 1
 */
export function pieceFeet(piece: Piece): number {
  return windForm(built(piece).filter(({ where }) => where === "outdoors")) === "arch" ? 2 : 1;
}

/**
 * Ballast of one piece that stands outdoors, in all of its feet together.
 * Source: `anchorMass` at the gust of the terms, on the narrowest foot that any of its rows has.
 *
 * @param piece counted
 * @param terms gust
 * @returns kg, or why it cannot be known; undefined for a piece indoors or one that does not stand
 */
export function pieceBallast(piece: Piece, terms: Terms): Known | undefined {
  const parts = built(piece).filter(({ where }) => where === "outdoors");
  const form = windForm(parts);
  if (form === undefined) return undefined;
  return attempt(() => {
    const gust = termOf(terms, "gust");
    if (gust === undefined) throw unavailable(`"${piece.name}" stands outdoors: gust must be given in terms`);
    const feet = parts.flatMap(({ cells }) => cells.base ?? []);
    if (feet.length === 0)
      throw unavailable(
        `"${piece.name}" stands outdoors: base must be given in pieces, the width of its foot`,
      );
    const [width, height, thickness] = windSize(piece, form);
    if (!(width > 0 && height > 0))
      throw new CalcError("#N/A", `"${piece.name}" stands outdoors: width and height must be known`);
    return anchorMass(width, height, Math.min(...feet), gust, form, undefined, 0, thickness);
  });
}
