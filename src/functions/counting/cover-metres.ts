import { coverAcross } from "../../core/geometry/ball";
import { define } from "../define";
import { coreBalloon, coreCount, coreSpacing, outerBalloon } from "../piece-params";

export const coverMetres = define({
  name: "COVER_METRES",
  category: "Counting",
  text: "Finished size of a tied ball with loose balloons on its outside.",
  asks: ["how big is the covered ball", "size of a full bouquet ball"],
  params: [coreCount, coreBalloon, outerBalloon, coreSpacing],
  result: { kind: "value", measure: "m", text: "Diameter over everything, metres." },
  source: "Touching spheres: an outer balloon in the hollow of three core balloons",
  examples: [
    {
      args: [12, 10, 11],
      gives: 1.109,
      within: 0.001,
      working: "centres at 16.33 in; 2 x 16.33 + 11 = 43.66 in",
      source: "icosahedron and touching spheres by hand",
    },
  ],
  failures: [
    {
      args: [12, 10, 500],
      gives: "#VALUE!",
      when: "the size is no balloon",
      says: "outer_balloon must be from 1 to 120 in",
    },
  ],
  compute: coverAcross,
});
