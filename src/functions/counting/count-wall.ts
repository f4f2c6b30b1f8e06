import { WALL_LATTICES, wallCount } from "../../core/geometry/flat";
import { wallPlacements } from "../../core/geometry/flat-drawing";
import { WALL_SPACING } from "../../core/practice";
import { define } from "../define";
import { balloon, spacing, tallNote } from "../piece-params";

export const countWall = define({
  name: "COUNT_WALL",
  category: "Counting",
  text: "Balloons in a flat wall on a frame or grid.",
  asks: ["how many for a wall", "backdrop", "photo wall", "grid of balloons"],
  params: [
    { name: "width", kind: "length", above: 0, text: "Finished width." },
    { name: "height", kind: "length", above: 0, text: "Finished height." },
    balloon,
    {
      name: "lattice",
      kind: "choice",
      options: WALL_LATTICES,
      default: "square",
      text: "Rows in line or staggered.",
    },
    spacing(WALL_SPACING.value),
    { name: "faces", kind: "count", min: 1, max: 2, default: 1, text: "2 for a wall dressed on both sides." },
  ],
  result: { kind: "value", measure: "count", text: "Balloons, whole." },
  source: "Square or hexagonal rows, stretched to fit the frame: round((width - size)/(spacing x size)) + 1",
  limits: tallNote,
  examples: [
    {
      args: ["8 ft", "8 ft", 9],
      gives: 169,
      working: "(96 - 9)/(0.8 x 9) = 12.1, 13 rows of 13",
      source: "common practice, no source",
    },
  ],
  failures: [
    { args: [2, -1, 9], gives: "#VALUE!", when: "the height is negative", says: "height must be above 0" },
  ],
  compute: wallCount,
  draw: wallPlacements,
});
