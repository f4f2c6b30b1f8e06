import { freshPlan } from "../../../src/core/event/job-plan";
import type { PieceCells } from "../../../src/core/event/cells";
import type { TermCells } from "../../../src/core/event/term-cells";
import type { Part, Piece } from "../../../src/core/event/part";
import type { PlannedPiece } from "../../../src/core/event/plan-parts";
import type { ScenarioCosts } from "../../../src/core/event/scenario-costs";
import { resolvedTerms, type Terms } from "../../../src/core/event/terms";
import { inches, jobOf, type Row, type Tables } from "./job-builder";

/** Stages of a job as a test asks for them: its pieces planned, its costs before they are rounded. */

export function plannedOf(tables: Tables): readonly PlannedPiece[] {
  const plan = freshPlan(jobOf(tables));
  return plan.piecesOf(plan.chosen);
}

export function costsOf(tables: Tables): ScenarioCosts {
  const plan = freshPlan(jobOf(tables));
  return plan.costsOf(plan.chosen);
}

/** A piece of 11 in white balloons, with whatever else its rows say. */
export function pieceOfRows(rows: readonly Row<PieceCells>[], more: Tables = {}): Piece {
  const full = rows.map((row) => ({
    name: "Piece",
    colour: "White",
    ...(row.code === undefined && { printed: inches(11) }),
    ...row,
  }));
  const [planned] = plannedOf({ ...more, pieces: full });
  if (planned === undefined) throw new Error("no piece");
  return planned.piece;
}

export function partOfRow(row: Row<PieceCells>, more: Tables = {}): Part {
  const [part] = pieceOfRows([row], more).parts;
  if (part === undefined) throw new Error("no part");
  return part;
}

/** Terms as one event has them where only these were typed. */
export function termsOf(terms: Partial<TermCells> = {}): Terms {
  return resolvedTerms(jobOf({ terms }));
}
