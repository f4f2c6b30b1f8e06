import { unavailable } from "../../core/calc-error";
import { jobPlan } from "../../core/event/job-plan";
import { needsPlan, withTerms } from "../../core/event/needs-plan";
import { define } from "../define";
import { palettes, pieces } from "../event-tables";
import { missing } from "../event/define-event";
import { readTables } from "../event/read-tables";
import type { TableParam } from "../param";

const table = ({ name, text }: TableParam) =>
  ({ name, text, kind: "table", columns: [], raw: true }) as const satisfies TableParam;

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
  params: [
    table(pieces),
    { ...table(palettes), optional: true },
    {
      name: "breakage",
      kind: "share",
      max: 0.9,
      optional: true,
      zero: "refused",
      text: "Share that pops or is faulty, where a row does not say it; left out, 3% indoors, 10% outdoors, 2% of foil.",
    },
    {
      name: "confidence",
      kind: "share",
      min: 0.5,
      max: 0.9999,
      optional: true,
      zero: "refused",
      text: "How sure you want to be of enough good ones; left out, 95%.",
    },
    { name: "option", kind: "text", optional: true, text: "The option to count, where pieces name options." },
  ],
  keepsShape: true,
  result: {
    kind: "table",
    text: "One row for each type, printed size, inflated size and colour; a closing row for each piece that cannot be counted.",
    columns: [
      { name: "printed", measure: "in", text: "Size printed on the bag." },
      { name: "inflated", measure: "in", text: "Inflated size." },
      { name: "colour", measure: "text", text: "Colour." },
      { name: "count", measure: "count", text: "Balloons, insides of layered ones included." },
      { name: "with spares", measure: "count", text: "Balloons to take." },
      { name: "status", measure: "text", text: "Names that look alike, and other things to look at." },
      { name: "type", measure: "text", text: "Latex, foil or long." },
    ],
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
    {
      args: [
        [
          ["name", "kind", "balloons", "printed", "colour", "breakage"],
          ["Hall", "count", 1, 11, "Gold", null],
          ["Lawn", "count", 1, 11, "Gold", "10%"],
          ["Door", "column", null, 11, "Gold", null],
        ],
        null,
      ],
      gives: [
        [11, 9, "Gold", 2, 3, "ok", "latex"],
        [
          "#N/A",
          "#N/A",
          "",
          "#N/A",
          "#N/A",
          'stop: pieces row 4: height must be given for kind "column", found nothing',
          "",
        ],
      ],
      within: 1e-9,
      working:
        "none fails 0.97 x 0.9 = 0.873; one fails 0.873 x (0.03 + 0.1) = 0.1135; together 0.9865, so three",
      source: "sum of two negative binomials by hand",
    },
  ],
  failures: [
    {
      args: [
        [
          ["name", "kind", "height", "printed", "palette"],
          ["Door", "column", 2, 11, "Door"],
        ],
        [
          ["palette", "colour", "share"],
          ["Door", "Navy", 1],
        ],
        0,
      ],
      gives: "#VALUE!",
      when: "breakage is a bare 0",
      says: "breakage is 0 or a blank cell: type none for zero, or leave it out",
    },
  ],
  compute: (pieceRange, paletteRange, breakage, confidence, option) => {
    const job = readTables([
      ["pieces", pieceRange],
      ["palettes", paletteRange],
    ]);
    const reasons = missing(job, ["pieces"]);
    if (reasons.length > 0) throw unavailable(reasons.join("; "));
    const terms = {
      ...(breakage !== undefined && {
        breakage,
        "breakage outdoors": breakage,
        "breakage foil": breakage,
      }),
      ...(confidence !== undefined && { confidence }),
      ...(option !== undefined && { option }),
    };
    return needsPlan(jobPlan(withTerms(job, terms)));
  },
});
