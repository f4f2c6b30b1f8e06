import { invalid } from "../calc-error";
import { entryAt } from "../numeric/entry-at";
import { cuttingStock } from "../numeric/cutting-stock";
import { checkCount, checkLength, inMetres } from "./checks";

/** Rolls to buy, and how sure that is. */
export interface RollCount {
  readonly rolls: number;
  /** No plan needs fewer; the answer is exact where it is the same as `rolls`. */
  readonly lowerBound: number;
}

/** Units of the search to the metre, and how much of them a person's tape forgives over a whole roll. */
const UNITS_PER_METRE = 1e9;
const FORGIVEN = 1000;

/**
 * COUNT_ROLLS: rolls of ribbon or line when the pieces cannot be joined. Pieces may be over a roll by a
 * micrometre in all, so that thirds of a metre fit.
 * Source: one-dimensional cutting stock, see `cutting-stock.ts`; exact for everyday lists, with a stated gap
 * otherwise.
 *
 * @param pieces pieces of each length, 0 or more
 * @param each length of the pieces, m, one for each row of `pieces`
 * @param roll length of a roll, m
 * @returns rolls and their lower bound
 * @throws CalcError `#VALUE!` where the columns do not match, or a piece is longer than a roll
 */
export function rollCount(pieces: readonly number[], each: readonly number[], roll: number): RollCount {
  checkLength("roll", roll);
  if (pieces.length !== each.length) {
    throw invalid("each", `have as many rows as pieces, ${pieces.length}`, each.length);
  }
  const demands = pieces.map((count, index) => {
    const length = entryAt(each, index);
    const row = pieces.length === 1 ? "" : ` row ${index + 1}`;
    checkCount(`pieces${row}`, count, 0);
    checkLength(`each${row}`, length);
    if (length > roll + FORGIVEN / UNITS_PER_METRE) {
      throw invalid(`each${row}`, `be at most the roll of ${inMetres(roll)}`, {
        written: inMetres(length),
      });
    }
    return { length: Math.max(1, Math.round(length * UNITS_PER_METRE)), pieces: count };
  });
  const { stocks, lowerBound } = cuttingStock(demands, Math.round(roll * UNITS_PER_METRE) + FORGIVEN);
  return { rolls: stocks, lowerBound };
}
