import { required } from "../attempt";
import { orNone } from "../numeric/tally";
import { ASSEMBLED_PACKING, BAGGED_PACKING } from "../practice";
import { isWithheld } from "../withheld";
import { KINDS, type PartBox } from "./kinds";
import type { Part, Piece } from "./part";
import { balloonVolume } from "./part-gas";

const isRigid = (part: Part): boolean =>
  part.carried === "built" && part.box !== undefined && part.quantity !== 0;

/**
 * The box around parts of one piece: the largest width and depth, the largest height, or where a sleeved pole carries a ball,
 * the pole and half of the ball.
 * Source: ours.
 *
 * @param parts with boxes
 * @returns m; undefined without parts
 */
export function boxOf(parts: readonly Part[]): PartBox | undefined {
  if (parts.length === 0) return undefined;
  const side = (place: 0 | 1 | 2, of = parts): number =>
    Math.max(0, ...of.map(({ box }) => orNone(box?.[place])));
  const poles = parts.filter(({ kind }) => kind === "sleeve");
  const balls = parts.filter(({ kind }) => kind === "ball" || kind === "tied ball" || kind === "cover");
  const carried = poles.length > 0 && balls.length > 0 ? side(2, poles) + side(2, balls) / 2 : 0;
  return [side(0), side(1), Math.max(side(2), carried)];
}

/**
 * The box that one ready-built piece fills in a vehicle.
 *
 * @param piece counted
 * @returns m; undefined where no part of it is rigid and carried built
 */
export function pieceBox(piece: Piece): PartBox | undefined {
  return boxOf(piece.parts.filter(isRigid));
}

/**
 * Room that a part takes in a vehicle. Rigid parts of one piece share its box, which stands on the first of them; parts that
 * give way and bagged balloons go by their volume; what is inflated on site takes none.
 * Source: packing by common practice.
 *
 * @param part counted
 * @param piece the piece it belongs to
 * @returns volume for all pieces, m3
 * @throws CalcError where a number that it needs is withheld
 */
export function partRoom(part: Part, piece: Piece): number {
  if (part.carried === "empty" || part.quantity === 0) return 0;
  const loose = (packing: number): number => (required(part.balloons) * balloonVolume(part)) / packing;
  if (part.carried === "bagged") return loose(BAGGED_PACKING.value);
  // A collar or ball of unknown size lies inside the box of its piece.
  const isInside = part.kind !== "count" && part.kind !== undefined && KINDS[part.kind].box !== undefined;
  if (!isRigid(part)) return isInside && piece.parts.some(isRigid) ? 0 : loose(ASSEMBLED_PACKING.value);
  if (piece.parts.find(isRigid) !== part) return 0;
  for (const { each, quantity } of piece.parts) if (isWithheld(each) && quantity !== 0) required(each);
  const [width, depth, height] = pieceBox(piece) ?? [0, 0, 0];
  return required(piece.quantity) * width * depth * height;
}
