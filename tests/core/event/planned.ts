import type { ItemNeed } from "../../../src/core/event/item-needs";
import { itemNeeds, partDemands } from "../../../src/core/event/item-needs";
import { freshPlan } from "../../../src/core/event/job-plan";
import type { Part } from "../../../src/core/event/part";
import type { PlannedPiece } from "../../../src/core/event/plan-parts";
import { jobOf, type Tables } from "./job-builder";

/** Pieces of the chosen scenario of some tables. */
export function plannedOf(tables: Tables): readonly PlannedPiece[] {
  const plan = freshPlan(jobOf(tables));
  return plan.piecesOf(plan.chosen);
}

/** The first part of the first piece. */
export function firstPart(tables: Tables): Part {
  const part = plannedOf(tables)[0]?.parts[0]?.part;
  if (part === undefined) throw new Error("no part");
  return part;
}

/** Needs of the chosen scenario. */
export function needsOf(tables: Tables): readonly ItemNeed[] {
  return itemNeeds(partDemands(plannedOf(tables)));
}
