import { netCount } from "../../core/geometry/volumes";
import { NET_PACKING } from "../../core/practice";
import { define } from "../define";
import { balloon } from "../piece-params";

export const countNet = define({
  name: "COUNT_NET",
  category: "Counting",
  text: "Balloons for a drop net.",
  asks: ["balloon drop", "how many in a net", "drop net"],
  params: [
    { name: "length", kind: "length", above: 0, max: 100, text: "Length of the net." },
    {
      name: "across",
      kind: "length",
      above: 0,
      max: 20,
      text: "Width of the net closed to a tube: the width it is cut divided by 3.14.",
    },
    balloon,
    {
      name: "packing",
      kind: "share",
      min: 0.2,
      max: 0.74,
      default: NET_PACKING.value,
      text: "Share of the tube that is balloon, each taken as a ball: half full of loose balls; 0.6 is stuffed and hangs up.",
    },
  ],
  result: { kind: "value", measure: "count", text: "Balloons, as many as fit at that packing." },
  source:
    "Volume of a cylinder times packing over the volume of a ball; random packing lies between 0.55 and 0.64 (published), and a net hangs half full (common practice)",
  examples: [
    {
      args: ["25 ft", "4.456 ft", 9],
      gives: 500,
      within: 25,
      working:
        "cut 14 x 25 ft: 14 ft / 3.1416 = 4.456 ft across; 0.28 x 3.1416/4 x 1.358^2 x 7.62 m3 / 0.006255 m3 = 494",
      source: "common practice, no source: about 500 balloons of 9 in",
    },
    {
      args: [6, 1, "30 cm", 0.5],
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
