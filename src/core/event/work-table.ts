import { lookAlikes, nameKey } from "../palette/names";
import { grouped } from "../stock/grouped";
import { PART_KINDS, WORK_STYLES, type WorkCells, type WorkStyle } from "./cells";
import type { Job } from "./job";
import type { Problem } from "../problem";

/** Tasks that are no piece, kind or style. */
export const TASKS = ["layered", "strike", "loading", "event"] as const;

/** One of `TASKS`. */
export type Task = (typeof TASKS)[number];

/** The decorator's own minutes by the key of their task. */
export type WorkTable = ReadonlyMap<string, Partial<WorkCells>>;

/** What the minutes of a part are looked up by. */
export interface Worked {
  readonly name: string;
  readonly kind: string;
  readonly style: WorkStyle;
}

/**
 * Reads the table of work; rows of one task fill each other's blanks, the first wins.
 *
 * @param job the tables
 * @returns minutes by task
 */
export function workTable(job: Job): WorkTable {
  const byTask = grouped(
    job.work.filter(({ cells }) => cells.task !== undefined),
    ({ cells }) => nameKey(cells.task ?? ""),
  );
  return new Map(
    [...byTask].map(([task, lines]) => [
      task,
      Object.assign({}, ...lines.toReversed().map(({ cells }) => cells)),
    ]),
  );
}

/**
 * What the decorator typed for a part: its name wins over its kind, that over its style.
 *
 * @param table the decorator's own minutes
 * @param part what it is looked up by
 * @param column a column of the table
 * @returns the value, s where it is a time; undefined where nothing was typed
 */
export function workOf<Column extends Exclude<keyof WorkCells, "task">>(
  table: WorkTable,
  part: Worked,
  column: Column,
): WorkCells[Column] | undefined {
  for (const task of [part.name, part.kind, part.style]) {
    const value = table.get(nameKey(task))?.[column];
    if (value !== undefined) return value;
  }
  return undefined;
}

/**
 * What the decorator typed for a task of the whole job.
 *
 * @param table the decorator's own minutes
 * @param task the task
 * @param column a column of the table
 * @returns the value, s; undefined where nothing was typed
 */
export function taskOf(
  table: WorkTable,
  task: Task,
  column: "minutes per balloon" | "minutes per piece",
): number | undefined {
  return table.get(task)?.[column];
}

/**
 * Rows of work that change nothing because their task is no piece, kind, style or task, and rows that contradict.
 *
 * @param job the tables
 * @param names names of the pieces
 * @returns problems
 */
export function workProblems(job: Job, names: readonly string[]): readonly Problem[] {
  const known = [...names, ...PART_KINDS, ...WORK_STYLES, ...TASKS];
  const keys = new Set(known.map(nameKey));
  const seen = new Map<string, Partial<WorkCells>>();
  return job.work.flatMap(({ cells, doubts, place, row }): readonly Problem[] => {
    const found = (weight: Problem["weight"], what: string, todo: string): Problem => ({
      weight,
      table: "work",
      row,
      what,
      todo,
      reach: { of: weight === "stop" ? "job" : "none" },
    });
    if (doubts.length > 0) return doubts.map((doubt) => found("stop", doubt, "mend the cell"));
    const task = cells.task ?? "";
    const before = seen.get(nameKey(task));
    seen.set(nameKey(task), { ...cells, ...before });
    const column = (["minutes per balloon", "minutes per piece", "where"] as const).find(
      (name) => before?.[name] !== undefined && cells[name] !== undefined && before[name] !== cells[name],
    );
    if (column !== undefined)
      return [found("stop", `${place}: ${column} of "${task}" must stand once`, "keep the one you mean")];
    const { where, "minutes per balloon": balloon, "minutes per piece": piece } = cells;
    if (where === undefined && balloon === undefined && piece === undefined)
      return [
        found(
          "check",
          `${place}: "${task}" has no minutes and no where, so the row changes nothing`,
          "type its minutes, or delete the row",
        ),
      ];
    if (keys.has(nameKey(task))) return [];
    const [like] = lookAlikes(task, known);
    const hint = like === undefined ? "" : `; did you mean "${like}"`;
    return [
      found(
        "check",
        `${place}: task "${task}" is no piece, kind or style of the job${hint}`,
        "mend the task",
      ),
    ];
  });
}
