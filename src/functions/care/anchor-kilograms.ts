import { anchorMass } from "../../core/care/anchor";
import { cautionLine } from "../../core/care/cautions";
import { TAKE_DOWN_GUST } from "../../core/practice";
import { anchorParams } from "../anchor-params";
import { define } from "../define";

export const anchorKilograms = define({
  name: "ANCHOR_KILOGRAMS",
  category: "Care",
  text: "Ballast for the base of a free-standing piece, against tipping and sliding in a gust.",
  asks: [
    "how much weight in the base",
    "sandbags for an arch",
    "column outdoors base weight",
    "will it tip over",
    "how heavy must the base be",
    "stand falls over",
    "ballast in wind",
    "pole with a ball on top",
  ],
  params: anchorParams,
  result: { kind: "value", measure: "kg", text: "Kilograms in the base; of an arch in both feet together." },
  source:
    "Equilibrium of moments and Coulomb friction on the push of WIND_NEWTONS, times the safety (common practice)",
  limits: `Level, firm ground. The push acts at half the height of a column or wall, at the middle of a ball, at about 0.6 of the height of an arch, unless centre is given: type it for a piece that stands on something. Wind under a ball close to the ground lifts it too. Above a gust of ${TAKE_DOWN_GUST.value} m/s there is no answer: take it down.`,
  caution: cautionLine("anchor"),
  examples: [
    {
      args: [0.4, 2, 0.5, 8, "column", 1],
      gives: 15.66,
      within: 0.01,
      working: "38.4 N at 1 m over half a base of 0.25 m: 38.4/(9.80665 x 0.25)",
      source: "equilibrium of moments, M = q cf A h, m = M/(g b/2)",
    },
    {
      args: [1, 1, 0.5, 8, "ball", null, null, null, 2],
      gives: 18.07,
      within: 0.01,
      working: "a ball on a pole of 1.5 m: 40 x 0.47 x 0.785 = 14.77 N at 2 m over 0.25 m: 12.05 kg x 1.5",
      source: "equilibrium of moments; cf 0.47 of a sphere, from memory",
    },
    {
      args: [1, 1, 0.5, 8, "ball"],
      gives: 10.57,
      within: 0.01,
      working: "on the ground it slides first: 40 x 0.785 = 31.4; 31.4 x (0.64/0.4 + 0.6)/9.80665 x 1.5",
      source: "Coulomb friction; EN 1991-1-4, 7.9.3, from memory",
    },
    {
      args: [5, 2.8, 0.6, 8, "arch"],
      gives: 173.8,
      within: 0.2,
      working:
        "8.33 m of garland x 0.487 m = 4.06 m2: 194.9 N at 1.749 m over 0.3 m: 115.8 kg x 1.5, half in each foot",
      source: "length and centroid of a half ellipse; equilibrium of moments",
    },
  ],
  failures: [
    {
      args: [0.4, 2, 0.5, 15],
      gives: "#N/A",
      when: "the gust is above the take-down gust",
      says: "do not put up",
    },
    { args: [0.4, 2, 0, 8], gives: "#VALUE!", when: "the base has no width", says: "base_across must" },
  ],
  compute: anchorMass,
});
