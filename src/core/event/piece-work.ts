import { attempt, required } from "../attempt";
import { sum } from "../numeric/sums";
import type { Known } from "../withheld";
import { buildingWork, riggingWork, strikeWork } from "./part-work";
import type { PlannedPiece } from "./plan-parts";
import { requiredTerm } from "./terms";
import type { WorkTable } from "./work-table";

/** Person-time of one piece by place, s. */
export interface PieceWork {
  readonly shop: Known;
  /** Building on site. */
  readonly site: Known;
  readonly rigging: Known;
  /** 0 where nothing is collected. */
  readonly strike: Known;
  /** All of it. */
  readonly total: Known;
}

/**
 * Person-time of a piece: building where each part is built, rigging on site, and the strike where pieces are collected.
 * Source: `buildingWork`, `riggingWork`, `strikeWork`.
 *
 * @param planned the piece
 * @param work the decorator's own minutes
 * @returns person-time, s; what needs a withheld number is withheld
 */
export function pieceWork(planned: PlannedPiece, work: WorkTable): PieceWork {
  const { piece, event, parts } = planned;
  const building = (place: "shop" | "site"): number =>
    sum(
      parts
        .filter(({ part }) => part.built === place && part.quantity !== 0)
        .map(({ part, colours }) => buildingWork(part, required(colours.inner), event.terms, work)),
    );
  const shop = attempt(() => building("shop"));
  const site = attempt(() => building("site"));
  const rigging = attempt(() => riggingWork(piece, work));
  const strike = attempt(() =>
    requiredTerm(event.terms, "collect") ? sum(parts.map(({ part }) => strikeWork(part, work))) : 0,
  );
  const total = attempt(() => sum([shop, site, rigging, strike].map(required)));
  return { shop, site, rigging, strike, total };
}
