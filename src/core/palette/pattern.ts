import { invalid, overflow } from "../calc-error";
import { sum } from "../numeric/sums";

/**
 * PATTERN_SPLIT: balloons per colour when every cluster is built to the same pattern.
 *
 * @param clusters whole number of clusters, 0 or more
 * @param pattern balloons of each colour in one cluster, whole, 0 or more, at least one above 0
 * @returns balloons per colour
 * @throws `#VALUE!` for a pattern of fractions or zeros, `#NUM!` beyond whole numbers
 */
export function patternSplit(clusters: number, pattern: readonly number[]): readonly number[] {
  pattern.forEach((balloons, index) => {
    if (!Number.isInteger(balloons) || balloons < 0) {
      throw invalid(`pattern cell ${index + 1}`, "be a whole number of balloons", balloons);
    }
  });
  if (sum(pattern) === 0) throw invalid("pattern", "hold at least one balloon", { written: "none" });
  if (clusters * sum(pattern) > Number.MAX_SAFE_INTEGER) throw overflow("clusters and pattern are too large");
  return pattern.map((balloons) => clusters * balloons);
}

/** Cells of a plan that a sheet can take in one spill. */
const MOST_CELLS = 200_000;

/**
 * SPIRAL_PLAN: the colour of every place in a column of equal clusters, each turned against the one below. The colours
 * fill the first cluster in order, again from the first where there are fewer than places; place 1 of every cluster lies
 * above place 1 of the cluster below.
 *
 * @param clusters whole number of clusters, 1 or more
 * @param perCluster places in a cluster, 1 or more
 * @param colours in the order of the first cluster, at most `perCluster`
 * @param turn places by which each cluster is turned; 0 gives stripes, negative turns the other way
 * @returns one row per cluster from the base up, one colour per place
 * @throws `#VALUE!` for more colours than places, a turn between places or a plan beyond 200,000 places
 */
export function spiralPlan(
  clusters: number,
  perCluster: number,
  colours: readonly string[],
  turn = 1,
): readonly (readonly string[])[] {
  if (colours.length === 0 || colours.length > perCluster) {
    throw invalid("colours", `be 1 to ${perCluster} colours, as per_cluster has places`, {
      written: `${colours.length}`,
    });
  }
  if (!Number.isInteger(turn)) throw invalid("turn", "be a whole number of places", turn);
  if (clusters * perCluster > MOST_CELLS) {
    throw invalid("clusters", `give at most ${MOST_CELLS} places`, { written: `${clusters * perCluster}` });
  }
  return Array.from({ length: clusters }, (_, cluster) =>
    Array.from({ length: perCluster }, (__, place) => {
      const shifted = (((place - cluster * turn) % perCluster) + perCluster) % perCluster;
      return colours[shifted % colours.length] ?? "";
    }),
  );
}
