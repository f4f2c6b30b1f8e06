import { WIND_FORMS } from "../core/care/wind";
import type { ScalarParam } from "./param";

/** Parameters that the wind functions share, each said once. */

export const pieceWidth = {
  name: "width",
  kind: "length",
  above: 0,
  max: 100,
  text: "Width of the piece as the wind sees it; of a pole and ball the ball's, of an arch between its feet.",
} as const satisfies ScalarParam;

export const pieceHeight = {
  name: "height",
  kind: "length",
  above: 0,
  max: 100,
  text: "Height of the piece from the ground, pole and ball together; of a garland its thickness.",
} as const satisfies ScalarParam;

export const form = {
  name: "form",
  kind: "choice",
  options: WIND_FORMS,
  default: "column",
  text: "What the piece is like.",
} as const satisfies ScalarParam;

export const frameThickness = {
  name: "thickness",
  kind: "length",
  above: 0,
  max: 10,
  optional: true,
  text: "Thickness of an arch's garland or of a pole; left out, 0.49 m (9 in balloons in fours) or 5 cm.",
} as const satisfies ScalarParam;

export const centre = {
  name: "centre",
  kind: "length",
  above: 0,
  max: 100,
  optional: true,
  text: "Height of the middle of the push above the ground; left out, it follows from the form.",
} as const satisfies ScalarParam;

/** What each form takes, for the help of the wind functions. */
export const windSource =
  "q = 1/2 rho v^2 with 1.25 kg/m3 (EN 1991-1-4, 4.5 and 4.10); force coefficients: signboard 1.8 (7.4.3), free-standing wall by zones (7.4.1, from memory), column, arch, garland and pole 1.2 (7.9.2, from memory), ball 0.47, within half its size of the ground 0.64 and 0.6 upwards (7.9.3; from memory)";

/** What the help of pieces that end up on a pole says. */
export const standCaution =
  'On a stand outdoors, size its ballast with ANCHOR_KILOGRAMS, form "pole and ball": a ball high up tips far sooner than one on the ground';
