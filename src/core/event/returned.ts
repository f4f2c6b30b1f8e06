import { tally } from "../numeric/tally";
import { nameKey } from "../palette/names";
import { itemKey } from "../stock/item";
import type { Returned } from "./item-needs";
import type { Job } from "./job";
import { itemOf } from "./price-lines";

/**
 * What really came back from the events of a job, as its past jobs say: rows with the event, an item and what was left.
 *
 * @param job the tables
 * @returns balloons by event and item; rows of one event and item add up
 */
export function returnedOf(job: Job): Returned {
  const left = tally(
    job.past_jobs.flatMap(({ cells, doubts }): readonly (readonly [string, number])[] => {
      const item = itemOf(cells);
      return doubts.length > 0 || item === undefined || cells.event === undefined || cells.left === undefined
        ? []
        : [[`${nameKey(cells.event)}\n${itemKey(item)}`, cells.left]];
    }),
  );
  return (event, key) => left.get(`${nameKey(event)}\n${key}`);
}
