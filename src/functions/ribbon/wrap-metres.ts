import { wrapLength } from "../../core/geometry/ribbon";
import { define } from "../define";

export const wrapMetres = define({
  name: "WRAP_METRES",
  category: "Ribbon and rolls",
  text: "Ribbon or garland wound round a pole or column.",
  asks: ["ribbon round a pole", "spiral ribbon", "wrap a column"],
  params: [
    { name: "height", kind: "length", text: "Height that is wound." },
    { name: "across", kind: "length", text: "Diameter that it is wound round." },
    { name: "turns", kind: "number", min: 0, max: 10000, text: "Turns." },
  ],
  result: { kind: "value", measure: "m", text: "Length, metres." },
  source: "Helix: turns x sqrt((pi across)^2 + pitch^2)",
  examples: [
    {
      args: [1.8, 0.3, 6],
      gives: 5.934434957,
      within: 1e-8,
      working: "6 x sqrt((2 x 3.1416 x 0.15)^2 + 0.3^2)",
      source: "helix length, calculus",
    },
  ],
  failures: [
    { args: [1.8, 0.3, -1], gives: "#VALUE!", when: "the turns are negative", says: "turns must be from 0" },
  ],
  compute: wrapLength,
});
