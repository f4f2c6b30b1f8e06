import { MODEL_VERSION } from "../../core/version";
import { define } from "../define";

export const modelVersion = define({
  name: "MODEL_VERSION",
  category: "Help for sheets",
  text: "The version of the models behind these functions, so that two people see whether they compute alike.",
  asks: ["which version", "do we compute the same as our partner"],
  params: [],
  result: { kind: "value", measure: "text", text: "A version that changes whenever any number would." },
  source: "The add-in itself",
  examples: [],
  failures: [],
  compute: () => MODEL_VERSION,
});
