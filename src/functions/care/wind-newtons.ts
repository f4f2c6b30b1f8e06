import { cautionLine } from "../../core/care/cautions";
import { windDrag } from "../../core/care/wind";
import { define } from "../define";
import { centre, form, pieceHeight, pieceWidth, frameThickness, windSource } from "../wind-params";

export const windNewtons = define({
  name: "WIND_NEWTONS",
  category: "Care",
  text: "Push of the wind on a piece.",
  asks: ["wind force on a column", "how hard does the wind push", "outdoor arch wind"],
  params: [
    pieceWidth,
    pieceHeight,
    {
      name: "speed",
      kind: "speed",
      text: 'Wind speed, as a gust; "4 bft" is read as 7.9 m/s, a mean that gusts exceed.',
    },
    form,
    frameThickness,
    centre,
  ],
  result: { kind: "value", measure: "N", text: "Newtons." },
  source: windSource,
  caution: cautionLine("wind"),
  examples: [
    {
      args: [0.4, 2, 8],
      gives: 38.4,
      within: 0.01,
      working: "q = 0.625 x 64 = 40 Pa; 40 x 1.2 x 0.4 x 2",
      source: "EN 1991-1-4 air density; drag 1.2 of a long cylinder (Matthews, Fig. 5.13)",
    },
    {
      args: [2, 2, 8, "wall"],
      gives: 288,
      within: 0.01,
      working: "40 Pa x 1.8 x 4 m2",
      source: "EN 1991-1-4, 7.4.3: 1.8 for signboards",
    },
  ],
  failures: [
    {
      args: [0.4, 2, 8, "cube"],
      gives: "#VALUE!",
      when: "the form is not known",
      says: "form must be one of",
    },
  ],
  compute: windDrag,
});
