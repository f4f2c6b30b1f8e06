import { OXYGEN_LIMIT, oxygenShare } from "../../care/oxygen";
import { fromSi } from "../../units";
import { isWithheld, whenKnown } from "../../withheld";
import { eventDangers } from "../dangers";
import { isDated, momentsOf } from "../event-stages";
import { settledCosts } from "../goods-plan";
import type { JobPlan } from "../job-plan";
import type { PlannedPiece } from "../plan-parts";
import { heliumOf } from "../scenario-costs";
import { standingBox } from "../standing";
import { termOf, type Terms } from "../terms";
import { clockText } from "../work-plan";
import { ballastLines } from "./ballast-lines";
import { careLines, workTopics } from "./care-lines";
import { eventOf, metresText, paperLine, problemLines, type PaperRow } from "./paper";
import { momentText } from "./setup";

/**
 * What a venue wants to know: when you come and go, what stands where and how heavy, how much helium comes in, and the cautions
 * for guests.
 *
 * @param plan of the job
 * @param event as typed; empty where the job has one
 * @returns lines
 * @throws CalcError `#N/A` where an option must be chosen or the event is not one of the job's
 */
export function venuePaper(plan: JobPlan, event: string): readonly PaperRow[] {
  const costs = settledCosts(plan);
  const travel = eventOf(plan, event);
  const pieces = costs.pieces.filter((piece) => piece.event === travel.event && piece.piece.quantity !== 0);
  const problems = [...costs.problems, ...eventDangers(costs, travel)].filter(
    ({ weight, reach, table }) =>
      weight === "unsafe" ||
      (weight === "no go" && table === "WORK_PLAN") ||
      (weight === "stop" && reach.of === "job"),
  );
  const { terms } = travel.event;
  const work = workTopics(pieces).filter((topic) => topic === "outdoor" || topic === "net");
  return [
    ...problemLines(problems),
    ...timeLines(terms),
    ...pieces.flatMap((piece) => pieceLines(piece, terms)),
    ...heliumLines(pieces, terms),
    ...careLines(["latex", "children", "exits", ...work]),
  ];
}

function timeLines(terms: Terms): readonly PaperRow[] {
  const { access, ready, end, clearBy } = momentsOf(terms);
  const start = termOf(terms, "start");
  const text = (serial: number): string =>
    isDated(serial) && serial > 2000 ? momentText(serial) : clockText(serial);
  const times = [
    ["access", access],
    ["ready", ready],
    ["event starts", start === undefined || isDated(start) ? start : start + 1000],
    ["event ends", end],
    ["clear by", clearBy],
  ] as const;
  return times.map(([line, serial]) =>
    paperLine(
      "times",
      line,
      serial === undefined ? "" : text(serial),
      "",
      serial === undefined ? "not agreed yet" : "",
    ),
  );
}

function pieceLines({ piece, parts }: PlannedPiece, terms: Terms): readonly PaperRow[] {
  const box = standingBox(piece);
  const isOutdoors = parts.some(({ part }) => part.where === "outdoors");
  const lengths = parts.flatMap(({ part }) => part.metres ?? []);
  const size =
    box === undefined
      ? lengths.length === 0
        ? ""
        : `${metresText(Math.max(...lengths))} long`
      : `${metresText(box[0])} x ${metresText(box[1])} on the floor, ${metresText(box[2])} high`;
  const note = [size, isOutdoors ? "outdoors" : ""].filter((text) => text !== "").join(", ");
  return [
    paperLine("pieces", piece.name, piece.quantity, piece.quantity === 1 ? "piece" : "pieces", note),
    ...ballastLines("pieces", piece, terms, `${piece.name}: `),
  ];
}

function heliumLines(pieces: readonly PlannedPiece[], terms: Terms): readonly PaperRow[] {
  const helium = heliumOf(pieces);
  if (helium === 0) return [];
  const litres = whenKnown([helium], (m3) => Math.round(fromSi(m3, "L")));
  const room = termOf(terms, "room m3");
  const rows = [paperLine("helium", "helium that comes in", litres, "L", "as gas at room pressure")];
  if (room === undefined)
    return [
      ...rows,
      paperLine("helium", "oxygen if all of it leaked", "", "", "type room m3 in terms to know"),
    ];
  const share = whenKnown([helium], (m3) => oxygenShare(room, m3));
  const percent = whenKnown([share], (value) => Number((value * 100).toFixed(2)));
  const isLow = !isWithheld(share) && share < OXYGEN_LIMIT;
  const row = paperLine(
    "helium",
    "oxygen if all of it leaked",
    percent,
    "%",
    `in a closed room of ${room} m3`,
  );
  const status = isLow
    ? "unsafe: below 19.5 % the air is short of oxygen, keep the room open and aired"
    : "ok";
  return [...rows, { ...row, status }];
}
