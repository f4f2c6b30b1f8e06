import { describe, expect, it } from "vitest";
import type { WorkCells } from "../../../src/core/event/job";
import { taskOf, workOf, workProblems, workTable } from "../../../src/core/event/work-table";
import { jobOf, minutes, type Row } from "./job-builder";

const column = { name: "Door", kind: "column", style: "clusters" } as const;
const table = (...work: readonly Row<WorkCells>[]): ReturnType<typeof workTable> =>
  workTable(jobOf({ work }));

describe("workTable", () => {
  it("lets a name win over a kind, and that over a style, column by column", () => {
    const work = table(
      { task: "clusters", "minutes per balloon": minutes(1), where: "shop" },
      { task: "Column", "minutes per balloon": minutes(2) },
      { task: " door", "minutes per piece": minutes(9) },
    );
    expect(workOf(work, column, "minutes per balloon")).toBe(minutes(2));
    expect(workOf(work, column, "minutes per piece")).toBe(minutes(9));
    expect(workOf(work, column, "where")).toBe("shop");
    expect(workOf(work, { ...column, style: "wall", kind: "wall", name: "X" }, "where")).toBeUndefined();
  });

  it("knows the tasks of the whole job", () => {
    expect(
      taskOf(table({ task: "Loading", "minutes per piece": minutes(30) }), "loading", "minutes per piece"),
    ).toBe(minutes(30));
    expect(taskOf(table(), "strike", "minutes per balloon")).toBeUndefined();
  });

  it("names a task that nothing matches, and one that contradicts", () => {
    const job = jobOf({
      work: [
        { task: "colum", "minutes per balloon": 1 },
        { task: "strike", "minutes per balloon": 1 },
        { task: "Strike", "minutes per balloon": 2 },
      ],
    });
    expect(workProblems(job, ["Door"]).map(({ weight, what }) => `${weight}: ${what}`)).toEqual([
      'check: work row 2: task "colum" is no piece, kind or style of the job; did you mean "column"',
      'stop: work row 4: minutes per balloon of "Strike" must stand once',
    ]);
  });
});
