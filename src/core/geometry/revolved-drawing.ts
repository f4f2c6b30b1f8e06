import { entryAt } from "../numeric/entry-at";
import { clusterPlacements } from "./clusters-drawing";
import { type Placement, refuseLargeDrawing } from "./drawing";
import { type ProfilePoint, revolvedPlan } from "./revolved";

/**
 * Drawing of `revolvedPlan`. Rings are stretched or squeezed to whole balloons and whole rings, and rings of
 * different numbers do not nest evenly: neighbours of two rings come up to a quarter nearer than the spacing,
 * up to half on a body less than three balloons across.
 *
 * @param profile height and radius of the finished outline from the base up, m
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns balloons, ring by ring from the base
 * @throws CalcError as `revolvedPlan`; `#NUM!` for more than 20000 balloons
 */
export function revolvedPlacements(
  profile: readonly ProfilePoint[],
  balloon: number,
  spacing = 1,
): readonly Placement[] {
  const plan = revolvedPlan(profile, balloon, spacing);
  refuseLargeDrawing(plan.reduce((sum, { balloons }) => sum + balloons, 0));
  const base = entryAt(profile, 0).height;
  return plan.flatMap(({ height, ringDiameter, balloons }, index) =>
    clusterPlacements(
      index,
      balloons,
      balloons === 1 ? 0 : ringDiameter,
      (x, z) => ({ x, y: height - base, z }),
      balloon,
    ),
  );
}
