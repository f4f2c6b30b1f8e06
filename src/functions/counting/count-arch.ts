import { archCount } from "../../core/geometry/arch";
import { archPlacements } from "../../core/geometry/arch-drawing";
import { define } from "../define";
import {
  heightOfArch,
  archWidth,
  balloon,
  clusterSpacing,
  curve,
  measured,
  perCluster,
} from "../piece-params";

export const countArch = define({
  name: "COUNT_ARCH",
  category: "Counting",
  text: "Balloons for an arch of clusters.",
  asks: ["how many balloons for an arch", "entrance arch", "stage arch", "spiral arch"],
  params: [archWidth, heightOfArch, balloon, curve, perCluster, clusterSpacing, measured],
  result: { kind: "value", measure: "count", text: "Balloons, whole clusters." },
  source: "COUNT_GARLAND along the length of ARCH_METRES",
  limits: "Arches of clusters; a free-form arch is MIX_PLAN along ARCH_METRES.",
  examples: [
    {
      args: [5, 2.8, 9],
      gives: 220,
      working: "half ellipse of 8.34 m / 0.1538 m = 54.2, 55 clusters of 4",
      source: "common practice, no source; length by the elliptic integral",
    },
    {
      args: [5, 2.8, 9, "half ellipse", 4, 0.8, "inside"],
      gives: 240,
      working:
        "the centre line is wider by the thickness of 0.487 m and higher by half of it: 60 clusters of 4",
      source: "common practice, no source",
    },
    {
      args: [5, 2.8, 9, "half ellipse", 4, 0.8, "outside"],
      gives: 200,
      working: "the centre line is narrower by 0.487 m and lower by half of it: 50 clusters of 4",
      source: "common practice, no source",
    },
  ],
  failures: [
    { args: [0, 2, 9], gives: "#VALUE!", when: "the arch has no width", says: "width must be above 0" },
    {
      args: [3, 2, 9, "wavy"],
      gives: "#VALUE!",
      when: "the curve is not known",
      says: "curve must be one of",
    },
  ],
  compute: archCount,
  draw: archPlacements,
});
