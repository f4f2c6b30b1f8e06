import { attempt, required } from "../attempt";
import { CalcError, invalid } from "../calc-error";
import { coverAcross } from "../geometry/ball";
import { orNone } from "../numeric/tally";
import { fromSi } from "../units";
import { PER_CLUSTER } from "../practice";
import { isWithheld, whenKnown, type Known } from "../withheld";
import type { PieceCells } from "./cells";
import type { Line } from "./job";
import type { Problem } from "../problem";
import { KINDS, type Core, type SizedPart } from "./kinds";
import { rowCheck, rowStop, type Part, type Piece } from "./part";
import { computedEach, countingOf, eachOf, type Counting } from "./part-count";
import { inflatedOf } from "./part-size";
import { secondValues } from "./part-work";
import { quantityOf, type PieceRows } from "./piece-rows";
import { requiredTerm, type Terms } from "./terms";
import { workOf, type WorkTable } from "./work-table";

/**
 * A piece with its parts counted: what was typed wins, what its kind's rule gives stands in for it.
 * Source: `KINDS`.
 *
 * @param rows all rows of the piece
 * @param work the decorator's own minutes, which may say where a part is built
 * @returns its parts in order; a row that cannot be read or counted keeps its place, its numbers withheld
 */
export function pieceOf(rows: PieceRows, work: WorkTable): Piece {
  const counting = countingOf(rows.lines);
  const parts = rows.lines.map((line) => partOf(line, rows, counting, work));
  const { quantity, problems } = pieceQuantity(parts);
  const own = [...parts.flatMap((part) => part.problems), ...problems, ...secondValues(parts)];
  return {
    rows,
    event: rows.event.name,
    option: rows.option,
    name: rows.name,
    quantity,
    parts,
    problems: own,
  };
}

/** Pieces of one name are built as often as the row that is built most often. */
function pieceQuantity(parts: readonly Part[]): {
  readonly quantity: Known;
  readonly problems: readonly Problem[];
} {
  const unread = parts.find(({ quantity }) => isWithheld(quantity));
  if (unread !== undefined) return { quantity: unread.quantity, problems: [] };
  const numbers = parts.map(({ quantity }) => required(quantity));
  const most = Math.max(...numbers);
  const built = [...new Set(numbers.filter((number) => number > 0))].sort((a, b) => a - b);
  const [first] = parts;
  if (built.length < 2 || first === undefined) return { quantity: most, problems: [] };
  const what = `${first.place}: rows of this piece are built ${built.join(" and ")} times, it is rigged and priced ${most} times`;
  return { quantity: most, problems: [rowCheck(first, what, "give pieces of another number another name")] };
}

/** What a row needs before anything of it can be computed. */
function refuseUnread({ cells, doubts, place }: Line<PieceCells>): void {
  if (doubts.length > 0) throw new CalcError("#N/A", doubts.join("; "));
  if (cells.name === undefined) throw invalid(`${place}: name`, "be given", undefined);
  if (cells.kind === undefined) throw invalid(`${place}: kind`, "be given", undefined);
}

function partOf(line: Line<PieceCells>, rows: PieceRows, counting: Counting, work: WorkTable): Part {
  const { cells, place, row } = line;
  const kind = cells.kind ?? "count";
  const rule = KINDS[kind];
  const gas = cells.gas ?? rule.gas;
  const style = cells.style ?? (gas === "helium" && rule.gas === "air" ? "helium" : rule.style);
  const built = cells.built ?? workOf(work, { name: rows.name, kind, style }, "where") ?? "site";
  const unread = attempt(() => {
    refuseUnread(line);
    return 0;
  });
  const sure = (compute: () => number): Known => (isWithheld(unread) ? unread : attempt(compute, place));
  const quantity = sure(() => quantityOf(line, rows.lines));
  const inflated = isWithheld(unread) ? unread : inflatedSize(line);
  const sized = { kind, place, cells, inflated: isWithheld(inflated) ? 0 : orNone(inflated) };
  let core: Core | undefined;
  const each = sure(() => {
    if (kind === "cover") core = cells.balloons === undefined ? counting.core() : quietly(counting.core);
    if (inflated !== undefined) required(inflated);
    return eachOf({ ...sized, core }, line, counting.grouped);
  });
  const balloons = quantity === 0 ? 0 : whenKnown([quantity, each], (pieces, one) => pieces * one);
  const isClustered = rule.isClustered || cells["per cluster"] !== undefined;
  const perCluster = cells["per cluster"] ?? PER_CLUSTER.value;
  const counted: SizedPart = { ...sized, core, balloons: isWithheld(each) ? undefined : each };
  const measured = (compute: ((part: SizedPart) => number | undefined) | undefined): number | undefined =>
    isWithheld(unread) || isWithheld(inflated) ? undefined : quietly(() => compute?.(counted));
  const part: Omit<Part, "problems"> = {
    event: rows.event.name,
    option: (cells.option ?? "").trim(),
    name: rows.name,
    kind: cells.kind,
    place,
    row,
    cells,
    unread: isWithheld(unread) ? unread.sentence : undefined,
    type: cells.type ?? rule.type,
    gas,
    style,
    where: cells.where ?? "indoors",
    built,
    carried: cells.carried ?? (built === "shop" ? "built" : "empty"),
    quantity,
    each,
    balloons,
    clusters: isClustered ? whenKnown([each], (one) => one / perCluster) : 0,
    metres: measured(rule.metres),
    area: measured(rule.area),
    inflated,
    breakage: sure(() => cells.breakage ?? usualBreakage(cells, rule.type, rows.event.terms)),
    finished: measured(kind === "cover" ? finishedAcross : undefined),
    box: quietly(() => (isWithheld(unread) || isWithheld(inflated) ? undefined : rule.box?.(counted))),
  };
  return { ...part, problems: problemsOf(part, line, counted) };
}

