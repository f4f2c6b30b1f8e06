import type { DrawnBall } from "./painted";

/** A point, m. */
export type Point = readonly [x: number, y: number, z: number];

/** What is long and thin: a pole in its sleeve, a ribbon, the weight of a bouquet. */
export interface DrawnLine {
  readonly what: "pole" | "ribbon" | "weight";
  readonly from: Point;
  readonly to: Point;
  /** m */
  readonly width: number;
  /** As the tables name it; empty where they do not. */
  readonly colour: string;
}

/** One piece to scale: x to the right of its middle, y up from the floor, z towards the viewer. */
export interface PieceDrawing {
  readonly event: string;
  readonly option: string;
  readonly name: string;
  /** Pieces; undefined where it cannot be known. */
  readonly quantity: number | undefined;
  /** Finished width and height as the plan has them, m; undefined where only the drawing tells. */
  readonly size: readonly [width: number, height: number] | undefined;
  readonly balls: readonly DrawnBall[];
  readonly lines: readonly DrawnLine[];
  /** True where it is seen from above: a ceiling has nothing to see from the front. */
  readonly isFromAbove: boolean;
  /** What the drawing does not show, or shows in a way of its own. */
  readonly notes: readonly string[];
}
