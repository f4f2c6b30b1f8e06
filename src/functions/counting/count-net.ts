import { netCount } from "../../core/geometry/volumes";
import { NET_PACKING } from "../../core/practice";
import { define } from "../define";
import { balloon } from "../piece-params";

export const countNet = define({
  name: "COUNT_NET",
  category: "Counting",
  text: "Balloons that a drop net holds.",
  asks: ["balloon drop", "how many in a net", "drop net"],
  params: [
    { name: "length", kind: "length", above: 0, max: 100, text: "Length of the full net." },
    { name: "across", kind: "length", above: 0, max: 20, text: "Width of the full net." },
    balloon,
    {
      name: "packing",
      kind: "share",
      min: 0.2,
      max: 0.74,
      default: NET_PACKING.value,
      text: "Share of the net's space that is balloon; tighter nets hang up.",
    },
  ],
  result: { kind: "value", measure: "count", text: "Balloons, as many as fit." },
  source:
    "Volume of a cylinder times packing over the volume of a ball; random packing lies between 0.55 and 0.64, looser by common practice",
  examples: [
    {
      args: [6, 1, "30 cm"],
      gives: 166,
      within: 1,
      working: "0.5 x 3.1416/4 x 1 x 6 m3 / 0.014137 m3 = 166.7",
      source: "volumes of cylinder and ball by hand",
    },
  ],
  failures: [
    { args: [6, 0.2, 11], gives: "#VALUE!", when: "a balloon does not fit", says: "balloon must fit" },
  ],
  compute: netCount,
});
