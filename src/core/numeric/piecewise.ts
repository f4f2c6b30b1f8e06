/**
 * Straight lines through the points of a table; the first and the last line go on beyond its ends.
 *
 * @param points at least two pairs [x, y], x strictly rising
 * @param x where to read
 * @returns y
 */
export function piecewiseLinear(points: readonly (readonly [number, number])[], x: number): number {
  const after = Math.max(
    1,
    points.findIndex(([px], index) => x <= px || index === points.length - 1),
  );
  const [x0, y0] = points[after - 1] ?? [0, 0];
  const [x1, y1] = points[after] ?? [1, 0];
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}
