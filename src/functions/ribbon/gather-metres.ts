import { unavailable } from "../../core/calc-error";
import { gatherLength, ribbonedCount } from "../../core/geometry/ball";
import { define } from "../define";
import { covered } from "../piece-params";

export const gatherMetres = define({
  name: "GATHER_METRES",
  category: "Ribbon and rolls",
  text: "Ribbon from every balloon below the halfway line of a ball to one gathering point under it.",
  asks: ["ribbon for a bouquet ball", "ribbons gathered under a ball", "tails of a hot air balloon look"],
  params: [
    { name: "count", kind: "count", max: 1000000, text: "Balloons on the dressed part of the ball." },
    { name: "across", kind: "length", above: 0, text: "Finished diameter of the ball." },
    {
      name: "drop",
      kind: "length",
      above: 0,
      text: "How far below the ball the ribbons meet, as a tape measures it.",
    },
    covered,
    {
      name: "from",
      kind: "choice",
      options: ["lowest point", "centre"],
      default: "lowest point",
      text: "Where drop is measured from: the ball's lowest point, or its centre.",
    },
  ],
  result: { kind: "value", measure: "m", text: "All ribbons together, metres, without knots." },
  source:
    "Straight lines from balloons spread evenly over the sphere (Archimedes: equal heights carry equal area)",
  limits:
    "Balloons above the halfway line carry no ribbon; a ball that is half covered or less has none below it, and the answer says so. Add knots and tails with RIBBON_METRES or your own length.",
  examples: [
    {
      args: [1000, 2, 1],
      gives: 848.4,
      within: 1,
      working:
        "the point lies 1 + 1 = 2 m under the centre; mean over the lower half of sqrt(1 + 4 - 4u), u from 0 to 1: (5^1.5 - 1)/6 = 1.6967 m, for 500 balloons 848.4; each ring counted at its middle",
      source: "exact integral",
    },
    {
      args: [2, 2, 2, null, "centre"],
      gives: 1.732,
      within: 0.001,
      working: "one of two balloons lies below, half a radius under the centre: sqrt(1 + 4 - 2 x 2 x 0.5)",
      source: "law of cosines by hand",
    },
  ],
  failures: [
    {
      args: [40, 2, 0.5, null, "centre"],
      gives: "#VALUE!",
      when: "the gathering point lies inside the ball",
      says: "drop must",
    },
    {
      args: [40, 2, 0.5, 0.5],
      gives: "#N/A",
      when: "the ball is a dome",
      says: "no balloon lies below the halfway line",
    },
  ],
  compute: (count, across, drop, share, from) => {
    if (count > 0 && ribbonedCount(count, share) === 0) {
      throw unavailable("no balloon lies below the halfway line, so that no ribbon hangs from this ball");
    }
    return gatherLength(count, across, from === "centre" ? drop : across / 2 + drop, share);
  },
});
