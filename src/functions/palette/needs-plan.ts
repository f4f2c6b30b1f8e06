import { eventNeeds } from "../../core/palette/event-needs";
import { pooledNeeds } from "../../core/palette/needs";
import { withheld } from "../../core/withheld";
import { blankRow, define, type ResultColumn } from "../define";
import { breakage, confidence, palettes, pieceRows, pieces } from "../event-tables";

const columns = [
  { name: "printed", measure: "in", text: "Size printed on the bag." },
  { name: "inflated", measure: "in", text: "Inflated size." },
  { name: "colour", measure: "text", text: "Colour." },
  { name: "count", measure: "count", text: "Balloons, insides of layered ones included." },
  { name: "with spares", measure: "count", text: "Balloons to take." },
  { name: "status", measure: "text", text: "What to look at, or why a piece cannot be counted." },
  { name: "type", measure: "text", text: "Latex, foil or long." },
] as const satisfies readonly ResultColumn[];

export const needsPlanRows = define({
  name: "NEEDS_PLAN",
  category: "Palette",
  text: "The whole event's balloons by size and colour, with spares, pooled over all pieces.",
  asks: [
    "total balloons for the event",
    "shopping needs by colour",
    "sum over all pieces",
    "double stuffed balloons",
  ],
  params: [pieces, palettes, breakage, confidence],
  keepsShape: true,
  result: {
    kind: "table",
    text: "One row for each printed size, inflated size and colour, then one for each piece that cannot be counted.",
    columns,
  },
  source:
    "The counting function of each kind; whole patterns or largest remainder; spares by negative binomial after pooling",
  limits:
    "Spares are per size and colour. Names match whatever their case and spaces; near-misses are named, never merged.",
  examples: [
    {
      args: [
        [
          ["name", "kind", "quantity", "height", "printed", "palette"],
          ["Door columns", "column", 2, "6 ft", 11, "Door"],
        ],
        [
          ["palette", "colour", "pattern"],
          ["Door", "Navy", 2],
          ["Door", "White", 2],
        ],
        0.03,
        0.95,
      ],
      gives: [
        [11, 9, "Navy", 48, 52, "ok", "latex"],
        [11, 9, "White", 48, 52, "ok", "latex"],
      ],
      within: 1e-9,
      working: "2 columns of 12 clusters, 2 + 2 in each: 48 of each colour; 52 of which 48 are good with 95%",
      source:
        "common practice, no source, and the negative binomial: P(Bin(52, 0.97) >= 48) = 0.98, P(Bin(51, 0.97) >= 48) = 0.93",
    },
  ],
  failures: [
    {
      args: [
        [
          ["name", "kind", "height", "printed", "palette"],
          ["Door", "column", 2, 11, "Doar"],
        ],
        [
          ["palette", "colour", "share"],
          ["Door", "Navy", 1],
        ],
      ],
      gives: "#N/A",
      when: "the palette is not there",
      says: 'pieces row 2: palette must be one of the palettes, found "Doar"; did you mean "Door"',
    },
    {
      args: [
        [
          ["name", "kind", "printed", "palette"],
          ["Door", "column", 11, "Door"],
        ],
        [
          ["palette", "colour", "share"],
          ["Door", "Navy", 1],
        ],
      ],
      gives: "#N/A",
      when: "a column has no height",
      says: 'pieces row 2: height must be given for kind "column"',
    },
  ],
  compute: (rows, colours, share, sure) => {
    const { demands, problems } = eventNeeds(pieceRows(rows), colours);
    const needs = pooledNeeds(demands, { breakage: share, confidence: sure }).map((need) => ({
      printed: need.printed,
      inflated: need.inflated,
      colour: need.colour,
      count: need.count,
      "with spares": need.withSpares,
      status: need.status === "ok" ? "ok" : `check: ${need.status}`,
      type: "latex",
    }));
    const unknown = problems.map(({ what }) => ({
      ...blankRow(columns),
      count: withheld(what),
      "with spares": withheld(what),
      status: `stop: ${what}`,
    }));
    return [...needs, ...unknown];
  },
});
