import { transportVolume } from "../../core/work/transport";
import { ASSEMBLED_PACKING, BAGGED_PACKING } from "../../core/practice";
import { define } from "../define";

export const transportCubicMetres = define({
  name: "TRANSPORT_CUBIC_METRES",
  category: "Work and transport",
  text: "Van space that loose or bagged balloons and garlands take.",
  asks: ["does it fit in the van", "van space", "transport volume"],
  params: [
    { name: "count", kind: "count", text: "How many balloons." },
    { name: "balloon", kind: "balloon", text: "Inflated size of one balloon, across." },
    {
      name: "packing",
      kind: "share",
      above: 0,
      default: ASSEMBLED_PACKING.value,
      text: `Share of the space that is balloon: ${ASSEMBLED_PACKING.value} in garlands, ${BAGGED_PACKING.value} bagged.`,
    },
  ],
  result: { kind: "value", measure: "m3", text: "Cubic metres." },
  source: "Volume of AIR_LITRES, neck end included, divided by the packing (common practice)",
  limits: "A column, arch, ball or wall is rigid and takes its box: BOX_CUBIC_METRES.",
  examples: [
    {
      args: [100, 24],
      gives: 33.89,
      within: 0.01,
      working: "100 x 0.11861 m3 / 0.35",
      source: "volume of a ball; packing by common practice",
    },
  ],
  failures: [{ args: [100, 11, 35], gives: "#VALUE!", when: "the packing is typed as 35", says: "type 35%" }],
  compute: transportVolume,
});
