import { attempt } from "../../attempt";
import { CalcError } from "../../calc-error";
import { fillDiameter } from "../../gas/inflate";
import { sum } from "../../numeric/sums";
import { orNone } from "../../numeric/tally";
import { itemKey, itemWords } from "../../stock/item";
import { fromSi } from "../../units";
import { isWithheld, sumKnown, whenKnown, type Known } from "../../withheld";
import { eventDangers } from "../dangers";
import { eventStages, momentsOf } from "../event-stages";
import { settledCosts } from "../goods-plan";
import { PART_KINDS, type PartKind } from "../cells";
import { itemOfPart, type ItemNeed } from "../item-needs";
import type { JobPlan } from "../job-plan";
import { partTether } from "../part-gas";
import { ribbonCount } from "../part-ribbon";
import type { PlannedPart, PlannedPiece } from "../plan-parts";
import type { ScenarioCosts } from "../scenario-costs";
import { requiredTerm, type Terms } from "../terms";
import type { EventTravel } from "../travel";
import { clockText } from "../work-plan";
import { ballastLines } from "./ballast-lines";
import { careLines, workTopics } from "./care-lines";
import { takenBy } from "./packing";
import { eventOf, metresText, paperLine, problemLines, type PaperRow } from "./paper";

/** Spare balloons of an event by the key of their item. */
type Spares = ReadonlyMap<string, number>;

/** How each kind is put together, in one sentence. Source: common practice. */
const HOW: Readonly<Record<PartKind, string>> = {
  column: "tie the clusters, push each one down the pole and turn it half a balloon against the one below",
  arch: "tie the clusters along the frame from both feet to the middle, each turned half a balloon",
  garland: "tie the clusters along the line, each turned half a balloon against the one before",
  strand: "tie the balloons one by one along the line at even distances",
  ball: "start from a tied cross and close the gaps ring by ring",
  wall: "fill the frame row by row from the bottom, equal pressure everywhere",
  ceiling: "let the balloons up one by one and close the gaps from the walls inwards",
  net: "hang the net first, fill it from the closed end and check the release line before it goes up",
  mix: "tie pairs of one size, twist them together by their necks and set sizes against each other",
  count: "count the balloons out and tie them as agreed",
  "tied ball": "tie the balloons in pairs, twist all necks into one centre and turn them into a ball",
  cover: "fix the loose balloons on the ball from the top down until nothing of it shows",
  collar: "lay the small balloons round the base until the foot is hidden",
  sleeve: "roll the long balloon over the pole like a stocking, without air",
  foil: "fill until the wrinkles at the seam are short, then seal",
  bouquet: "tie each balloon to its ribbon, step the lengths, tie all to the weight",
};

/** Order of work: what stands and is clustered, then free-form, then stands, ceilings, and helium last. */
const RANKS: readonly (readonly PartKind[])[] = [
  ["wall", "column", "arch", "garland", "strand", "count", "net"],
  ["mix"],
  ["sleeve", "tied ball", "ball", "cover", "collar"],
  ["ceiling"],
  ["bouquet", "foil"],
];

/**
 * What a helper needs to build an event: the clock, then piece by piece in the order of work the sizes to set, the colours, how
 * it is put together, ribbons, weights, and the cautions that fit.
 *
 * @param plan of the job
 * @param event as typed; empty where the job has one
 * @returns lines
 * @throws CalcError `#N/A` where an option must be chosen or the event is not one of the job's
 */
export function setupPaper(plan: JobPlan, event: string): readonly PaperRow[] {
  const costs = settledCosts(plan);
  const travel = eventOf(plan, event);
  const pieces = costs.pieces.filter((piece) => piece.event === travel.event && piece.piece.quantity !== 0);
  const problems = [...costs.problems, ...eventDangers(costs, travel)].filter(
    ({ weight, reach }) =>
      weight === "unsafe" || weight === "no go" || (weight === "stop" && reach.of === "job"),
  );
  const spares = sparesOf(costs.needs, travel);
  return [
    ...problemLines(problems),
    ...clockLines(costs, travel),
    ...(["shop", "site"] as const).flatMap((place) =>
      inOrder(pieces).flatMap((piece) => pieceLines(piece, place, spares)),
    ),
    ...careLines(workTopics(pieces)),
  ];
}

