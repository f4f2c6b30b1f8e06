import { anchoring } from "../../core/care/anchor";
import { cautionLine } from "../../core/care/cautions";
import { TAKE_DOWN_GUST } from "../../core/practice";
import { anchorParams } from "../anchor-params";
import { define } from "../define";

export const anchorPlan = define({
  name: "ANCHOR_PLAN",
  category: "Care",
  text: "Ballast of a free-standing piece with the push, the height it acts at, and the share of each foot.",
  asks: ["ballast for each foot of an arch", "weight per leg", "why so much weight in the base"],
  params: anchorParams,
  result: {
    kind: "table",
    text: "One row.",
    columns: [
      { name: "push", measure: "N", text: "Push of the gust." },
      { name: "centre", measure: "m", text: "Height of the middle of the push above the ground." },
      { name: "against tipping", measure: "kg", text: "Ballast against tipping over." },
      { name: "against sliding", measure: "kg", text: "Ballast against sliding." },
      { name: "total", measure: "kg", text: "The larger of both: what the piece needs." },
      { name: "feet", measure: "count", text: "Feet that share it: two of an arch." },
      { name: "each foot", measure: "kg", text: "Ballast in each foot." },
      { name: "status", measure: "text", text: "Which of both decides." },
    ],
  },
  source:
    "As ANCHOR_KILOGRAMS: equilibrium of moments and Coulomb friction, times the safety (common practice)",
  limits: `Level, firm ground. Above a gust of ${TAKE_DOWN_GUST.value} m/s there is no answer: take it down.`,
  caution: cautionLine("anchor"),
  examples: [
    {
      args: [0.4, 2, 0.5, 8, "column", 1],
      gives: [[38.4, 1, 15.66, 9.79, 15.66, 1, 15.66, null]],
      within: 0.01,
      working: "40 Pa x 1.2 x 0.8 m2 = 38.4 N at 1 m; 38.4/(9.80665 x 0.25); 38.4/(9.80665 x 0.4)",
      source: "equilibrium of moments and friction by hand",
    },
  ],
  failures: [
    {
      args: [0.4, 2, 0.5, 15],
      gives: "#N/A",
      when: "the gust is above the take-down gust",
      says: "do not put up",
    },
    {
      args: [1, 0.8, 0.5, 8, "pole and ball"],
      gives: "#VALUE!",
      when: "pole and ball are lower than the ball",
      says: "height must be at least the ball's 1 m",
    },
  ],
  compute: (...piece) => {
    const { push, centre, tipping, sliding, feet } = anchoring(...piece);
    const total = Math.max(tipping, sliding);
    const why =
      tipping >= sliding
        ? "tipping decides: a wider base needs less"
        : "sliding decides: a rougher floor needs less";
    return [
      {
        push,
        centre,
        "against tipping": tipping,
        "against sliding": sliding,
        total,
        feet,
        "each foot": total / feet,
        status: `ok: ${why}`,
      },
    ];
  },
});
