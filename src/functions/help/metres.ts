import { define } from "../define";

export const metres = define({
  name: "METRES",
  category: "Help for sheets",
  text: "Reads a length and gives it in metres, for your own formulas.",
  asks: ["feet to metres", "convert a length", "read 6 ft 2 in as a number"],
  params: [{ name: "length", kind: "length", text: "A length with its unit, such as 6'2\" or 180 cm." }],
  result: { kind: "value", measure: "m", text: "The length in metres." },
  source: "Exact unit factors of NIST SP 811 (2008), Appendix B",
  examples: [
    {
      args: ["6 ft"],
      gives: 1.8288,
      within: 1e-12,
      working: "6 x 0.3048 m",
      source: "NIST SP 811: 1 ft = 0.3048 m exactly",
    },
    {
      args: ["6'2\""],
      gives: 1.8796,
      within: 1e-12,
      working: "6 x 0.3048 m + 2 x 0.0254 m",
      source: "NIST SP 811: 1 in = 0.0254 m exactly",
    },
  ],
  failures: [
    {
      args: ["6 furlongs"],
      gives: "#VALUE!",
      when: "the unit is not known",
      says: "length must be a length",
    },
    { args: ["1,234 m"], gives: "#VALUE!", when: "the comma can be read two ways", says: "comma" },
  ],
  compute: (length) => length,
});
