import { spiralPlan } from "../../core/palette/pattern";
import { define } from "../define";
import { BLANK } from "../result-rows";
import { perCluster } from "../piece-params";

const MOST_PLACES = 12;
const places = Array.from({ length: MOST_PLACES }, (_, index) => index + 1);

export const spiralPlanRows = define({
  name: "SPIRAL_PLAN",
  category: "Palette",
  text: "Colour of each place in a column whose colours wind round it.",
  asks: ["spiral column colours", "swirl pattern", "which colour goes where"],
  params: [
    { name: "clusters", kind: "count", min: 1, max: 2000, text: "Clusters in the stack." },
    perCluster,
    {
      name: "colours",
      kind: "list",
      of: { kind: "text" },
      blanks: "skip",
      text: "Colours in the order of the places of one cluster.",
    },
    {
      name: "turn",
      kind: "number",
      min: -MOST_PLACES,
      max: MOST_PLACES,
      default: 1,
      text: 'Places that the colours move on from one cluster to the next; negative winds the other way, "none" stacks them.',
    },
  ],
  result: {
    kind: "table",
    text: `One row for each cluster, with ${MOST_PLACES} places of which those beyond the cluster are empty.`,
    columns: [
      { name: "cluster", measure: "count", text: "Cluster, 1 at the base." },
      ...places.map((place) => ({
        name: `place ${place}`,
        measure: "text" as const,
        text: `Colour of place ${place}.`,
      })),
      { name: "status", measure: "text", text: "What to look at." },
    ],
  },
  source: "Colours shifted by the turn from cluster to cluster",
  examples: [
    {
      args: [3, 4, ["Navy", "White", "White", "White"]],
      gives: [
        [1, "Navy", "White", "White", "White"],
        [2, "White", "Navy", "White", "White"],
        [3, "White", "White", "Navy", "White"],
      ],
      working: "the navy balloon moves on by one place in each cluster",
      source: "drawn by hand",
    },
  ],
  failures: [
    {
      args: [3, 2, ["a", "b", "c"]],
      gives: "#VALUE!",
      when: "there are more colours than places",
      says: "colours must",
    },
  ],
  compute: (clusters, each, colours, turn) =>
    spiralPlan(clusters, each, colours, turn).map((row, index) => ({
      cluster: index + 1,
      ...Object.fromEntries(places.map((place) => [`place ${place}`, row[place - 1] ?? BLANK])),
      status: "ok",
    })),
});
