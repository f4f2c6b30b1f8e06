import type { JobPlan } from "./job-plan";
import type { PieceDrawing } from "./drawn-piece";
import { pieceDrawing } from "./piece-drawing";
import { plannedPieces, type PlannedPiece } from "./plan-parts";

/**
 * Every piece of a job drawn to scale. Where an event names options and none is chosen, each option's pieces are drawn, those
 * that options share once and without the name of an option.
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

/** A piece to draw, and in how many scenarios of its event it is built of the same rows. */
interface Built {
  readonly planned: PlannedPiece;
  times: number;
}

function freshDrawing({ job, scope, scenarios, work }: JobPlan): readonly PieceDrawing[] {
  const drawn = new Map<string, Built>();
  for (const { event, inForce } of scenarios)
    for (const planned of plannedPieces(job, scope, inForce, work)) {
      const { piece } = planned;
      if (piece.event !== event || piece.quantity === 0) continue;
      const places = piece.parts.map(({ place }) => place);
      const key = JSON.stringify([event, piece.name, places]);
      const known = drawn.get(key) ?? { planned, times: 0 };
      known.times += 1;
      drawn.set(key, known);
    }
  return [...drawn.values()].map(({ planned, times }) => {
    const drawing = pieceDrawing(planned);
    const isShared = times === scenarios.filter(({ event }) => event === drawing.event).length;
    return isShared ? { ...drawing, option: "" } : drawing;
  });
}