function clockLines(costs: ScenarioCosts, travel: EventTravel): readonly PaperRow[] {
  const works = costs.work.filter((_, place) => costs.pieces[place]?.event === travel.event);
  try {
    const { hasDates } = momentsOf(travel.event.terms);
    const timed = eventStages(travel, works).filter(
      ({ work, stage, start }) => start !== undefined && (work > 0 || stage === "ready"),
    );
    if (timed.length === 0)
      return [paperLine("clock", "hours", "", "", "type ready and end in terms to know")];
    return timed.map(({ stage, start, people }) => {
      const amount = start === undefined ? "" : hasDates ? momentText(start) : clockText(start);
      const crew = `${people} ${people === 1 ? "person" : "people"}`;
      return paperLine("clock", stage, amount, "", people === 0 ? "" : crew);
    });
  } catch (error) {
    if (error instanceof CalcError) return [paperLine("clock", "no hours", "", "", error.message)];
    throw error;
  }
}

/** Day 0 of Excel's calendar before 1 January 1970. */
const DAYS_TO_1970 = 25569;

/** A date and time as everybody reads it, to the minute. Source: ISO 8601 without its T. */
export function momentText(serial: number): string {
  const minutes = Math.round((serial - DAYS_TO_1970) * 1440);
  return new Date(minutes * 60_000).toISOString().slice(0, 16).replace("T", " ");
}

function rankOf({ parts }: PlannedPiece): number {
  const ranks = parts.map(({ part }) => {
    if (part.gas === "helium" && part.style === "helium") return RANKS.length - 1;
    return RANKS.findIndex((kinds) => part.kind !== undefined && kinds.includes(part.kind));
  });
  return Math.max(0, ...ranks);
}

function inOrder(pieces: readonly PlannedPiece[]): readonly PlannedPiece[] {
  return pieces.toSorted((one, other) => rankOf(one) - rankOf(other));
}

/** Balloons of each item that an event takes beyond those it needs, by the item's key. */
function sparesOf(needs: readonly ItemNeed[], travel: EventTravel): Spares {
  return new Map(
    needs.map((need) => {
      const own = need.demands.filter(({ planned }) => planned.event === travel.event);
      return [need.key, takenBy(need, travel) - sum(own.map(({ count }) => count))] as const;
    }),
  );
}

function pieceLines(planned: PlannedPiece, place: "shop" | "site", spares: Spares): readonly PaperRow[] {
  const parts = planned.parts.filter(({ part }) => part.built === place && part.quantity !== 0);
  const [first] = parts;
  if (first === undefined) return [];
  const { piece, event } = planned;
  const section = `${place}: ${piece.name}`;
  const quantity: Known = piece.quantity;
  const isOnSite = place === "site" || planned.parts.every(({ part }) => part.built === "shop");
  return [
    paperLine(section, "pieces to build", quantity, quantity === 1 ? "piece" : "pieces"),
    ...parts.toSorted(byKind).flatMap((part) => partLines(section, part, event.terms, spares)),
    ...(isOnSite ? weightLines(section, planned) : []),
  ];
}

const byKind = (one: PlannedPart, other: PlannedPart): number =>
  RANKS.flat().indexOf(one.part.kind ?? "count") - RANKS.flat().indexOf(other.part.kind ?? "count");

function partLines(section: string, planned: PlannedPart, terms: Terms, spares: Spares): readonly PaperRow[] {
  const { part } = planned;
  const kind = part.kind ?? "count";
  const dimensions = (["width", "height", "length"] as const)
    .flatMap((name) => (part.cells[name] === undefined ? [] : [`${name} ${metresText(part.cells[name])}`]))
    .join(", ");
  return [
    paperLine(section, `${kind}: ${HOW[kind]}`, part.each, "balloons in one", dimensions),
    ...sizeLines(section, planned, terms),
    ...colourLines(section, planned, spares),
    ...clusterLines(section, planned),
    ...ribbonLines(section, planned),
  ];
}

function sizeLines(section: string, { part }: PlannedPart, terms: Terms): readonly PaperRow[] {
  const { inflated } = part;
  if (inflated === undefined) return [];
  const inches = (across: Known): Known => whenKnown([across], (m) => Number(fromSi(m, "in").toFixed(2)));
  if (part.type === "foil") return [paperLine(section, "flat size", inches(inflated), "in")];
  const isElsewhere = part.built === "shop";
  const fill = attempt(() => {
    if (isWithheld(inflated) || !isElsewhere || part.type !== "latex") return 0;
    return fillDiameter(
      inflated,
      requiredTerm(terms, "fill temperature"),
      requiredTerm(terms, "temperature"),
      requiredTerm(terms, "fill altitude"),
      requiredTerm(terms, "altitude"),
    );
  });
  const isSame =
    fill === 0 || (!isWithheld(fill) && !isWithheld(inflated) && Math.abs(fill - inflated) < 1e-9);
  if (isSame) return [paperLine(section, "sizer to set", inches(inflated), "in")];
  const there = isWithheld(inflated) ? "" : `${Number(fromSi(inflated, "in").toFixed(2))} in at the venue`;
  return [paperLine(section, "sizer to set", inches(fill), "in", there)];
}

