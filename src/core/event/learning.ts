import { SPACING_LIMITS } from "../geometry/checks";
import { nameKey } from "../palette/names";
import {
  CLUSTER_SPACING,
  COVER_SPACING,
  MIX_PACKING,
  NET_PACKING,
  RIGGING_MINUTES,
  TIED_BALL_SPACING,
  WALL_SPACING,
} from "../practice";
import { grouped } from "../stock/grouped";
import { UNITS } from "../units";
import { KINDS } from "./kinds";
import { WORK_STYLES, type PartKind, type PastJobCells, type WorkStyle } from "./cells";
import type { TermName } from "./term-cells";
import type { Line } from "./job";
import { learnedBreakage, learnedFactor, type Learned } from "./learned";
import { usualBalloonTime } from "./part-work";
import { requiredTerm, type Terms } from "./terms";

/** What past jobs can teach. */
export const MEASURES = ["pace", "rigging", "breakage", "fullness"] as const;

/** One of `MEASURES`. */
export type MeasureName = (typeof MEASURES)[number];

/** What past jobs teach about one thing. Times in s. */
export interface Lesson {
  readonly measure: MeasureName;
  /** A style, a kind, or a place and type of balloon. */
  readonly of: string;
  readonly jobs: number;
  /** Trade default. */
  readonly usual: number;
  readonly ownAlone: number | undefined;
  readonly estimate: number;
  readonly low: number;
  readonly high: number;
  readonly ownWeight: number;
  /** Where a typed number would win: a table and its column. */
  readonly table: "work" | "terms" | "pieces";
  readonly column: string;
}

type PastJob = Partial<PastJobCells>;

/** How a measure of fullness follows from the factor of balloons that a piece took. */
interface FullnessRule {
  readonly column: "spacing" | "packing";
  readonly usual: number;
  /** Power of the factor: more balloons lie closer together. */
  readonly power: number;
}

const ALONG = -1;
const OVER_A_SURFACE = -0.5;
const IN_A_BODY = 1;

const spacing = (usual: number, power: number): FullnessRule => ({ column: "spacing", usual, power });
const packing = (usual: number): FullnessRule => ({ column: "packing", usual, power: IN_A_BODY });

/**
 * Fullness by kind: along a line balloons go by 1 / spacing, over a surface by 1 / spacing squared, in a body by packing.
 */
const FULLNESS: Readonly<Partial<Record<PartKind, FullnessRule>>> = {
  column: spacing(CLUSTER_SPACING.value, ALONG),
  arch: spacing(CLUSTER_SPACING.value, ALONG),
  garland: spacing(CLUSTER_SPACING.value, ALONG),
  ball: spacing(1, OVER_A_SURFACE),
  "tied ball": spacing(TIED_BALL_SPACING.value, OVER_A_SURFACE),
  cover: spacing(COVER_SPACING.value, OVER_A_SURFACE),
  wall: spacing(WALL_SPACING.value, OVER_A_SURFACE),
  mix: packing(MIX_PACKING.value),
  collar: packing(MIX_PACKING.value),
  net: packing(NET_PACKING.value),
};

const BREAKAGES = [
  { of: "indoors", term: "breakage" },
  { of: "outdoors", term: "breakage outdoors" },
  { of: "foil", term: "breakage foil" },
] as const satisfies readonly { readonly of: string; readonly term: TermName }[];

/**
 * Which breakage a past job speaks of: foil is a kind of its own, latex is told apart by its place.
 *
 * @param job its type and place
 * @returns what a lesson of breakage is of
 */
export function breakageOf({ type, where }: PastJob): (typeof BREAKAGES)[number]["of"] {
  if (type === "foil") return "foil";
  return where === "outdoors" ? "outdoors" : "indoors";
}

/**
 * What past jobs teach: minutes per balloon of every style, rigging of the kinds that were rigged, breakage by place and type, and
 * how full pieces were built. Hours or balloons of 0 are no evidence.
 * Source: `learnedFactor`, `learnedBreakage`; spreads and weights are terms.
 *
 * @param lines rows of past jobs that can be read
 * @param terms spreads, weights and how sure the range is
 * @param usualBreakage trade default of a breakage, or what was typed
 * @returns lessons, those of a style or place without jobs at the trade default
 */
export function lessonsOf(
  lines: readonly Line<PastJobCells>[],
  terms: Terms,
  usualBreakage: (term: (typeof BREAKAGES)[number]["term"]) => number,
): readonly Lesson[] {
  const jobs = lines.filter(({ doubts }) => doubts.length === 0).map(({ cells }) => cells);
  return [
    ...paces(jobs, terms),
    ...riggings(jobs, terms),
    ...breakages(jobs, terms, usualBreakage),
    ...fullness(jobs, terms),
  ];
}

function factorOf(
  evidence: readonly { readonly actual: number; readonly planned: number; readonly size: number }[],
  terms: Terms,
  prefix: "" | "fullness " = "",
): Learned {
  return learnedFactor(
    evidence.map(({ actual, planned, size }) => ({ ratio: actual / planned, size })),
    requiredTerm(terms, `${prefix}job spread`),
    requiredTerm(terms, `${prefix}own spread`),
    requiredTerm(terms, "sure"),
  );
}

