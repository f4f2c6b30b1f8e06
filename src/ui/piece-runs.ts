import type { DrawnPiece } from "../functions/definition";

/** A piece, or one length of a piece that is too long for a row. */
export interface Run extends Pick<DrawnPiece, "balls" | "lines"> {
  readonly piece: DrawnPiece;
  /** Which length it is, such as `0 to 7.5 of 30 m`; undefined for a whole piece. */
  readonly length?: string;
}

/** Rectangle around a run as it is seen, m; its bottom is the floor where nothing lies lower. */
export interface Extent {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

/** Pieces lower than this part of their width lie; taller ones are never cut. */
const LYING = 0.25;

export function extentOf({ balls, lines }: Pick<Run, "balls" | "lines">): Extent {
  let [left, right, bottom, top] = [Infinity, -Infinity, 0, 0];
  const add = (x: number, y: number, off: number, up: number): void => {
    left = Math.min(left, x - off);
    right = Math.max(right, x + off);
    bottom = Math.min(bottom, y - up);
    top = Math.max(top, y + up);
  };
  for (const { x, y, radius } of balls) add(x, y, radius, radius);
  for (const { from, to, width } of lines) for (const [x, y] of [from, to]) add(x, y, width / 2, 0);
  return { left, right, bottom, top };
}

/** A piece as it fits into rows: whole, or where it lies and is longer than a row, in equal lengths. */
export function runsOf(piece: DrawnPiece, longest: number): readonly Run[] {
  const { left, right, top } = extentOf(piece);
  const [width, whole] = [right - left, { piece, balls: piece.balls, lines: piece.lines }];
  if (width <= longest || top > LYING * width || piece.isFromAbove) return [whole];
  const lengths = Math.ceil(width / longest);
  const step = width / lengths;
  const numberOf = (x: number): number => Math.min(lengths - 1, Math.max(0, Math.floor((x - left) / step)));
  const metres = (value: number): string => String(Number(value.toFixed(1)));
  return Array.from({ length: lengths }, (_, number) => ({
    piece,
    balls: piece.balls.filter(({ x }) => numberOf(x) === number),
    lines: piece.lines.filter(({ from }) => numberOf(from[0]) === number),
    length: `${metres(number * step)} to ${metres((number + 1) * step)} of ${metres(width)} m`,
  }));
}
