import { entryAt } from "../numeric/entry-at";
import { CLUSTER_SPACING, PER_CLUSTER } from "../practice";
import { archCount, archPoints } from "./arch";
import type { ArchCurve, ArchMeasure, ArchPoint } from "./arch";
import { clusterShape, columnAcross } from "./clusters";
import { clusterPlacements } from "./clusters-drawing";
import { type Placement, refuseLargeDrawing, standing } from "./drawing";

/**
 * Drawing of `archCount`. Clusters stand at even steps on the centre line, so that neighbours on the inside
 * of a bend are pressed together: the sharper the bend, the nearer, up to half in the corner of a square
 * arch.
 *
 * @param width distance of the feet, m
 * @param height rise above the feet, m
 * @param balloon inflated diameter, m
 * @param curve kind of curve
 * @param perCluster balloons in a cluster
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @param measured where `width` and `height` were measured
 * @returns balloons, cluster by cluster from the left foot
 * @throws CalcError as `archCount`; `#NUM!` for more than 20000 balloons
 */
export function archPlacements(
  width: number,
  height: number,
  balloon: number,
  curve: ArchCurve = "half ellipse",
  perCluster = PER_CLUSTER.value,
  spacing = CLUSTER_SPACING.value,
  measured: ArchMeasure = "centre",
): readonly Placement[] {
  const count = archCount(width, height, balloon, curve, perCluster, spacing, measured);
  refuseLargeDrawing(count);
  const { ringDiameter } = clusterShape(balloon, perCluster, spacing);
  const line = archPoints(width, height, curve, measured, columnAcross(balloon, perCluster, spacing));
  return standing(
    alongLine(line, count / perCluster).flatMap(({ x, y, dx, dy }, index) =>
      clusterPlacements(
        index,
        perCluster,
        ringDiameter,
        (off, z) => ({ x: x - off * dy, y: y + off * dx, z }),
        balloon,
      ),
    ),
  );
}

/** Places at even steps along a line of points, with the direction of the line there. */
function alongLine(
  points: readonly ArchPoint[],
  count: number,
): readonly (ArchPoint & { dx: number; dy: number })[] {
  const lengths = points
    .slice(1)
    .map(({ x, y }, index) => Math.hypot(x - (points[index]?.x ?? x), y - (points[index]?.y ?? y)));
  const step = lengths.reduce((sum, length) => sum + length, 0) / count;
  let [piece, passed] = [0, 0];
  return Array.from({ length: count }, (_, index) => {
    const along = (index + 0.5) * step;
    while (piece < lengths.length - 1 && passed + entryAt(lengths, piece) < along) {
      passed += entryAt(lengths, piece);
      piece += 1;
    }
    const [from, to] = [entryAt(points, piece), entryAt(points, piece + 1)];
    const length = entryAt(lengths, piece);
    const [dx, dy] = [(to.x - from.x) / length, (to.y - from.y) / length];
    return { x: from.x + dx * (along - passed), y: from.y + dy * (along - passed), dx, dy };
  });
}
