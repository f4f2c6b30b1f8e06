import { cautionsAbout } from "../../care/cautions";
import { DEFER, type CautionTopic } from "../../care/caution-rows";
import { orNone } from "../../numeric/tally";
import { isWithheld } from "../../withheld";
import type { PartKind } from "../cells";
import type { Part } from "../part";
import type { PlannedPiece } from "../plan-parts";
import { standingBox } from "../standing";
import { paperLine, type PaperRow } from "./paper";

/** Height that nobody reaches from the floor, m. Source: ours. */
const LADDER_FROM = 2;

/** Kinds that hang or stand high whatever their cells say. */
const HIGH: readonly (PartKind | undefined)[] = ["arch", "garland", "ceiling", "net", "mix"];

/** Inflated size from which a burst hurts eyes and ears, m. Source: ours. */
const LARGE_FROM = 0.6;

const partsOf = (pieces: readonly PlannedPiece[]): readonly Part[] =>
  pieces.flatMap(({ parts }) => parts.map(({ part }) => part)).filter(({ quantity }) => quantity !== 0);

/**
 * Topics of the cautions that fit the loading of some pieces.
 *
 * @param pieces of one event
 * @returns topics, each once
 */
export function loadingTopics(pieces: readonly PlannedPiece[]): readonly CautionTopic[] {
  const parts = partsOf(pieces);
  return [
    ...(parts.some(({ carried }) => carried === "built") ? (["driving"] as const) : []),
    ...(parts.some(({ gas }) => gas === "helium") ? (["cylinders"] as const) : []),
    "lifting",
  ];
}

/**
 * Topics of the cautions that fit the work on some pieces.
 *
 * @param pieces of one event
 * @returns topics, each once
 */
export function workTopics(pieces: readonly PlannedPiece[]): readonly CautionTopic[] {
  const parts = partsOf(pieces);
  const some = (test: (part: Part) => boolean): boolean => parts.some(test);
  const isHigh = pieces.some(({ piece }) => orNone(standingBox(piece)?.[2]) > LADDER_FROM);
  const found: readonly (readonly [CautionTopic, boolean])[] = [
    ["ladder", isHigh || some(({ kind }) => HIGH.includes(kind))],
    ["helium", some(({ gas }) => gas === "helium")],
    ["cylinders", some(({ gas }) => gas === "helium")],
    ["foil", some(({ type }) => type === "foil")],
    ["outdoor", some(({ where }) => where === "outdoors")],
    ["electric", some(({ where }) => where === "outdoors")],
    ["net", some(({ kind }) => kind === "net")],
    [
      "bursting",
      some(({ inflated }) => inflated !== undefined && !isWithheld(inflated) && inflated >= LARGE_FROM),
    ],
  ];
  return found.filter(([, fits]) => fits).map(([topic]) => topic);
}

/**
 * Cautions as the last section of a paper: what to do, and once that local rules come first.
 *
 * @param topics those that fit
 * @returns lines; none without topics
 */
export function careLines(topics: readonly CautionTopic[]): readonly PaperRow[] {
  const lines = topics.flatMap((topic) =>
    cautionsAbout(topic).map(({ whatToDo }) =>
      paperLine("care", whatToDo.replace(DEFER, "").trim(), "", "", topic),
    ),
  );
  return lines.length === 0 ? [] : [...lines, paperLine("care", DEFER)];
}
