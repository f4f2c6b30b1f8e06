import type { JobPlan } from "./job-plan";
import type { PieceDrawing } from "./drawn-piece";
import { pieceDrawing } from "./piece-drawing";
import { plannedPieces, type PlannedPiece } from "./plan-parts";

/**
 * Every piece of a job drawn to scale. Where an event names options and none is chosen, each option's pieces are drawn, those
 * that options share once.
 *
 * @param plan of the job
 * @returns pieces by event, in the order of the table; those that are not built are left out
 */
export function jobDrawing(plan: JobPlan): readonly PieceDrawing[] {
  const known = byPlan.get(plan) ?? freshDrawing(plan);
  byPlan.set(plan, known);
  return known;
}

const byPlan = new WeakMap<JobPlan, readonly PieceDrawing[]>();

function freshDrawing({ job, scope, scenarios, work }: JobPlan): readonly PieceDrawing[] {
  const drawn = new Map<string, PlannedPiece>();
  for (const { event, inForce } of scenarios)
    for (const planned of plannedPieces(job, scope, inForce, work)) {
      const { piece } = planned;
      if (piece.event !== event || piece.quantity === 0) continue;
      const places = piece.parts.map(({ place }) => place);
      const key = JSON.stringify([event, piece.name, places]);
      if (!drawn.has(key)) drawn.set(key, planned);
    }
  return [...drawn.values()].map(pieceDrawing);
}
