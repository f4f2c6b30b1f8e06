import { describe, expect, it } from "vitest";
import type { WorkCells } from "../../../src/core/event/cells";
import { taskOf, TASKS, workOf, workProblems, workTable } from "../../../src/core/event/work-table";
import { jobOf, minutes, type Row } from "./job-builder";

const column = { name: "Door columns", kind: "column", style: "clusters" } as const;
const own = (part: typeof column, ...work: readonly Row<WorkCells>[]): number | undefined =>
  workOf(workTable(jobOf({ work })), part, "minutes per balloon");
const each = (task: string, time: number): Row<WorkCells> => ({ task, "minutes per balloon": minutes(time) });
const said = (names: readonly string[], ...work: readonly Row<WorkCells>[]): readonly string[] =>
  workProblems(jobOf({ work }), names).map(({ weight, what, reach }) => `${weight} (${reach.of}): ${what}`);

describe("workOf", () => {
  it("lets a name win over a kind, and a kind over a style, in any order of rows", () => {
    const rows = [each("clusters", 1), each("column", 2), each(" door COLUMNS", 3)];
    expect(own(column, ...rows)).toBe(180);
    expect(own(column, ...rows.toReversed())).toBe(180);
    expect(own(column, ...rows.slice(0, 2))).toBe(120);
    expect(own(column, ...rows.slice(0, 1))).toBe(60);
    expect(own(column, each("wall", 5))).toBeUndefined();
  });

  it("lets rows of one task fill each other's blanks", () => {
    const table = workTable(jobOf({ work: [{ task: "column", where: "shop" }, each("Column", 2)] }));
    expect(workOf(table, column, "where")).toBe("shop");
    expect(workOf(table, column, "minutes per balloon")).toBe(120);
  });

  it("lets the first of two rows win, so that what is learned stands behind what was typed", () => {
    expect(own(column, each("column", 2), each("column", 3))).toBe(120);
  });

  it("takes a typed 0 for a time, not for silence", () => {
    expect(own(column, each("column", 0))).toBe(0);
  });
});

it("taskOf finds a task of the whole job, and nothing where none was typed", () => {
  const table = workTable(jobOf({ work: [{ task: "Loading", "minutes per piece": minutes(15) }] }));
  expect(taskOf(table, "loading", "minutes per piece")).toBe(900);
  for (const task of TASKS.filter((one) => one !== "loading"))
    expect(taskOf(table, task, "minutes per piece")).toBeUndefined();
});

describe("workProblems", () => {
  it("knows pieces, kinds, styles and tasks", () => {
    const known = ["Door columns", "column", "free-form", "strike"].map((task) => each(task, 1));
    expect(said(["Door columns"], ...known)).toEqual([]);
  });

  it("stops a doubtful row and a task that stands twice with two values", () => {
    expect(said([], { task: "column", doubt: "minutes per balloon must be a number" })).toEqual([
      "stop (job): work row 2: minutes per balloon must be a number",
    ]);
    expect(said([], each("column", 1), each("column", 2))).toEqual([
      'stop (job): work row 3: minutes per balloon of "column" must stand once',
    ]);
    expect(said([], each("column", 1), each("column", 1))).toEqual([]);
  });

  it("checks a row whose minutes are blank, which would leave the hours of the task out without a word", () => {
    expect(said([], { task: "event" })).toEqual([
      'check (none): work row 2: "event" has no minutes and no where, so the row changes nothing',
    ]);
    expect(said([], { task: "event", where: "shop" }, each("column", 0))).toEqual([]);
  });

  it("checks a task that is nothing of the job, with what it looks like", () => {
    expect(said([], each("colum", 1))).toEqual([
      'check (none): work row 2: task "colum" is no piece, kind or style of the job; did you mean "column"',
    ]);
  });
});