/** Balloons by size on the bag and colour, of all pieces; beside them those of one piece, and the spares of the whole event. */
function colourLines(section: string, { part, colours }: PlannedPart, spares: Spares): readonly PaperRow[] {
  const { quantity } = part;
  return colours.colours.map(({ colour, places, count }) => {
    const isInside = places === 0 && count > 0;
    const amount = whenKnown([quantity], (pieces) => pieces * (isInside ? count : places));
    const isOne = quantity === 1;
    const each = isInside ? count : places;
    const item = itemOfPart(part, colour);
    const spare = item === undefined ? 0 : orNone(spares.get(itemKey(item)));
    const note = [
      isInside ? "inside another balloon" : "",
      isOne ? "" : `${each} in one`,
      spare > 0 ? `${spare} spare in all` : "",
    ];
    const words = item === undefined ? colour.trim() : itemWords(item);
    return paperLine(section, words, amount, "balloons", note.filter((text) => text !== "").join(", "));
  });
}

/** What each cluster holds, where all are alike. */
function clusterText({ part, colours }: PlannedPart): string {
  const { clusters } = part;
  if (isWithheld(clusters) || clusters === 0) return "";
  const seen = colours.colours.filter(({ places }) => places > 0);
  const inOne = seen.map(({ colour, places }) => ({ colour, count: places / clusters }));
  if (!inOne.every(({ count }) => Number.isInteger(count))) return "";
  return `each ${inOne.map(({ colour, count }) => `${count} ${colour.trim()}`).join(" + ")}`;
}

function clusterLines(section: string, planned: PlannedPart): readonly PaperRow[] {
  const { clusters, quantity } = planned.part;
  if (clusters === 0) return [];
  const text = clusterText(planned);
  const inOne = isWithheld(clusters) ? "" : `${Number(clusters.toFixed(2))} in one`;
  const note = [quantity === 1 ? "" : inOne, text].filter((part) => part !== "").join(", ");
  const amount = whenKnown([clusters, quantity], (one, pieces) => Number((one * pieces).toFixed(2)));
  return [paperLine(section, "clusters", amount, "clusters", note)];
}

function ribbonLines(section: string, { part, ribbon }: PlannedPart): readonly PaperRow[] {
  const count = attempt(() => ribbonCount(part));
  const length = part.cells.ribbon;
  if (count === 0 || length === undefined) return [];
  const total = isWithheld(ribbon) ? "" : `, ${metresText(ribbon)} in all with knots`;
  const hangs =
    part.kind === "cover"
      ? `gathered ${metresText(length)} below the finished ball`
      : `${metresText(length)} hanging`;
  const amount = whenKnown([count, part.quantity], (one, pieces) => one * pieces);
  return [paperLine(section, "ribbons", amount, "ribbons", `${hangs}${total}`)];
}

function weightLines(section: string, { piece, parts, event }: PlannedPiece): readonly PaperRow[] {
  const floating = parts.filter(({ part }) => part.gas === "helium" && part.style !== "ceiling");
  const tether =
    floating.length === 0
      ? []
      : [
          paperLine(
            section,
            "weight to tie one to",
            whenKnown(
              [sumKnown(floating.map(({ part, colours }) => tetherOf(part, colours.inner, event.terms)))],
              (kg) => Math.ceil(kg * 1000),
            ),
            "g",
            "at least; it grows with the wind",
          ),
        ];
  return [...tether, ...ballastLines(section, piece, event.terms)];
}

function tetherOf(part: PlannedPart["part"], inner: Known, terms: Terms): Known {
  return attempt(() => partTether(part, isWithheld(inner) ? 0 : inner, terms), part.place);
}

/** Kinds without a place in the order of work; none, as a test holds. */
export const UNRANKED: readonly PartKind[] = PART_KINDS.filter((kind) => !RANKS.flat().includes(kind));

/** Balloons that a paper's colours add up to, for one part. */
export function seenBalloons({ colours }: PlannedPart): number {
  return sum(colours.colours.map(({ places }) => places));
}
