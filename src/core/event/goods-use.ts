import { attempt, required } from "../attempt";
import { unavailable } from "../calc-error";
import { sum } from "../numeric/sums";
import { orNone } from "../numeric/tally";
import { wholeUp } from "../numeric/whole";
import { nameKey } from "../palette/names";
import { fromSi, unitNamed } from "../units";
import type { GoodsCells, GoodsDriver } from "./cells";
import type { Line } from "./job";
import { ALL, type Good } from "./goods-table";
import type { PlannedPart, PlannedPiece } from "./plan-parts";
import { isWithheld, type Known } from "../withheld";

type Row = Line<GoodsCells>;

/** Drivers that count once for a piece, not once for each part. */
const ONCE: readonly (GoodsDriver | undefined)[] = ["piece", "metre", "m2"];

/** Drivers that belong to no piece. */
const OVERHEAD: readonly (GoodsDriver | undefined)[] = ["trip", "event"];

const keyOf = (row: Row): string => nameKey(row.cells.for ?? ALL) || ALL;

/** Rows of a good for a name, else for one of the kinds, else for all. */
function rowsFor(good: Good, name: string, kinds: readonly string[]): readonly Row[] {
  const rows = good.lines.filter(({ cells }) => !OVERHEAD.includes(cells.per));
  const named = rows.filter((row) => keyOf(row) === nameKey(name));
  if (named.length > 0) return named;
  const ofKind = rows.filter((row) => kinds.some((kind) => keyOf(row) === nameKey(kind)));
  return ofKind.length > 0 ? ofKind : rows.filter((row) => keyOf(row) === ALL);
}

const builtParts = ({ parts }: PlannedPiece): readonly PlannedPart[] =>
  parts.filter(({ part }) => part.quantity !== 0);

/**
 * The rows of a good that serve one part.
 *
 * @param good an item with its rows
 * @param piece the piece
 * @param part one of its parts
 * @returns rows for its name, else for its kind, else for all
 */
export function rowsForPart(good: Good, piece: PlannedPiece, part: PlannedPart): readonly Row[] {
  return rowsFor(good, piece.piece.name, part.part.kind === undefined ? [] : [part.part.kind]);
}

/**
 * Whether a piece takes anything of any good. A row for all that goes by ribbon or helium serves none that has neither.
 *
 * @param goods items with their rows
 * @param piece the piece
 * @returns true where it does, or where that cannot be told
 */
export function isServed(goods: readonly Good[], piece: PlannedPiece): boolean {
  return goods.some((good) => {
    const use = attempt(() => pieceUse(good, piece));
    return (
      isWithheld(use) ||
      use > 0 ||
      builtParts(piece).some((part) => perCylinder(good, piece, part) > 0 && part.helium !== 0)
    );
  });
}

/**
 * How much of a good all of a piece takes, in the good's unit. What is counted is rounded up for each single piece; what is
 * measured may be cut. Pieces, metres and square metres count once for a piece, balloons and clusters for every part.
 * Source: ours.
 *
 * @param good an item with its rows
 * @param planned the piece
 * @returns amount; cylinders are counted from all of the helium, see `goodsUse`
 * @throws CalcError where a count is withheld, or a good that goes per metre is for a piece without a length
 */
export function pieceUse(good: Good, planned: PlannedPiece): number {
  const { piece } = planned;
  const parts = builtParts(planned);
  const kinds = parts.flatMap(({ part }) => part.kind ?? []);
  const ofPiece = rowsFor(good, piece.name, kinds).filter(({ cells }) => ONCE.includes(cells.per));
  const once = ofPiece.map((row) => {
    const meant = parts.filter(({ part }) => keyOf(row) === nameKey(part.kind ?? ""));
    return onceUse(good, row, meant.length > 0 ? meant : parts, piece.name);
  });
  const perPart = parts.map((part) =>
    sum(
      rowsForPart(good, planned, part)
        .filter(({ cells }) => !ONCE.includes(cells.per))
        .map((row) => partUse(good, row, part)),
    ),
  );
  return sum([...once, ...perPart]);
}

/** What a row that counts once for a piece takes for all of the piece. */
function onceUse(good: Good, row: Row, parts: readonly PlannedPart[], name: string): number {
  const { per, amount = 1 } = row.cells;
  if (parts.length === 0) return 0;
  const quantity = Math.max(...parts.map(({ part }) => required(part.quantity)));
  if (per === "piece") return quantity * rounded(good, amount);
  const sizes = parts.map(({ part }) => orNone(per === "metre" ? part.metres : part.area));
  const size = Math.max(...sizes);
  if (size === 0 && keyOf(row) !== ALL) {
    const noun = per === "metre" ? "length" : "area";
    throw unavailable(`${row.place}: ${good.item} goes per ${per ?? ""}, and "${name}" has no ${noun}`);
  }
  return quantity * rounded(good, amount * size);
}

/** What a row that counts for every part takes for one part of all pieces. */
function partUse(good: Good, row: Row, { part, ribbon, helium }: PlannedPart): number {
  const { per, amount = 1 } = row.cells;
  switch (per) {
    case "balloon":
      return amount * required(part.balloons);
    case "cluster":
      return required(part.quantity) * rounded(good, amount * required(part.clusters));
    case "ribbon metre":
      return amount * required(ribbon);
    case "helium litre":
      return amount * fromSi(required(helium), "L");
    default:
      return 0;
  }
}

/** Two thirds of a pole hold nothing up, but line is cut from one roll for many pieces. */
function rounded({ unit }: Good, amount: number): number {
  return unitNamed(unit) === undefined ? wholeUp(amount) : amount;
}

/**
 * Whether a good goes by the helium of a part, or by its ribbon.
 *
 * @param good an item with its rows
 * @param piece the piece
 * @param part one of its parts
 * @param driver `helium litre` or `ribbon metre`
 * @returns true where one of its rows does
 */
export function isPaidBy(good: Good, piece: PlannedPiece, part: PlannedPart, driver: GoodsDriver): boolean {
  return rowsForPart(good, piece, part).some(({ cells }) => cells.per === driver);
}

/**
 * How much of a good goes by cylinders for a part, for each cylinder.
 *
 * @param good an item with its rows
 * @param piece the piece
 * @param part one of its parts
 * @returns amount for each cylinder, 0 where it does not go by cylinders
 */
export function perCylinder(good: Good, piece: PlannedPiece, part: PlannedPart): number {
  const rows = rowsForPart(good, piece, part).filter(({ cells }) => cells.per === "cylinder");
  return sum(rows.map(({ cells }) => cells.amount ?? 1));
}

/**
 * How much of a good the job takes whatever its pieces, for one event.
 *
 * @param good an item with its rows
 * @param trips loaded trips of the event
 * @returns amount
 * @throws CalcError where it goes by trips and they are withheld
 */
export function overheadUse(good: Good, trips: Known): number {
  return sum(
    good.lines.map(({ cells: { per, amount = 1 } }) =>
      per === "event" ? amount : per === "trip" ? amount * required(trips) : 0,
    ),
  );
}
