import { jobPlan, type JobPlan } from "../../../../src/core/event/job-plan";
import type { PaperRow } from "../../../../src/core/event/papers/paper";
import { jobOf, type Tables } from "../job-builder";
import { EVENING, STAND_BOUQUET } from "../sample-jobs";

/** The sample jobs as papers need them, and how a test finds a line of one. */

const van = { vehicle: "van", m3: 11 };

export const planOf = (tables: Tables): JobPlan => jobPlan(jobOf(tables));
export const evening = (more: Tables = {}): JobPlan => planOf({ ...EVENING, vehicles: [van], ...more });
export const stand = (more: Tables = {}): JobPlan => planOf({ ...STAND_BOUQUET, ...more });

export const line = (rows: readonly PaperRow[], section: string, text: string): PaperRow | undefined =>
  rows.find((row) => row.section === section && row.line.startsWith(text));

export const amounts = (rows: readonly PaperRow[], section: string): readonly (readonly unknown[])[] =>
  rows.filter((row) => row.section === section).map((row) => [row.line, row.amount]);