function inflatedSize(line: Line<PieceCells>): Known | undefined {
  let isSleeve = false;
  const size = attempt(() => {
    const inflated = inflatedOf(line);
    isSleeve = inflated === undefined;
    return orNone(inflated);
  }, line.place);
  return isSleeve ? undefined : size;
}

/** Dimensions that a count does not need are allowed to be impossible: their numbers are absent then. */
function quietly<Value>(compute: () => Value | undefined): Value | undefined {
  try {
    return compute();
  } catch (error) {
    if (error instanceof CalcError) return undefined;
    throw error;
  }
}

function finishedAcross({ core, inflated }: SizedPart): number | undefined {
  if (core === undefined || core.balloons === 0) return undefined;
  return coverAcross(core.balloons, core.inflated, inflated, core.spacing);
}

function usualBreakage(cells: Partial<PieceCells>, usualType: Part["type"], terms: Terms): number {
  if ((cells.type ?? usualType) === "foil") return requiredTerm(terms, "breakage foil");
  return requiredTerm(terms, cells.where === "outdoors" ? "breakage outdoors" : "breakage");
}

function problemsOf(
  part: Omit<Part, "problems">,
  { cells, doubts, place }: Line<PieceCells>,
  sized: SizedPart,
): readonly Problem[] {
  if (doubts.length > 0) return doubts.map((doubt) => rowStop(part, doubt));
  if (isWithheld(part.quantity)) return [rowStop(part, part.quantity.sentence)];
  // A parked row is nobody's problem yet.
  if (part.quantity === 0) return [];
  const missing = [part.inflated, part.each].find((value) => value !== undefined && isWithheld(value));
  if (missing !== undefined && isWithheld(missing)) return [rowStop(part, missing.sentence)];
  const { printed } = cells;
  const inflated = part.inflated;
  const checks: Problem[] = [];
  if (printed !== undefined && typeof inflated === "number" && part.type === "latex")
    if (inflated > printed * 1.001) checks.push(rowCheck(part, `${place}: inflated above its printed size`));
  const dimensions = typedAgainst(sized);
  if (dimensions !== undefined)
    checks.push(rowCheck(part, `${place}: ${dimensions}`, "keep the one you mean"));
  const { clusters } = part;
  if (typeof clusters === "number" && !Number.isInteger(Number(clusters.toFixed(9)))) {
    const perCluster = cells["per cluster"] ?? PER_CLUSTER.value;
    checks.push(
      rowCheck(part, `${place}: ${String(part.each)} balloons are no whole clusters of ${perCluster}`),
    );
  }
  return checks;
}

/** What the dimensions would give where balloons were typed and differ. */
function typedAgainst(part: SizedPart): string | undefined {
  const { balloons } = part.cells;
  const rule = KINDS[part.kind];
  if (balloons === undefined || rule.count === undefined || part.kind === "foil") return undefined;
  const computed = quietly(() => computedEach(part));
  if (computed === undefined || computed === balloons) return undefined;
  const given = rule.needs.flatMap((name) => {
    const value = part.cells[name];
    return value === undefined ? [] : [`${Number(value.toFixed(4))} m`];
  });
  return `${balloons} balloons as typed, ${given.join(" x ") || part.kind} gives ${computed}`;
}

/** The size of a part's balloons as the trade says it. */
export function sizeText({ printed, code }: Partial<PieceCells>): string {
  if (code !== undefined) return String(code);
  return printed === undefined ? "" : `${Number(fromSi(printed, "in").toFixed(2))} in`;
}
