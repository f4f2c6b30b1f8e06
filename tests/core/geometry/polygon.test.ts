import { describe, expect, it } from "vitest";
import { highest, lowest, polygonEdges, turned, type Corner } from "../../../src/core/geometry/polygon";

const corners = (...points: readonly (readonly [x: number, y: number, loop?: number])[]): readonly Corner[] =>
  points.map(([x, y, loop]) => ({ x, y, ...(loop !== undefined && { loop }) }));
const square = [
  [0, 0],
  [2, 0],
  [2, 2],
  [0, 2],
] as const;

describe("polygonEdges", () => {
  it("closes every line by itself, a hole too", () => {
    const edges = polygonEdges(corners(...square));
    expect(edges.map(({ x, y, toX, toY }) => [x, y, toX, toY])).toEqual([
      [0, 0, 2, 0],
      [2, 0, 2, 2],
      [2, 2, 0, 2],
      [0, 2, 0, 0],
    ]);
    const ring = square.map(([x, y]) => [x, y, 0] as const);
    const hole = [
      [0.5, 0.5, 1],
      [1.5, 0.5, 1],
      [1, 1.5, 1],
    ] as const;
    expect(polygonEdges(corners(...ring, ...hole)).at(-1)).toMatchObject({
      x: 1,
      y: 1.5,
      toX: 0.5,
      toY: 0.5,
    });
  });

  it("refuses sides that cross, corners that stand twice, and lines of two corners", () => {
    expect(() => polygonEdges(corners([0, 0], [2, 2], [2, 0], [0, 2]))).toThrow("not cross or touch");
    expect(() => polygonEdges(corners([0, 0], [1, 0], [1, 1], [0, 0]))).toThrow("differ from row 1");
    expect(() => polygonEdges(corners([0, 0, 0], [1, 0, 0], [1, 1, 0], [3, 3, 1], [4, 4, 1]))).toThrow(
      "at least 3 rows for each closed line",
    );
  });
});

it("turns a side back by a right angle, the lowest first (by hand: (2, 0) to (0, -2))", () => {
  const [first, ...others] = turned(polygonEdges(corners(...square)), Math.PI / 2);
  if (first === undefined) throw new Error("no side");
  expect(lowest(first)).toBeCloseTo(-2, 12);
  expect(others.every((edge) => lowest(edge) >= lowest(first) && highest(edge) <= 1e-12)).toBe(true);
});
