import { orNone } from "../numeric/tally";
import { lookAlikes, nameKey } from "../palette/names";
import { grouped } from "../stock/grouped";
import { PART_KINDS, type GoodsCells } from "./cells";
import type { Job, Line } from "./job";
import { check, type Problem } from "../problem";

/** One item of goods with all its rows. */
export interface Good {
  readonly key: string;
  readonly item: string;
  readonly unit: string;
  /** Content of a pack, in the unit; helium in litres. */
  readonly pack: number;
  /** Price of a pack, or of one use where it returns; undefined where it is not known. */
  readonly price: number | undefined;
  readonly returns: boolean;
  /** At hand: packs of what returns, units of what is used up. */
  readonly owned: number;
  readonly supplier: string;
  /** Room of one pack in a vehicle, m3. */
  readonly room: number;
  readonly lines: readonly [Line<GoodsCells>, ...Line<GoodsCells>[]];
}

/** The goods of a job. */
export interface GoodsTable {
  readonly goods: readonly Good[];
  /** Keys of what rows with the item `none` silence: pieces, kinds, or all. */
  readonly silenced: ReadonlySet<string>;
  readonly problems: readonly Problem[];
}

/** Word that stands for every piece. */
export const ALL = "all";

/** Item of a row that says that nothing is needed. */
const NOTHING = "none";

/** What the rows of one item have to agree on. */
const AGREED = ["unit", "pack", "price", "returns", "owned", "supplier", "m3 each"] as const;

/**
 * Reads the goods: rows of one item are one good and fill each other's blanks.
 *
 * @param job the tables
 * @returns goods in the order of their first rows; contradictions and rows that cannot be read stop their item
 */
export function goodsTable(job: Job): GoodsTable {
  const problems: Problem[] = [];
  const named = job.goods.filter((line) => {
    if (line.cells.item !== undefined) return true;
    const sentences =
      line.doubts.length > 0 ? line.doubts : [`${line.place}: item must be given, found nothing`];
    for (const what of sentences)
      problems.push({
        weight: "stop",
        table: "goods",
        row: line.row,
        what,
        todo: "mend the row",
        reach: { of: "job" },
      });
    return false;
  });
  const isNothing = ({ cells }: Line<GoodsCells>): boolean => nameKey(cells.item ?? "") === NOTHING;
  const silenced = new Set(named.filter(isNothing).map(({ cells }) => nameKey(cells.for ?? ALL)));
  const rows = named.filter((line) => !isNothing(line));
  const goods = [...grouped(rows, ({ cells }) => nameKey(cells.item ?? ""))].map(([key, lines]) => {
    const good = goodOf(key, lines);
    problems.push(...goodProblems(good));
    return good;
  });
  return { goods, silenced, problems };
}

function goodOf(key: string, lines: Good["lines"]): Good {
  const first = <Column extends keyof GoodsCells>(column: Column): GoodsCells[Column] | undefined =>
    lines.find(({ cells }) => cells[column] !== undefined)?.cells[column];
  return {
    key,
    item: (lines[0].cells.item ?? "").trim(),
    unit: first("unit")?.trim() ?? "piece",
    pack: first("pack") ?? 1,
    price: first("price"),
    returns: first("returns") ?? false,
    owned: orNone(first("owned")),
    supplier: first("supplier")?.trim() ?? "",
    room: orNone(first("m3 each")),
    lines,
  };
}

function goodProblems({ item, key, price, pack, lines }: Good): readonly Problem[] {
  const stop = (row: number, what: string, todo: string): Problem => ({
    weight: "stop",
    table: "goods",
    row,
    what,
    todo,
    reach: { of: "good", item: key },
  });
  const problems = lines.flatMap(({ doubts, row, cells, place }) => [
    ...doubts.map((doubt) => stop(row, doubt, "mend the cell")),
    ...(doubts.length === 0 && cells.per === undefined
      ? [stop(row, `${place}: per must be given, found nothing`, "type what it goes by")]
      : []),
  ]);
  for (const column of AGREED) {
    const [first, ...others] = lines.filter(({ cells }) => cells[column] !== undefined);
    const other = others.find(({ cells }) => !isSame(cells[column], first?.cells[column]));
    if (first === undefined || other === undefined) continue;
    const what = `${other.place}: ${column} of "${item}" must be the same as in ${first.place}`;
    problems.push(stop(other.row, what, "type it once"));
  }
  const [first] = lines;
  if (!(pack > 0))
    problems.push(stop(first.row, `${first.place}: pack must be above 0`, "type what a pack holds"));
  const isUnread = lines.some(({ doubts }) => doubts.length > 0);
  const isGas = lines.some(({ cells }) => cells.per === "helium litre");
  if (isGas && !isUnread && lines.every(({ cells }) => cells.returns === undefined)) {
    const what = `${first.place}: returns of "${item}" is blank, so only the helium that is used is paid`;
    const todo = "type yes where a cylinder goes back and is paid whole, no where the rest is kept";
    problems.push(check("goods", what, todo, first.row));
  }
  if (price === undefined && !isUnread) {
    const what = `${first.place}: price of "${item}" must be given, or none, found nothing`;
    problems.push(stop(first.row, what, "type the price of a pack, or of one use"));
  }
  return problems;
}

function isSame(one: unknown, other: unknown): boolean {
  return typeof one === "string" && typeof other === "string"
    ? nameKey(one) === nameKey(other)
    : one === other;
}

/**
 * Rows whose `for` matches no piece and no kind of the job, so that nobody takes their goods.
 *
 * @param job the tables
 * @param names names of the pieces that are built
 * @param kinds kinds of their parts
 * @returns checks with the name that is nearest
 */
export function unmatchedFor(
  job: Job,
  names: readonly string[],
  kinds: readonly string[],
): readonly Problem[] {
  const known = new Set([...names, ...kinds, ALL, ""].map(nameKey));
  const other = new Set(PART_KINDS.map(nameKey));
  return job.goods.flatMap(({ cells, place, row }): readonly Problem[] => {
    const wanted = cells.for;
    if (wanted === undefined || known.has(nameKey(wanted))) return [];
    // A kind that this job does not build is a row of a table that serves many jobs, and no slip of another (wall, ball).
    const isKind = other.has(nameKey(wanted));
    const [like] = isKind ? [] : lookAlikes(wanted, [...names, ...PART_KINDS]);
    const hint = like === undefined ? "" : `; did you mean "${like}"`;
    const what = `${place}: for "${wanted.trim()}" is no piece and no kind of the job${hint}`;
    return [
      {
        weight: isKind ? "note" : "check",
        table: "goods",
        row,
        what,
        todo: "type the name of a piece, a kind, or all",
        reach: { of: "none" },
      },
    ];
  });
}
