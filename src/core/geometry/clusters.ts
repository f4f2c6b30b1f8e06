import { wholeUp } from "../numeric/whole";
import { CLUSTER_SPACING, LAST_CLUSTER_SLACK, PER_CLUSTER } from "../practice";
import { checkCount, checkLength, neighbourDistance } from "./checks";

/** Shape of a stack of clusters of equal balloons. */
export interface ClusterShape {
  /** Distance from one cluster to the next along the stack, m. */
  readonly pitch: number;
  /** Diameter of the circle through a cluster's centres, m. */
  readonly ringDiameter: number;
}

/** One ring of a building plan, from the base up. */
export interface RingRow {
  /** 1 at the base. */
  readonly row: number;
  /** Height of the balloons' centres above the base, m. */
  readonly height: number;
  /** Diameter of the circle through the balloons' centres, m. */
  readonly ringDiameter: number;
  readonly balloons: number;
}

/**
 * Clusters of n balloons in a ring, each cluster turned by half a step and nested into the one before it,
 * every balloon touching two of its own cluster and two of each neighbouring cluster.
 * Source: equal spheres, pitch = s d sqrt(1 - 1/(4 cos^2(pi/2n))), ring = s d/sin(pi/n).
 *
 * @param balloon inflated diameter, m
 * @param perCluster balloons in a cluster, 2 or more
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns pitch and ring, m
 * @throws CalcError `#VALUE!` where `perCluster` is not a whole number of 2 or more, or `spacing` is outside
 *   its limits
 */
export function clusterShape(
  balloon: number,
  perCluster = PER_CLUSTER.value,
  spacing = CLUSTER_SPACING.value,
): ClusterShape {
  const distance = neighbourDistance(balloon, spacing);
  checkCount("per_cluster", perCluster, 2);
  return {
    pitch: distance * Math.sqrt(1 - 1 / (4 * Math.cos(Math.PI / (2 * perCluster)) ** 2)),
    ringDiameter: distance / Math.sin(Math.PI / perCluster),
  };
}

function columnClusters(height: number, balloon: number, pitch: number): number {
  checkLength("height", height);
  return Math.max(1, wholeUp((height - balloon) / pitch - LAST_CLUSTER_SLACK.value) + 1);
}

/**
 * COUNT_COLUMN: balloons for a column of stacked clusters. A last cluster is built only where more than a
 * quarter of it is missing.
 *
 * @param height finished height, m
 * @param balloon inflated diameter, m
 * @param perCluster balloons in a cluster, 2 or more
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns balloons, whole clusters, at least one
 * @throws CalcError `#VALUE!` where an argument is outside its limits
 */
export function columnCount(
  height: number,
  balloon: number,
  perCluster = PER_CLUSTER.value,
  spacing = CLUSTER_SPACING.value,
): number {
  return perCluster * columnClusters(height, balloon, clusterShape(balloon, perCluster, spacing).pitch);
}

/**
 * COLUMN_METRES: finished height of a column; gives the clusters back to `columnCount`.
 *
 * @param clusters 1 or more
 * @param balloon inflated diameter, m
 * @param perCluster balloons in a cluster, 2 or more
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns height, m
 * @throws CalcError `#VALUE!` where an argument is outside its limits
 */
export function columnHeight(
  clusters: number,
  balloon: number,
  perCluster = PER_CLUSTER.value,
  spacing = CLUSTER_SPACING.value,
): number {
  checkCount("clusters", clusters, 1);
  return (clusters - 1) * clusterShape(balloon, perCluster, spacing).pitch + balloon;
}

/**
 * COLUMN_ACROSS_METRES: finished thickness of a column or garland of clusters.
 *
 * @param balloon inflated diameter, m
 * @param perCluster balloons in a cluster, 2 or more
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns diameter over all, m
 * @throws CalcError `#VALUE!` where an argument is outside its limits
 */
export function columnAcross(
  balloon: number,
  perCluster = PER_CLUSTER.value,
  spacing = CLUSTER_SPACING.value,
): number {
  return clusterShape(balloon, perCluster, spacing).ringDiameter + balloon;
}

/**
 * COUNT_GARLAND: balloons for a garland of clusters along a line.
 *
 * @param length length of the line, m, 0 or more
 * @param balloon inflated diameter, m
 * @param perCluster balloons in a cluster, 2 or more
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns balloons, whole clusters
 * @throws CalcError `#VALUE!` where an argument is outside its limits
 */
export function garlandCount(
  length: number,
  balloon: number,
  perCluster = PER_CLUSTER.value,
  spacing = CLUSTER_SPACING.value,
): number {
  const { pitch } = clusterShape(balloon, perCluster, spacing);
  checkLength("length", length);
  return perCluster * wholeUp(length / pitch);
}

/**
 * COLUMN_PLAN: building plan of a column, cluster by cluster from the base; its balloons add up to
 * `columnCount`.
 *
 * @param height finished height, m
 * @param balloon inflated diameter, m
 * @param perCluster balloons in a cluster, 2 or more
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns one row for each cluster
 * @throws CalcError `#VALUE!` where an argument is outside its limits
 */
export function columnPlan(
  height: number,
  balloon: number,
  perCluster = PER_CLUSTER.value,
  spacing = CLUSTER_SPACING.value,
): readonly RingRow[] {
  const { pitch, ringDiameter } = clusterShape(balloon, perCluster, spacing);
  return Array.from({ length: columnClusters(height, balloon, pitch) }, (_, index) => ({
    row: index + 1,
    height: balloon / 2 + index * pitch,
    ringDiameter,
    balloons: perCluster,
  }));
}
