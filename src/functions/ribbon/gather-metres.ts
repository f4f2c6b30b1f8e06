import { gatherLength } from "../../core/geometry/ball";
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
      text: "Distance of the gathering point below the ball's centre.",
    },
    covered,
  ],
  result: { kind: "value", measure: "m", text: "All ribbons together, metres, without knots." },
  source:
    "Straight lines from balloons spread evenly over the sphere (Archimedes: equal heights carry equal area)",
  limits: "Add knots and tails with RIBBON_METRES or your own length.",
  examples: [
    {
      args: [1000, 2, 2],
      gives: 848.4,
      within: 1,
      working:
        "mean over the lower half of sqrt(1 + 4 - 4u), u from 0 to 1: (5^1.5 - 1)/6 = 1.6967 m, for 500 balloons 848.4; each ring counted at its middle",
      source: "exact integral",
    },
  ],
  failures: [
    {
      args: [40, 2, 0.5],
      gives: "#VALUE!",
      when: "the gathering point lies inside the ball",
      says: "drop must",
    },
  ],
  compute: gatherLength,
});
