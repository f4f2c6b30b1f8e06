import { learnPlan } from "../../core/event/learn-plan";
import { defineEvent } from "./define-event";

const usual = (measure: string, of: string): readonly (string | number | null)[] => [
  measure,
  of,
  0,
  null,
  "",
  null,
  null,
  null,
  0,
  null,
  null,
  "ok: no jobs yet, the trade default",
];

export const learnPlanRows = defineEvent({
  name: "LEARN_PLAN",
  category: "The whole event",
  text: "Your own pace, rigging, breakage and fullness from your past jobs, and how sure they are.",
  asks: [
    "how fast am I really",
    "my own minutes per balloon",
    "what do I really lose",
    "learn from past jobs",
    "are my estimates right",
  ],
  needs: ["past_jobs"],
  result: {
    kind: "table",
    text: "One row for each style, kind or place. Give the same past jobs to any event function and it uses them where you typed nothing.",
    columns: [
      { name: "measure", measure: "text", text: "Pace, rigging, breakage or fullness." },
      { name: "of", measure: "text", text: "Style, kind, or place and type." },
      { name: "jobs", measure: "count", text: "Past jobs that say something about it." },
      {
        name: "default",
        measure: "number",
        text: "Trade default: minutes, a share, or a ratio of spacing or packing.",
      },
      { name: "own alone", measure: "number", text: "What your jobs alone say." },
      { name: "estimate", measure: "number", text: "Both together: what the event functions use." },
      {
        name: "low",
        measure: "number",
        text: "Low end of the range that holds yours as surely as the term sure says.",
      },
      { name: "high", measure: "number", text: "Its high end." },
      { name: "own weight", measure: "share", text: "How much of the estimate is yours." },
      { name: "table", measure: "text", text: "Where a typed number would win: the table." },
      { name: "column", measure: "text", text: "Its column or term." },
      { name: "status", measure: "text", text: "How sure it is, or what cannot be read." },
    ],
  },
  source:
    "Normal with known variance on the logarithm of actual over planned (Held and Sabanes Bove 2014, as quoted); Beta-binomial for breakage, with a design effect for balloons of one job (Kish 1965, from memory)",
  limits:
    "How much jobs and decorators differ is a term without a source: job spread, own spread, breakage weight.",
  examples: [
    {
      args: [
        [
          ["job", "style", "balloons", "hours"],
          ["Fair", "clusters", 240, 3],
        ],
      ],
      gives: [
        [
          "pace",
          "clusters",
          1,
          0.5,
          0.75,
          0.6454,
          0.4324,
          0.9633,
          0.6295,
          "work",
          "minutes per balloon",
          "ok: 1 job: 63 % yours, 37 % trade default",
        ],
        usual("pace", "free-form"),
        usual("pace", "helium"),
        usual("pace", "ceiling"),
        usual("pace", "net"),
        usual("pace", "wall"),
        usual("pace", "sleeve"),
        usual("breakage", "indoors"),
        usual("breakage", "outdoors"),
        usual("breakage", "foil"),
      ],
      within: 0.0005,
      working:
        "ln 1.5 = 0.40547; 1/(0.09 + 1/240) = 10.6195; P = 6.25 + 10.6195; 0.5 x exp(4.3058/P), range x exp(+-1.6449/sqrt P)",
      source: "by hand; spreads ours, no source",
    },
  ],
  failures: [],
  compute: (job) => learnPlan(job),
});
