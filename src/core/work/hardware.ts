import { invalid } from "../calc-error";
import { wholeUp } from "../numeric/whole";
import { grouped } from "../stock/grouped";
import { unitNamed } from "../units";
import { withheld, type Known } from "../withheld";

/** A kind of piece to build, one row of the worksheet's `pieces`. */
export interface HardwarePiece {
  /** Row in the worksheet range, for sentences. */
  readonly row: number;
  readonly name: string;
  /** What the recipes are found by, in any case and spacing. */
  readonly kind: string;
  /** How many of it. */
  readonly quantity: number;
  /** Height or length of one, m. */
  readonly metres: number;
  /** Clusters in one. */
  readonly clusters: number;
}

/** What one piece of a kind takes of one item, one row of the worksheet's `recipes`. */
export interface HardwareRecipe {
  /** Row in the worksheet range, for sentences. */
  readonly row: number;
  readonly kind: string;
  readonly item: string;
  /** Unit of the amounts: a unit of measure (`m`, `ft`, `kg`) may be cut, anything else (`piece`) may not. */
  readonly unit: string;
  /** Amount for each piece. */
  readonly fixed: number;
  /** Amount for each metre of it. */
  readonly perMetre: number;
  /** Amount for each of its clusters. */
  readonly perCluster: number;
  /** Amount in one pack as sold; 1 where it is sold singly. */
  readonly pack?: number;
}

/** One item to bring, pooled over all pieces. */
export interface HardwareRow {
  readonly item: string;
  readonly unit: string;
  /** Amount that goes into the pieces; withheld, as what follows from it, where a piece or a recipe is not known. */
  readonly needed: Known;
  /** Amount in one pack. */
  readonly pack: Known;
  /** Packs to bring, whole. */
  readonly packs: Known;
  /** Amount that is left of the packs. */
  readonly left: Known;
  readonly status: string;
}

/** A row that cannot be read or counted. */
export interface UnknownRow {
  /** Kind of the piece, or item of the recipe; undefined where that is not known either. */
  readonly of?: string | undefined;
  /** Why, with its place. */
  readonly what: string;
}

const key = (name: string): string =>
  name
    .replace(/[\s_-]+/g, " ")
    .trim()
    .toLowerCase();

// Nobody measures finer, and binary dust would show in the cell.
const toMillionths = (amount: number): number => Math.round(amount * 1e6) / 1e6;

const amountForOne = (piece: HardwarePiece, recipe: HardwareRecipe): number =>
  recipe.fixed + recipe.perMetre * piece.metres + recipe.perCluster * piece.clusters;

function need(piece: HardwarePiece, recipe: HardwareRecipe): number {
  const one = amountForOne(piece, recipe);
  // A line is cut from one roll for many pieces, but two thirds of a pole hold nothing up.
  return piece.quantity * (unitNamed(recipe.unit) === undefined ? wholeUp(one) : one);
}

/** Recipes of one item that do not agree on its unit or pack. */
function disagreement(recipes: readonly HardwareRecipe[]): string | undefined {
  const empty = recipes.find(({ pack }) => pack !== undefined && !(pack > 0));
  if (empty) return invalid(`recipes row ${empty.row}: pack`, "be above 0", empty.pack).message;
  const [first, ...others] = recipes;
  for (const recipe of others) {
    if (first === undefined) break;
    const where = `recipes row ${recipe.row}`;
    if (key(first.unit) !== key(recipe.unit))
      return invalid(
        `${where}: unit`,
        `be "${first.unit}" as for the same item in row ${first.row}`,
        recipe.unit,
      ).message;
    if ((first.pack ?? 1) !== (recipe.pack ?? 1))
      return invalid(
        `${where}: pack`,
        `be ${first.pack ?? 1} as for the same item in row ${first.row}`,
        recipe.pack ?? 1,
      ).message;
  }
  return undefined;
}

/**
 * HARDWARE_PLAN: poles, bases, line and the like for a table of pieces. For each piece an item takes a fixed
 * amount, an amount per metre and an amount per cluster. Items that are counted are rounded up for each
 * single piece, items that are measured are cut; then all pieces are pooled and rounded up to whole packs.
 *
 * @param pieces what is built
 * @param recipes what each kind takes; an item may appear under many kinds, with one unit and one pack
 * @param unknown pieces, by kind, and recipes, by item, that cannot be read: the items that they concern keep their row without numbers
 * @returns a row per item in the order of the recipes, without items that no piece needs; then a row per kind
 *   that has no recipe, with amounts of 0 and a status that says so, then one for each recipe whose item is not known
 */
export function hardwarePlan(
  pieces: readonly HardwarePiece[],
  recipes: readonly HardwareRecipe[],
  unknown: { readonly pieces: readonly UnknownRow[]; readonly recipes: readonly UnknownRow[] } = {
    pieces: [],
    recipes: [],
  },
): readonly HardwareRow[] {
  const rows: HardwareRow[] = [];
  const names = [...recipes.map(({ item }) => item), ...unknown.recipes.flatMap(({ of }) => of ?? [])];
  for (const [itemKey, [item]] of grouped(names, key)) {
    const same = recipes.filter((recipe) => key(recipe.item) === itemKey);
    const reasons = [
      ...unknown.recipes.filter(({ of }) => of !== undefined && key(of) === itemKey),
      ...unknown.pieces.filter(
        ({ of }) => of === undefined || same.some((recipe) => key(recipe.kind) === key(of)),
      ),
    ].map(({ what }) => what);
    const reason = [...new Set([...reasons, disagreement(same) ?? ""])]
      .filter((what) => what !== "")
      .join("; ");
    const [first] = same;
    if (reason !== "") {
      const missing = withheld(reason);
      const unit = first?.unit ?? "";
      rows.push({
        item,
        unit,
        needed: missing,
        pack: missing,
        packs: missing,
        left: missing,
        status: `stop: ${reason}`,
      });
      continue;
    }
    let needed = 0;
    for (const recipe of same) {
      for (const piece of pieces) if (key(piece.kind) === key(recipe.kind)) needed += need(piece, recipe);
    }
    if (!first || needed === 0) continue;
    const pack = first.pack ?? 1;
    const packs = wholeUp(needed / pack);
    const left = Math.max(0, toMillionths(packs * pack - needed));
    rows.push({ item, unit: first.unit, needed: toMillionths(needed), pack, packs, left, status: "ok" });
  }
  const unplaced = unknown.recipes
    .filter(({ of }) => of === undefined)
    .map(({ what }): HardwareRow => {
      const missing = withheld(what);
      return {
        item: "",
        unit: "",
        needed: missing,
        pack: missing,
        packs: missing,
        left: missing,
        status: `stop: ${what}`,
      };
    });
  return [...rows, ...kindsWithoutRecipe(pieces, recipes), ...unplaced];
}

function kindsWithoutRecipe(
  pieces: readonly HardwarePiece[],
  recipes: readonly HardwareRecipe[],
): HardwareRow[] {
  const known = new Set(recipes.map((recipe) => key(recipe.kind)));
  const unknown = new Map<string, HardwarePiece[]>();
  for (const piece of pieces) {
    const kind = key(piece.kind);
    if (!known.has(kind)) unknown.set(kind, [...(unknown.get(kind) ?? []), piece]);
  }
  return [...unknown.values()].map((same) => {
    const rows = same.map((piece) => piece.row);
    const status = `check: no recipe for this kind, pieces row${rows.length > 1 ? "s" : ""} ${rows.join(", ")}`;
    return { item: same[0]?.kind ?? "", unit: "", needed: 0, pack: 1, packs: 0, left: 0, status };
  });
}
