import { readiness } from "../../core/event/ready";
import { BLANK } from "../result-rows";
import { defineEvent } from "./define-event";

export const readyPlanRows = defineEvent({
  name: "READY_PLAN",
  category: "The whole event",
  text: "Can this job go out? The verdict, then every reason against it and what to do, over all tables of the job.",
  asks: ["can the quote go out", "what is missing", "check the whole job", "list all problems"],
  needs: [],
  answersAlways: true,
  result: {
    kind: "table",
    text: "First row the verdict: ready or not ready. Then stop, unsafe, no go, check and note, worst first.",
    columns: [
      { name: "weight", measure: "text", text: "Ready, not ready, stop, unsafe, no go, check or note." },
      { name: "table", measure: "text", text: "Table that it is about." },
      { name: "row", measure: "count", text: "Row in its range; blank where it is about no single row." },
      { name: "what", measure: "text", text: "What is wrong." },
      { name: "do", measure: "text", text: "What to do." },
    ],
  },
  source: "Everything that the plans of a job need and find; ready means no stop, unsafe or no go",
  limits: "Says nothing of tables that are not given; their absence is a note.",
  examples: [
    {
      args: [
        [
          ["name", "kind", "quantity", "printed", "colour", "balloons"],
          ["Bunch", "count", 1, 11, "Gold", 20],
        ],
        [
          ["supplier", "printed", "colour", "bag", "price"],
          ["Town", 11, "Navy", 50, 9.9],
        ],
      ],
      gives: [
        ["not ready", "", "", "1 stop", ""],
        ["stop", "price_list", "", "nobody sells 11 in Gold, 22 short", null],
        ["note", "pieces", "", "table 1 read as pieces, 1 row", ""],
        ["note", "price_list", "", "table 2 read as price_list, 1 row", ""],
        ["note", "terms", "", "no terms are given, so nothing is said about work, travel and price", null],
      ],
      working: "20 good ones of 22 at 3 % breakage with 95 %; the list has no Gold",
      source: "negative binomial: P(Bin(22, 0.97) >= 20) = 0.97, P(Bin(21, 0.97) >= 20) = 0.87",
    },
  ],
  failures: [],
  compute: (job) => {
    const { isReady, summary, problems } = readiness(job);
    return [
      { weight: isReady ? "ready" : "not ready", table: BLANK, row: BLANK, what: summary, do: BLANK },
      ...problems.map(({ weight, table, row = BLANK, what, todo }) => ({
        weight,
        table,
        row,
        what,
        do: todo,
      })),
    ];
  },
});