/** A learned factor as numbers of the thing that it multiplies, raised to a power. */
function scaled(
  learned: Learned,
  usual: number,
  power = 1,
): Pick<Lesson, "jobs" | "usual" | "ownAlone" | "estimate" | "low" | "high" | "ownWeight"> {
  const at = (factor: number): number => usual * factor ** power;
  const ends = [at(learned.low), at(learned.high)] as const;
  return {
    jobs: learned.jobs,
    usual,
    ownAlone: learned.ownAlone === undefined ? undefined : at(learned.ownAlone),
    estimate: at(learned.estimate),
    low: Math.min(...ends),
    high: Math.max(...ends),
    ownWeight: learned.ownWeight,
  };
}

const isAboveZero = (value: number | undefined): value is number => value !== undefined && value > 0;

/** The style of a past job: as typed, else that of its kind. */
function styleOf({ style, kind }: PastJob): WorkStyle | undefined {
  return style ?? (kind && KINDS[kind].style);
}

function paces(jobs: readonly PastJob[], terms: Terms): readonly Lesson[] {
  return WORK_STYLES.map((style): Lesson => {
    const usual = usualBalloonTime(style);
    const evidence = jobs.flatMap((job) => {
      const { balloons, hours } = job;
      if (styleOf(job) !== style || !isAboveZero(balloons) || !isAboveZero(hours)) return [];
      return [{ actual: hours, planned: balloons * usual, size: balloons }];
    });
    const learned = scaled(factorOf(evidence, terms), usual);
    return { measure: "pace", of: style, ...learned, table: "work", column: "minutes per balloon" };
  });
}

function riggings(jobs: readonly PastJob[], terms: Terms): readonly Lesson[] {
  const rigged = jobs.flatMap(({ kind, pieces, "rigging hours": hours }) =>
    kind === undefined || kind === "count" || !isAboveZero(pieces) || !isAboveZero(hours)
      ? []
      : [{ kind, pieces, hours }],
  );
  return [...grouped(rigged, ({ kind }) => kind)].map(([kind, ofKind]): Lesson => {
    const usual = RIGGING_MINUTES[kind].value * UNITS.min.si;
    const evidence = ofKind.map(({ pieces, hours }) => ({
      actual: hours,
      planned: pieces * usual,
      size: pieces,
    }));
    const learned = scaled(factorOf(evidence, terms), usual);
    return { measure: "rigging", of: kind, ...learned, table: "work", column: "minutes per piece" };
  });
}

function breakages(
  jobs: readonly PastJob[],
  terms: Terms,
  usualBreakage: (term: (typeof BREAKAGES)[number]["term"]) => number,
): readonly Lesson[] {
  return BREAKAGES.map(({ of, term }): Lesson => {
    const evidence = jobs.flatMap((job) => {
      const { taken, popped } = job;
      if (breakageOf(job) !== of || !isAboveZero(taken) || popped === undefined) return [];
      return [{ taken, popped: Math.min(taken, popped) }];
    });
    const usual = usualBreakage(term);
    const learned = learnedBreakage(
      evidence,
      usual,
      requiredTerm(terms, "breakage weight"),
      requiredTerm(terms, "breakage likeness"),
      requiredTerm(terms, "sure"),
    );
    return { measure: "breakage", of, usual, ...learned, table: "terms", column: term };
  });
}

function fullness(jobs: readonly PastJob[], terms: Terms): readonly Lesson[] {
  const built = jobs.flatMap(({ kind, balloons, "planned balloons": planned }) => {
    const rule = kind && FULLNESS[kind];
    return rule === undefined || !isAboveZero(balloons) || !isAboveZero(planned)
      ? []
      : [{ kind: kind as PartKind, rule, actual: balloons, planned, size: balloons }];
  });
  return [...grouped(built, ({ kind }) => kind)].map(([kind, ofKind]): Lesson => {
    const [{ rule }] = ofKind;
    // A share of a volume is above 0 by itself.
    const limits = rule.column === "spacing" ? SPACING_LIMITS : { least: 0, most: 1 };
    const within = (value: number): number => Math.min(limits.most, Math.max(limits.least, value));
    const learned = scaled(factorOf(ofKind, terms, "fullness "), rule.usual, rule.power);
    return {
      measure: "fullness",
      of: kind,
      ...learned,
      estimate: within(learned.estimate),
      low: within(learned.low),
      high: within(learned.high),
      table: "pieces",
      column: rule.column,
    };
  });
}

/**
 * Past jobs that may teach a job: a job never learns from itself.
 *
 * @param lines rows of past jobs
 * @param events names of the job's own events
 * @returns rows of other events
 */
export function othersOnly(
  lines: readonly Line<PastJobCells>[],
  events: readonly string[],
): readonly Line<PastJobCells>[] {
  const own = new Set(events.map(nameKey));
  return lines.filter(({ cells }) => cells.event === undefined || !own.has(nameKey(cells.event)));
}
