import { WIND_FORMS } from "../core/care/wind";
import type { ScalarParam } from "./param";

/** Parameters that the wind functions share, each said once. */

export const pieceWidth = {
  name: "width",
  kind: "length",
  above: 0,
  max: 100,
  text: "Width of the piece as the wind sees it.",
} as const satisfies ScalarParam;

export const pieceHeight = {
  name: "height",
  kind: "length",
  above: 0,
  max: 100,
  text: "Height of the piece.",
} as const satisfies ScalarParam;

export const form = {
  name: "form",
  kind: "choice",
  options: WIND_FORMS,
  default: "column",
  text: "What the piece is like.",
} as const satisfies ScalarParam;
