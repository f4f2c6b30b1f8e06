import { jobPlan } from "../../core/event/job-plan";
import { jobDrawing } from "../../core/event/job-drawing";
import { partPlan } from "../../core/event/part-plan";
import { defineEvent } from "./define-event";

export const partPlanRows = defineEvent({
  name: "PART_PLAN",
  category: "The whole event",
  text: "Every part of every piece: balloons, clusters, air, helium, lift, ribbon, hours and room.",
  asks: [
    "how many balloons for each piece",
    "hours for each part",
    "helium and ribbon for each bouquet",
    "weight for a bouquet of latex and foil",
    "bouquet on a stand with cover, collar and sleeve",
  ],
  needs: ["pieces"],
  result: {
    kind: "table",
    text: "One row for each part, in the order of pieces; all options, or the chosen one.",
    columns: [
      { name: "event", measure: "text", text: "The event." },
      { name: "option", measure: "text", text: "Option that the row names; empty for all." },
      { name: "name", measure: "text", text: "The piece." },
      { name: "part", measure: "text", text: "Kind of part." },
      { name: "quantity", measure: "count", text: "Pieces." },
      { name: "balloons each", measure: "count", text: "Balloons in one piece." },
      { name: "balloons", measure: "count", text: "Balloons in all pieces." },
      { name: "clusters", measure: "number", text: "Clusters in all pieces." },
      { name: "metres", measure: "number", text: "Length of all pieces." },
      { name: "m2", measure: "number", text: "Area of all pieces." },
      { name: "inflated", measure: "in", text: "Inflated size; of a foil its flat size, of a sleeve none." },
      { name: "air", measure: "L", text: "Air to pump for all pieces." },
      { name: "helium", measure: "L", text: "Helium to order for all pieces." },
      { name: "lift", measure: "g", text: "What the helium of one piece carries beyond its balloons." },
      {
        name: "tether",
        measure: "g",
        text: "Weight that holds one piece down; add up the parts of a bouquet.",
      },
      { name: "ribbon", measure: "m", text: "Ribbon for all pieces, knots included." },
      {
        name: "hours",
        measure: "number",
        text: "Person-hours of building; rigging stands on a piece's first part.",
      },
      {
        name: "m3",
        measure: "number",
        text: "Room in the vehicle; the box of a piece stands on its first part.",
      },
      { name: "status", measure: "text", text: "What to look at, what is missing." },
    ],
  },
  source:
    "The counting function of each kind; gas and lift as AIR_LITRES, HELIUM_LITRES, FOIL_LITRES and LIFT_GRAMS; minutes by common practice",
  limits:
    "Strike, loading and driving are not in the hours. Foil is taken as round where its packet's litres are not typed.",
  examples: [
    {
      args: [
        [
          ["name", "kind", "printed", "quantity", "balloons", "colour"],
          ["Tables", "bouquet", 11, 40, 5, "Navy"],
          ["Tables", "foil", 18, null, null, "Gold"],
        ],
      ],
      gives: [
        [null, null, "Tables", "bouquet", 40, 5, 200, 0, 0, 0, 11, 0, 3090.34, 54.5, 81.75, 0, 5, 0, "ok"],
        [null, null, "Tables", "foil", 40, 1, 40, 0, 0, 0, 18, 0, 640.49, 5.13, 7.69, 0, 0.8, 0, null],
      ],
      within: 0.02,
      working:
        "200 x 1.2 min + 40 x 1.5 min = 5 h, 40 x 1.2 min = 0.8 h; 40 x 0.1523 x 0.4572^3 m3 x 1.1 = 640.5 L; 1.5 x (5 x 10.90 + 5.13) = 89.4 g a bouquet",
      source:
        "common practice, no source, for minutes, rubber and film; foil volume Amer. Math. Monthly 101 (1994) 953",
    },
  ],
  failures: [],
  compute: (job) => partPlan(jobPlan(job)),
  drawPieces: (job) => jobDrawing(jobPlan(job)),
});
