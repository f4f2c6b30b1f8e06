import { CAUTION_TOPICS } from "../../core/care/caution-rows";
import { cautionsAbout } from "../../core/care/cautions";
import { define } from "../define";

export const cautions = define({
  name: "CAUTIONS",
  category: "Care",
  text: "Plain cautions for a topic of the job: what can happen and what to do.",
  asks: [
    "is it safe",
    "what to watch out for",
    "safety notes for the client",
    "helium safety",
    "power lines",
    "what the insurance asks about",
    "may I use hydrogen",
    "batteries of lights in balloons",
    "generator and cables outdoors",
  ],
  params: [
    {
      name: "topic",
      kind: "choice",
      options: ["all", ...CAUTION_TOPICS],
      text: "What the cautions are about.",
      default: "all",
    },
  ],
  result: {
    kind: "table",
    text: "One row for each caution.",
    columns: [
      { name: "topic", measure: "text", text: "What it is about." },
      { name: "what can happen", measure: "text", text: "The danger." },
      { name: "what to do", measure: "text", text: "How to avoid it." },
      { name: "source", measure: "text", text: "The publication behind it, where one was read." },
    ],
  },
  source: "The publication named in each row; otherwise common practice",
  limits: "Not a risk assessment and not the law of your place.",
  examples: [],
  failures: [
    { args: ["fire"], gives: "#VALUE!", when: "the topic is not known", says: "topic must be one of" },
  ],
  compute: (topic) =>
    cautionsAbout(topic).map((row) => ({
      topic: row.topic,
      "what can happen": row.whatCanHappen,
      "what to do": row.whatToDo,
      source: row.source ?? "common practice",
    })),
});
