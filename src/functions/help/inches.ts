import { define } from "../define";

export const inches = define({
  name: "INCHES",
  category: "Help for sheets",
  text: "Reads a length and gives it in inches, for your own formulas.",
  asks: ["metres to inches", "convert a size to inches"],
  params: [{ name: "length", kind: "length", text: "A length with its unit, such as 28 cm or 2 ft." }],
  result: { kind: "value", measure: "in", text: "The length in inches." },
  source: "Exact unit factors of NIST SP 811 (2008), Appendix B",
  examples: [
    {
      args: ["28 cm"],
      gives: 11.0236220472,
      within: 1e-9,
      working: "28 / 2.54",
      source: "NIST SP 811: 1 in = 2.54 cm exactly",
    },
    { args: ["2 ft"], gives: 24, within: 1e-12, working: "2 x 12 in", source: "NIST SP 811: 1 ft = 12 in" },
  ],
  failures: [{ args: [""], gives: "#VALUE!", when: "the cell is blank", says: "length must be given" }],
  compute: (length) => length,
});
