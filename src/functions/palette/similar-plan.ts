import { similarNames } from "../../core/palette/names";
import { define } from "../define";
import type { ResultColumn } from "../definition";
import { blankRow } from "../result-rows";

const columns = [
  { name: "name", measure: "text", text: "A spelling." },
  { name: "place", measure: "count", text: "Its first cell in the list, from 1." },
  { name: "like", measure: "text", text: "The spelling it looks like." },
  { name: "like place", measure: "count", text: "The first cell of that one." },
  { name: "status", measure: "text", text: "How they differ." },
] as const satisfies readonly ResultColumn[];

export const similarPlanRows = define({
  name: "SIMILAR_PLAN",
  category: "Palette",
  text: "Colours or items that look like the same one spelled two ways.",
  asks: ["typing mistakes in colours", "same colour twice", "clean up names"],
  params: [{ name: "names", kind: "list", of: { kind: "text" }, blanks: "keep", text: "Names to compare." }],
  result: {
    kind: "table",
    text: "One row for each pair.",
    columns,
  },
  source:
    "One letter more, less or other, or two neighbours swapped (Damerau 1964), in names of four letters and more",
  examples: [
    {
      args: [["Coral", "Navy", "Corla", "navy "]],
      gives: [
        ["Corla", 3, "Coral", 1, null],
        ["navy", 4, "Navy", 2, null],
      ],
      working: "Corla has two letters of Coral swapped; navy differs in case only",
      source: "compared by hand",
    },
  ],
  failures: [{ args: [null], gives: "#VALUE!", when: "there are no names", says: "names must be given" }],
  compute: (names) => {
    const pairs = similarNames(names.map(String));
    if (pairs.length === 0) return [{ ...blankRow(columns), status: "ok: no two names look alike" }];
    return pairs.map((pair) => ({
      name: pair.name,
      place: pair.place,
      like: pair.like,
      "like place": pair.likePlace,
      status: `check: ${pair.difference}`,
    }));
  },
});
