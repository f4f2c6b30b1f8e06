import { invalid } from "../calc-error";
import { entryAt } from "../numeric/entry-at";
import { largestRemainder } from "../numeric/largest-remainder";
import { sum } from "../numeric/sums";
import { wholeDown, wholeNearest } from "../numeric/whole";
import { MIX_PACKING, NET_PACKING } from "../practice";
import { checkCount, checkLength, checkPacking, inMetres } from "./checks";

/** What to cut for a drop net. */
export interface NetPlan {
  /** Room inside the full net, m3. */
  readonly volume: number;
  /** Width of the full net, m. */
  readonly width: number;
  /** Length once round the full net, m. */
  readonly girth: number;
}

/** Balloons of one size in a free-form garland. */
export interface MixRow {
  /** Inflated diameter, m. */
  readonly size: number;
  readonly balloons: number;
}

/**
 * Volume of a balloon as the ball that packing fractions are measured with. The neck end that makes a small
 * balloon a fifth longer than wide (`latexVolume`, what a pump and a van take) sticks into the gaps.
 */
const ballVolume = (across: number): number => (Math.PI / 6) * across ** 3;

const cylinderVolume = (length: number, across: number): number => (Math.PI / 4) * across ** 2 * length;

/**
 * COUNT_NET: balloons for a drop net that is closed to a tube: as long as it is cut, once round as wide as it is
 * cut.
 * Source: random packing of equal balls, published 0.55 loose (Jerkins et al. 2008) to 0.64 close (Berryman
 * 1983), of which the default fills half by common practice: a net cut 14 x 25 ft takes about 500 of 9 in.
 *
 * @param length length of the net, m
 * @param across width of the tube, m: the width it is cut over pi
 * @param balloon inflated diameter, m
 * @param packing share of the volume that is balloon
 * @returns balloons, whole, as many as fit
 * @throws CalcError `#VALUE!` where an argument is outside its limits, or a balloon does not fit into the net
 */
export function netCount(
  length: number,
  across: number,
  balloon: number,
  packing = NET_PACKING.value,
): number {
  checkLength("length", length);
  checkLength("across", across);
  checkLength("balloon", balloon);
  checkPacking(packing);
  if (balloon > Math.min(length, across)) {
    throw invalid("balloon", "fit into the net", { written: inMetres(balloon) });
  }
  return wholeDown((packing * cylinderVolume(length, across)) / ballVolume(balloon));
}

/**
 * NET_PLAN: net to cut for a number of balloons; its length and width give the balloons back to `netCount`.
 *
 * @param count balloons, 1 or more
 * @param balloon inflated diameter, m
 * @param length length of the net, m
 * @param packing share of the volume that is balloon
 * @returns volume, width when full and girth
 * @throws CalcError `#VALUE!` where an argument is outside its limits, or the net would be thinner than a
 *   balloon
 */
export function netPlan(
  count: number,
  balloon: number,
  length: number,
  packing = NET_PACKING.value,
): NetPlan {
  checkCount("count", count, 1);
  checkLength("balloon", balloon);
  checkLength("length", length);
  checkPacking(packing);
  const volume = (count * ballVolume(balloon)) / packing;
  const width = Math.sqrt(volume / cylinderVolume(length, 1));
  if (balloon > Math.min(length, width)) {
    const most = inMetres(volume / cylinderVolume(1, balloon));
    throw invalid("length", `be from one balloon to ${most}, so that the balloons fit into the net`, {
      written: inMetres(length),
    });
  }
  return { volume, width, girth: Math.PI * width };
}

function checkSizes(sizes: readonly number[], thickness: number): void {
  checkLength("thickness", thickness);
  if (sizes.length === 0) throw invalid("sizes", "have at least one row", undefined);
  sizes.forEach((size, index) => {
    checkLength(`sizes row ${index + 1}: size`, size);
    if (size > thickness) {
      throw invalid(`sizes row ${index + 1}: size`, `be at most the thickness of ${inMetres(thickness)}`, {
        written: inMetres(size),
      });
    }
  });
}

/** Refuses a column that has not one number of 0 or more for each size, or only zeros. */
function checkBeside(argument: string, values: readonly number[], sizes: readonly number[]): void {
  if (values.length !== sizes.length) {
    throw invalid(argument, `have as many rows as sizes, ${sizes.length}`, values.length);
  }
  values.forEach((value, index) => {
    if (!(value >= 0 && value <= 1e9)) throw invalid(`${argument} row ${index + 1}`, "be 0 or more", value);
  });
  if (!values.some((value) => value > 0)) throw invalid(argument, "be above 0 in at least one row", 0);
}

/**
 * MIX_PLAN: balloons of each size for a free-form garland of mixed sizes.
 * Source: volume of the body times packing = volume of the balloons as balls; whole numbers by largest
 * remainder; packing by common practice.
 *
 * @param length length of the garland, m
 * @param thickness diameter of its body, m
 * @param sizes inflated diameters, m, one for each row
 * @param shares balloons of each size in proportion to each other, by number; they need not add up to 1
 * @param packing share of the body's volume that is balloon
 * @returns one row for each size, in the order given
 * @throws CalcError `#VALUE!` where the columns do not match, or a size is larger than the thickness
 */
export function mixPlan(
  length: number,
  thickness: number,
  sizes: readonly number[],
  shares: readonly number[],
  packing = MIX_PACKING.value,
): readonly MixRow[] {
  checkLength("length", length);
  checkSizes(sizes, thickness);
  checkBeside("shares", shares, sizes);
  checkPacking(packing);
  const perBalloon = sum(sizes.map((size, index) => entryAt(shares, index) * ballVolume(size))) / sum(shares);
  const total = wholeNearest((packing * cylinderVolume(length, thickness)) / perBalloon);
  const counts = largestRemainder(total, shares);
  return sizes.map((size, index) => ({ size, balloons: entryAt(counts, index) }));
}

/**
 * MIX_METRES: length of a free-form garland that the balloons at hand make; the inverse of `mixPlan`.
 *
 * @param counts balloons of each size
 * @param sizes inflated diameters, m, one for each row
 * @param thickness diameter of the body, m
 * @param packing share of the body's volume that is balloon
 * @returns length, m
 * @throws CalcError `#VALUE!` where the columns do not match, or a size is larger than the thickness
 */
export function mixLength(
  counts: readonly number[],
  sizes: readonly number[],
  thickness: number,
  packing = MIX_PACKING.value,
): number {
  checkSizes(sizes, thickness);
  checkBeside("counts", counts, sizes);
  checkPacking(packing);
  const balloons = sum(sizes.map((size, index) => entryAt(counts, index) * ballVolume(size)));
  return balloons / (packing * cylinderVolume(1, thickness));
}
