import type { TableParam } from "./param";

/** Tables of points that describe a body or an outline, each said once. */

export const profile = {
  name: "profile",
  kind: "table",
  zeroRowsCount: true,
  text: "The body's side line from the base to the top: heights that rise, radii from the axis; radius 0 closes an end.",
  columns: [
    { name: "height", kind: "length", text: "Height above the base." },
    { name: "radius", kind: "length", text: "Distance from the axis." },
  ],
} as const satisfies TableParam;

export const corners = {
  name: "corners",
  kind: "table",
  zeroRowsCount: true,
  text: "Corners in order round the outline; a letter with holes numbers its lines in a third column.",
  columns: [
    { name: "x", kind: "length", min: -1000, text: "To the right." },
    { name: "y", kind: "length", min: -1000, text: "Up." },
    { name: "loop", kind: "count", max: 100, optional: true, text: "Which closed line it belongs to." },
  ],
} as const satisfies TableParam;
