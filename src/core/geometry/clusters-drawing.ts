import { CLUSTER_SPACING, PER_CLUSTER } from "../practice";
import { clusterShape, columnPlan, garlandCount } from "./clusters";
import { type Placement, refuseLargeDrawing, standing } from "./drawing";

/**
 * One cluster, in the plane of two directions, every other one turned by half a step.
 *
 * @param index number of the cluster, from 0
 * @param perCluster balloons in it
 * @param ringDiameter of the circle through the centres, m
 * @param at the point at distances along the two directions, m
 * @param balloon inflated diameter, m
 * @returns balloons round the circle
 */
export function clusterPlacements(
  index: number,
  perCluster: number,
  ringDiameter: number,
  at: (across: number, forward: number) => Pick<Placement, "x" | "y" | "z">,
  balloon: number,
): readonly Placement[] {
  return Array.from({ length: perCluster }, (_, place) => {
    const turn = ((2 * place + (index % 2)) * Math.PI) / perCluster;
    // A turned balloon on the axis would stand at -0.
    const point = at((ringDiameter / 2) * Math.sin(turn), (ringDiameter / 2) * Math.cos(turn) + 0);
    return { ...point, radius: balloon / 2, row: index + 1 };
  });
}

/**
 * Drawing of `columnCount`. Neighbours are exactly at the spacing.
 *
 * @param height finished height, m
 * @param balloon inflated diameter, m
 * @param perCluster balloons in a cluster
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns balloons, cluster by cluster from the base
 * @throws CalcError as `columnCount`; `#NUM!` for more than 20000 balloons
 */
export function columnPlacements(
  height: number,
  balloon: number,
  perCluster = PER_CLUSTER.value,
  spacing = CLUSTER_SPACING.value,
): readonly Placement[] {
  const plan = columnPlan(height, balloon, perCluster, spacing);
  refuseLargeDrawing(plan.length * perCluster);
  return plan.flatMap((ring, index) =>
    clusterPlacements(index, perCluster, ring.ringDiameter, (x, z) => ({ x, y: ring.height, z }), balloon),
  );
}

/**
 * Drawing of `garlandCount`, lying along x. Neighbours are exactly at the spacing, so that the last cluster
 * may stand over the end.
 *
 * @param length length of the line, m
 * @param balloon inflated diameter, m
 * @param perCluster balloons in a cluster
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns balloons, cluster by cluster from the left
 * @throws CalcError as `garlandCount`; `#NUM!` for more than 20000 balloons
 */
export function garlandPlacements(
  length: number,
  balloon: number,
  perCluster = PER_CLUSTER.value,
  spacing = CLUSTER_SPACING.value,
): readonly Placement[] {
  const count = garlandCount(length, balloon, perCluster, spacing);
  refuseLargeDrawing(count);
  const clusters = count / perCluster;
  const { pitch, ringDiameter } = clusterShape(balloon, perCluster, spacing);
  return standing(
    Array.from({ length: clusters }, (_, index) => {
      const x = (index - (clusters - 1) / 2) * pitch;
      return clusterPlacements(index, perCluster, ringDiameter, (y, z) => ({ x, y, z }), balloon);
    }).flat(),
  );
}
