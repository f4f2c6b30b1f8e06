import { present } from "./entry-at";

/** A concave function at a point: its value and a slope that no other value lies above. */
export interface Slope {
  readonly value: number;
  readonly slope: readonly number[];
}

const TOLERANCE = 1e-9;

/**
 * Maximises a concave function over the box 0..1 in every direction: every slope seen is a ceiling, and the next point is
 * where the ceilings together are highest. Ends where the ceiling meets the best value.
 * Source: Kelley, J. SIAM 8 (1960) 703.
 *
 * @param places number of directions, 1 or more
 * @param at the function
 * @param within difference to the highest possible value that is good enough
 * @param isGoing asked before each new point; false ends the search with the best point so far
 * @param guess a point that may lie near the best one, looked at after 0
 * @returns the best point seen and its value
 */
export function maximiseConcave(
  places: number,
  at: (point: readonly number[]) => Slope,
  within: number,
  isGoing: (best: number) => boolean,
  guess?: readonly number[],
): { readonly point: readonly number[]; readonly value: number } {
  let point: readonly number[] = new Array<number>(places).fill(0);
  const first = at(point);
  let best = { point, value: first.value };
  // Each ceiling t - slope x <= its height at 0; heights are counted from the value at 0, below which none lies there.
  const rows: number[][] = [];
  const heights: number[] = [];
  const addCeiling = ({ value, slope }: Slope): void => {
    const scale = Math.max(1, ...slope.map(Math.abs));
    rows.push([1 / scale, ...slope.map((part) => -part / scale)]);
    const height = value - slope.reduce((sum, part, i) => sum + part * present(point[i]), 0) - first.value;
    heights.push(Math.max(0, height / scale));
  };
  addCeiling(first);
  const box = point.map((_, i) => [0, ...point.map((__, j) => (i === j ? 1 : 0))]);
  const objective = [1, ...point.map(() => 0)];
  for (
    let next = guess?.some((part) => part > 0) ? guess : undefined;
    isGoing(best.value);
    next = undefined
  ) {
    const solution = largest(objective, [...box, ...rows], [...box.map(() => 1), ...heights]);
    const ceiling = first.value + present(solution[0]);
    if (ceiling - best.value <= within + TOLERANCE * Math.abs(ceiling)) break;
    point = next ?? solution.slice(1).map((part) => Math.min(1, Math.max(0, part)));
    const found = at(point);
    if (found.value > best.value) best = { point, value: found.value };
    addCeiling(found);
  }
  return best;
}

/** Largest objective over x >= 0 with rows x <= limits, all limits 0 or more: the simplex method from x = 0. */
function largest(
  objective: readonly number[],
  rows: readonly (readonly number[])[],
  limits: readonly number[],
): readonly number[] {
  const width = objective.length;
  const height = rows.length;
  const columns = width + height + 1;
  const table = rows.map((row, i) => {
    const line = new Float64Array(columns);
    line.set(row);
    line[width + i] = 1;
    line[columns - 1] = present(limits[i]);
    return line;
  });
  const gains = new Float64Array(columns);
  gains.set(objective);
  const basis = rows.map((_, i) => width + i);
  for (let pivots = 0; pivots < 50 * (width + height); pivots += 1) {
    // Bland's rule, so that ties cannot go round in circles. The last column is minus the value so far, never above 0.
    const enters = gains.findIndex((gain) => gain > TOLERANCE);
    if (enters < 0) break;
    let leaves = -1;
    let least = Infinity;
    table.forEach((line, i) => {
      const part = present(line[enters]);
      if (part <= TOLERANCE) return;
      const ratio = present(line[columns - 1]) / part;
      const isTie = ratio === least && present(basis[i]) < present(basis[leaves]);
      if (ratio < least || isTie) {
        least = ratio;
        leaves = i;
      }
    });
    if (leaves < 0) break;
    const pivotLine = present(table[leaves]);
    const pivot = present(pivotLine[enters]);
    const columnsOfPivot: number[] = [];
    pivotLine.forEach((part, column) => {
      if (part === 0) return;
      pivotLine[column] = part / pivot;
      columnsOfPivot.push(column);
    });
    for (const line of [...table, gains]) {
      const factor = present(line[enters]);
      if (line === pivotLine || factor === 0) continue;
      for (const column of columnsOfPivot)
        line[column] = present(line[column]) - factor * present(pivotLine[column]);
    }
    basis[leaves] = enters;
  }
  const solution = new Array<number>(width).fill(0);
  table.forEach((line, i) => {
    const column = present(basis[i]);
    if (column < width) solution[column] = present(line[columns - 1]);
  });
  return solution;
}
