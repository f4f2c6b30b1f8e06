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
  const left = new Map<string, number>();
  for (const { cells, doubts } of job.past_jobs) {
    const item = itemOf(cells);
    if (doubts.length > 0 || item === undefined || cells.event === undefined || cells.left === undefined)
      continue;
    const key = `${nameKey(cells.event)}\n${itemKey(item)}`;
    left.set(key, (left.get(key) ?? 0) + cells.left);
  }
  return (event, key) => left.get(`${nameKey(event)}\n${key}`);
}
