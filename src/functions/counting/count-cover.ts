import { coverCount } from "../../core/geometry/ball";
import { coverPlacements } from "../../core/geometry/ball-drawing";
import { COVER_SPACING } from "../../core/practice";
import { define } from "../define";
import { coreBalloon, coreCount, coreSpacing, outerBalloon, spacing } from "../piece-params";
import { standCaution } from "../wind-params";

export const countCover = define({
  name: "COUNT_COVER",
  category: "Counting",
  text: "Loose balloons fixed on the outside of a tied ball to give it a full, free look.",
  asks: [
    "how many balloons to cover a ball of twelve",
    "fill out a bouquet ball",
    "free-form ball on a stand",
  ],
  params: [coreCount, coreBalloon, outerBalloon, spacing(COVER_SPACING.value), coreSpacing],
  result: { kind: "value", measure: "count", text: "Loose balloons, whole." },
  source:
    "An outer balloon rests in the hollow of three touching core balloons; then the best known packings on that radius (Sloane, Hardin and Smith)",
  limits:
    "One layer outside. Light looks take 30, very full ones 50 on a ball of twelve (common practice): choose the spacing.",
  caution: standCaution,
  examples: [
    {
      args: [12, 10, 11, 1],
      gives: 27,
      working: "centres at 16.33 in; 11 in balloons need 39.4 degrees, 28 points reach 39.36, 27 reach 40.68",
      source: "Tables of Spherical Codes: 40.678 degrees for 27 points, 39.355 for 28",
    },
    {
      args: [12, 10, 11, 0.9],
      gives: 35,
      working: "11 in at 0.9 need 35.3 degrees; 35 points reach 35.32, 36 reach 35.19",
      source: "Tables of Spherical Codes: 35.320 degrees for 35 points, 35.190 for 36",
    },
    {
      args: [12, 10, 11],
      gives: 45,
      working: "11 in at 0.8 need 31.3 degrees; 45 points reach 31.32, 46 reach 30.96",
      source: "Tables of Spherical Codes: 31.323 degrees for 45 points, 30.959 for 46",
    },
  ],
  failures: [
    { args: [0, 10, 11], gives: "#VALUE!", when: "there is no ball to cover", says: "core_count must" },
  ],
  compute: coverCount,
  draw: coverPlacements,
});
