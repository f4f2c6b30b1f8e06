import { jobPlan, type JobPlan } from "../../core/event/job-plan";
import { brokenLines } from "../../core/event/papers/broken-lines";
import { offerPaper } from "../../core/event/papers/offer";
import { orderPaper } from "../../core/event/papers/order";
import { packingPaper, returnsPaper } from "../../core/event/papers/packing";
import { PAPERS, paperLine, type PaperName, type PaperRow } from "../../core/event/papers/paper";
import { setupPaper } from "../../core/event/papers/setup";
import { termLines } from "../../core/event/papers/terms-paper";
import { venuePaper } from "../../core/event/papers/venue";
import { unavailable } from "../../core/calc-error";
import { defineEvent } from "./define-event";
import { typedTerm } from "./terms";

/** The terms paper: values as the worksheet types them; why a default is what it is where it holds. */
function termsPaper(plan: JobPlan, event: string): readonly PaperRow[] {
  return termLines(plan, event).map(({ section, term, from }) => {
    const { amount, unit } = typedTerm(term.term, term.value);
    const isTyped = term.origin === "you" || term.origin === "this event";
    const note = isTyped || from === term.why ? from : `${from}: ${term.why}`;
    const row = paperLine(section, term.term, amount, unit, note);
    return term.doubt === undefined ? row : { ...row, status: `stop: ${term.doubt}` };
  });
}

/** The event of an offer: it may be priced although no option is chosen, so that options stand side by side. */
function offerEvent(plan: JobPlan, event: string): string {
  const names = [...new Set(plan.scenarios.map((scenario) => scenario.event))];
  if (names.length === 1) return names[0] ?? "";
  const found = names.find((name) => name.trim().toLowerCase() === event.trim().toLowerCase());
  if (found !== undefined) return found;
  const list = names.map((name) => `"${name}"`).join(", ");
  throw unavailable(`event must be one of ${list}, found ${event === "" ? "nothing" : `"${event}"`}`);
}

const MAKERS: Readonly<Record<PaperName, (plan: JobPlan, event: string) => readonly PaperRow[]>> = {
  offer: (plan, event) => offerPaper(plan, offerEvent(plan, event)),
  order: (plan) => orderPaper(plan),
  packing: packingPaper,
  returns: returnsPaper,
  setup: setupPaper,
  venue: venuePaper,
  terms: termsPaper,
};

export const paperPlanRows = defineEvent({
  name: "PAPER_PLAN",
  category: "The whole event",
  text: "A paper to hand over: offer, order, packing, returns, setup, venue or terms.",
  asks: [
    "shopping list for the job",
    "what to order",
    "packing list",
    "invoice or quote for the client",
    "setup sheet for the helper",
    "what the venue wants to know",
    "which assumptions are in force",
  ],
  before: [
    { name: "paper", kind: "choice", options: PAPERS, text: "Which paper." },
    { name: "event", kind: "text", optional: true, text: "Which event; empty where there is one." },
  ],
  needs: [],
  result: {
    kind: "table",
    text: "Sections with their lines. Problems that touch the paper come first; an offer is refused while anything is missing or unsafe. Long sentences go on in the rows below.",
    columns: [
      { name: "section", measure: "text", text: "Heading." },
      { name: "line", measure: "text", text: "What it is about." },
      { name: "amount", measure: "number", text: "How much, in the unit; money where there is none." },
      { name: "unit", measure: "text", text: "Unit of the amount." },
      { name: "note", measure: "text", text: "What belongs beside it." },
      { name: "status", measure: "text", text: "What to look at." },
    ],
  },
  source:
    "The same plan as COST_PLAN, WORK_PLAN and STOCK_PLAN; sentences on how pieces are put together by common practice",
  limits:
    "Weights, ballast and oxygen are estimates: local codes, the venue's rules and licensed practice come first.",
  examples: [
    {
      args: [
        "order",
        null,
        [
          ["name", "kind", "printed", "balloons", "colour"],
          ["Arch", "count", 11, 20, "Gold"],
        ],
        [
          ["supplier", "printed", "colour", "bag", "price"],
          ["Town", 11, "Gold", 50, 12.5],
        ],
      ],
      gives: [["Town", "11 in Gold", 1, "bag of 50", "12.50 each, 12.50 in all", "ok"]],
      working: "20 with spares are 22: one bag of 50",
      source: "by hand; spares by the negative binomial",
    },
  ],
  failures: [
    {
      args: [
        "offer",
        null,
        [
          ["name", "kind", "printed", "balloons", "colour"],
          ["Arch", "count", 11, 20, "Gold"],
        ],
        [
          ["supplier", "printed", "colour", "bag", "price"],
          ["Town", 11, "Navy", 50, 12.5],
        ],
      ],
      gives: "#N/A",
      when: "nobody sells a colour",
      says: "stop the offer, the first:",
    },
    {
      args: ["invoice"],
      gives: "#VALUE!",
      when: "there is no such paper",
      says: 'paper must be one of "offer", "order"',
    },
  ],
  compute: (job, paper, event) => {
    const needsPrices = paper === "offer" || paper === "order";
    if (paper !== "terms" && !job.given.has("pieces"))
      throw unavailable("pieces must be given, found nothing");
    if (needsPrices && !job.given.has("price_list") && !job.given.has("stock"))
      throw unavailable("price_list or stock must be given, found nothing");
    const plan = jobPlan(job);
    return brokenLines(MAKERS[paper](plan, event ?? ""));
  },
});
