import { toSi } from "../units";
import type { PieceCells } from "./cells";

const INCHES_IN_CODE = 100;

/**
 * Length of a long balloon: as printed, or as its trade code says.
 * Source: 260 is 2 in across and 60 in long, common practice.
 *
 * @param cells a row of pieces
 * @returns length, m; undefined where neither is given
 */
export function longLength({ printed, code }: Partial<PieceCells>): number | undefined {
  return printed ?? (code === undefined ? undefined : toSi(code % INCHES_IN_CODE, "in"));
}

/**
 * Width of an inflated long balloon as its trade code says. Source: as `longLength`.
 *
 * @param code such as 260
 * @returns diameter, m
 */
export function longAcross(code: number): number {
  return toSi(Math.floor(code / INCHES_IN_CODE), "in");
}
