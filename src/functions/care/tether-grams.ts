import { cautionLine } from "../../core/care/cautions";
import { tetherMass } from "../../core/care/tether";
import { TETHER_SAFETY } from "../../core/practice";
import { define } from "../define";
import {
  altitude,
  balloonType,
  heliumBalloon,
  humidity,
  purity,
  rubberGrams,
  temperature,
} from "../gas-params";

export const tetherGrams = define({
  name: "TETHER_GRAMS",
  category: "Care",
  text: "Weight that holds a bouquet of helium balloons down, indoors or in wind.",
  asks: ["how heavy must the weight be", "bouquet weight", "hold balloons down outdoors"],
  params: [
    { name: "count", kind: "count", min: 1, max: 10000, text: "Balloons on one weight." },
    heliumBalloon,
    {
      name: "safety",
      kind: "ratio",
      min: 1,
      max: 10,
      default: TETHER_SAFETY.value,
      zero: "default",
      text: "Safety factor.",
    },
    { name: "wind", kind: "speed", default: 0, text: "Gust, 0 indoors." },
    rubberGrams,
    temperature,
    altitude,
    purity,
    humidity,
    balloonType,
  ],
  result: { kind: "value", measure: "g", text: "Grams." },
  source:
    "Net lift, and in wind the drag on a ball (EN 1991-1-4 air density) held by friction 0.4 (common practice), times the safety",
  limits: "Every balloon catches the full wind. Above the take-down gust there is no answer.",
  caution: cautionLine("tether"),
  examples: [
    {
      args: [3, 36, 1.5, 0, 20],
      gives: 1761,
      within: 18,
      working: "3 x 391.4 g x 1.5",
      source: "LIFT_GRAMS: CIPM-2007 and helium density",
    },
    {
      args: [6, 18, 1.5, null, null, null, null, null, null, "foil"],
      gives: 46.1,
      within: 0.2,
      working: "6 x 5.13 g x 1.5",
      source: "LIFT_GRAMS of foil",
    },
  ],
  failures: [
    {
      args: [3, 11, 1.5, 15],
      gives: "#N/A",
      when: "the gust is above the take-down gust",
      says: "do not put up",
    },
  ],
  compute: (count, size, safety, wind, rubber, kelvin, metres, share, relative, type) =>
    tetherMass(
      count,
      size,
      safety,
      wind,
      rubber,
      { temperature: kelvin, altitude: metres, purity: share, humidity: relative },
      type,
    ),
});
