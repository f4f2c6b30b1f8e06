import { CalcError } from "../calc-error";
import { lookAlikes, nameKey } from "../palette/names";
import { grouped } from "../stock/grouped";
import { itemKey, itemWords, mayBe, sizeKey, type Item } from "../stock/item";
import { bagPrice, lowPrices, priceRemarks, readPriceList, type PriceRow } from "../stock/price-list";
import type { ItemNeed } from "./item-needs";
import type { BalloonType, PriceCells, StockCells } from "./cells";
import type { Job, Line } from "./job";
import { check, type Problem } from "../problem";
import { longLength } from "./long-code";

/** Rows of the price lists that can be bought by, numbered through all ranges. */
export interface PriceLines {
  readonly rows: readonly PriceRow[];
  /** Rows whose price was typed as none: their balloons cost nothing. */
  readonly free: readonly PriceRow[];
  readonly problems: readonly Problem[];
}

type ItemCells = Partial<Pick<PriceCells & StockCells, "printed" | "code" | "colour" | "type">>;

/** The item of a row; undefined where its size or colour cannot be read. */
export function itemOf({ printed, code, colour, type }: ItemCells): Item | undefined {
  const size = printed ?? longLength(code === undefined ? {} : { code });
  if (size === undefined || colour === undefined) return undefined;
  const kind: BalloonType = type ?? (code === undefined ? "latex" : "long");
  return { printed: size, colour, type: kind, ...(kind === "long" && code !== undefined && { code }) };
}

/**
 * A problem of a table's row that may concern some needs: a stop for each of those, else a note.
 *
 * @param table the table
 * @param line the row
 * @param what sentence with its place
 * @param needs the needs that the row may meet
 * @returns one problem for each need, or a note
 */
export function itemProblems(
  table: string,
  { row }: Pick<Line<unknown>, "row">,
  what: string,
  needs: readonly ItemNeed[],
): readonly Problem[] {
  const todo = "mend the row";
  if (needs.length === 0) return [{ weight: "note", table, row, what, todo, reach: { of: "none" } }];
  return needs.map(({ key }) => ({ weight: "stop", table, row, what, todo, reach: { of: "item", key } }));
}

/**
 * Reads the price lists for the needs of a job. A row that cannot be read, or one bag at two prices, stops the items that it is
 * or may be; rows that cannot concern the job are notes.
 *
 * @param job the tables
 * @param needs what the job needs
 * @returns rows to buy by, and problems
 */
export function priceLines(job: Job, needs: readonly ItemNeed[]): PriceLines {
  const problems: Problem[] = [];
  const read = job.price_list.flatMap((line, index) => {
    const row = readLine(line, index + 1);
    if (typeof row !== "string") return [{ row, line }];
    const met = needs.filter(({ item }) => mayBe(line.cells, item));
    for (const what of line.doubts.length > 0 ? line.doubts : [row])
      problems.push(...itemProblems("price_list", line, what, met));
    return [];
  });
  const sameBag = grouped(read, ({ row }) => [nameKey(row.supplier), itemKey(row), row.bag].join("\n"));
  const twice = [...sameBag.values()].filter(
    (group) => new Set(group.map(({ row }) => bagPrice(row))).size > 1,
  );
  for (const [first, ...others] of twice) {
    const last = others.at(-1) ?? first;
    const prices = [first, ...others].map(({ row }) => bagPrice(row).toFixed(2)).join(" and ");
    const what = `${last.line.place}: price must be the same as in ${first.line.place}, found ${prices} for a bag of ${first.row.bag} ${itemWords(first.row)}`;
    const met = needs.filter(({ key }) => key === itemKey(first.row));
    problems.push(...itemProblems("price_list", last.line, what, met));
  }
  const bad = new Set(twice.flat());
  const kept = read.filter((entry) => !bad.has(entry));
  const free = kept.filter(({ row }) => row.price === 0);
  const paid = kept.filter(({ row }) => row.price > 0);
  problems.push(...remarksOf(paid, needs), ...freeChecks(free, needs));
  return { rows: paid.map(({ row }) => row), free: free.map(({ row }) => row), problems };
}

/** A row that can be bought by, beside the line it was read from. */
interface Entry {
  readonly row: PriceRow;
  readonly line: Line<PriceCells>;
}

/** A row ready to buy by, or the sentence that says why it is not. */
function readLine({ cells, doubts, place }: Line<PriceCells>, row: number): PriceRow | string {
  if (doubts[0] !== undefined) return doubts[0];
  const item = itemOf(cells);
  const missing =
    item === undefined
      ? cells.colour === undefined
        ? "colour"
        : "printed"
      : (["supplier", "bag", "price"] as const).find((name) => cells[name] === undefined);
  const { supplier, bag, price, per, available } = cells;
  if (item === undefined || supplier === undefined || bag === undefined || price === undefined)
    return `${place}: ${missing ?? "price"} must be given, found nothing`;
  const read: PriceRow = {
    ...item,
    row,
    supplier,
    bag,
    price,
    per,
    available,
    good: cells["good each"],
  };
  try {
    readPriceList([price === 0 ? { ...read, price: 1 } : read], place);
  } catch (error) {
    if (error instanceof CalcError) return error.message.replace(`${place} row ${row}`, place);
    throw error;
  }
  return read;
}

/** Prices that are probably those of another amount. */
function remarksOf(entries: readonly Entry[], needs: readonly ItemNeed[]): readonly Problem[] {
  const needed = new Map(needs.map((need) => [need.key, need]));
  const listings = readPriceList(entries.map(({ row }) => row));
  const remarks = priceRemarks(listings);
  const low = lowPrices(listings);
  return entries.flatMap(({ row, line }): readonly Problem[] => {
    const need = needed.get(itemKey(row));
    if (need === undefined) return [];
    const { place } = line;
    const remark = remarks.get(row.row);
    if (remark !== undefined && line.cells.per === undefined) {
      const what = remark.replace(`price_list row ${row.row}`, `${place}: price`);
      return itemProblems("price_list", line, `${what}; type per`, [need]);
    }
    const cheap = low.get(row.row);
    if (cheap === undefined) return [];
    const what = cheap.replace(`price_list row ${row.row}`, `${place}: price`);
    return [check("price_list", what, "say in the column per what it is for", line.row)];
  });
}

function freeChecks(entries: readonly Entry[], needs: readonly ItemNeed[]): readonly Problem[] {
  const needed = new Set(needs.map(({ key }) => key));
  return entries
    .filter(({ row }) => needed.has(itemKey(row)))
    .map(({ row, line }) =>
      check("price_list", `${line.place}: ${itemWords(row)} is free, as typed`, undefined, line.row),
    );
}

/** Names on a list that look like a slip of an item's colour, for the sentence that nobody sells it. */
export function alikeColours(item: Item, rows: readonly PriceRow[]): readonly string[] {
  const sameSize = rows.filter((row) => sizeKey(row.printed) === sizeKey(item.printed));
  return lookAlikes(
    item.colour,
    sameSize.map(({ colour }) => colour),
  );
}
