import { countWithSpares } from "../../core/stock/spares";
import { BREAKAGE_FOIL, BREAKAGE_INDOORS, BREAKAGE_OUTDOORS, SPARES_CONFIDENCE } from "../../core/practice";
import { define } from "../define";

export const countWithSparesToTake = define({
  name: "COUNT_WITH_SPARES",
  category: "Stock and buying",
  text: "How many to take so that enough good ones are there.",
  asks: ["how many spares", "allow for popped balloons", "extra balloons", "breakage"],
  params: [
    { name: "count", kind: "count", max: 1000000, text: "Good ones needed, of one size and colour." },
    {
      name: "breakage",
      kind: "share",
      max: 0.9,
      default: BREAKAGE_INDOORS.value,
      text: `Share that pops or is faulty: ${BREAKAGE_INDOORS.value} indoors, ${BREAKAGE_OUTDOORS.value} outdoors, foil ${BREAKAGE_FOIL.value}.`,
    },
    {
      name: "confidence",
      kind: "share",
      min: 0.5,
      max: 0.9999,
      default: SPARES_CONFIDENCE.value,
      text: "How sure you want to be.",
    },
  ],
  result: { kind: "value", measure: "count", text: "Balloons to take, spares included." },
  source: "Negative binomial: the smallest number of which enough are good with that confidence",
  limits: "Spares are per size and colour: five colours of 20 need 22 each.",
  examples: [
    {
      args: [100],
      gives: 106,
      working: "at 105 the chance of 100 good ones is 90.3%, at 106 above 95%",
      source: "binomial: P(Bin(105, 0.97) >= 100) = 0.9033",
    },
    {
      args: [100, 0.03, 0.99],
      gives: 108,
      working: "negative binomial quantile at 99%",
      source: "published stock table, negative binomial",
    },
    {
      args: [20],
      gives: 22,
      working: "negative binomial quantile at 95%",
      source: "published stock table, negative binomial",
    },
  ],
  failures: [{ args: [100, 3], gives: "#VALUE!", when: "breakage is typed as 3", says: "type 3%" }],
  compute: countWithSpares,
});
