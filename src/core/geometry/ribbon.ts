import { invalid } from "../calc-error";
import { wholeUp } from "../numeric/whole";
import { RIBBON_KNOT_METRES, SLEEVE_INCHES, SLEEVE_STRETCH } from "../practice";
import { toSi } from "../units";
import { checkCount, checkLength, checkNotNegative, checkShare, inMetres } from "./checks";

/**
 * RIBBON_METRES: ribbon when only a share of the balloons carries one.
 *
 * @param count balloons
 * @param each ribbon from balloon to end, m
 * @param share balloons with ribbon, 0..1; a part of a balloon counts as one
 * @param knot ribbon that goes into the knot and the tail, m; default by common practice
 * @returns length of all ribbons together, m
 * @throws CalcError `#VALUE!` where an argument is outside its limits
 */
export function ribbonLength(
  count: number,
  each: number,
  share = 1,
  knot = RIBBON_KNOT_METRES.value,
): number {
  checkCount("count", count, 0);
  checkNotNegative("each", each);
  checkShare("share", share);
  checkNotNegative("knot", knot);
  return wholeUp(count * share) * (each + knot);
}

/**
 * WRAP_METRES: ribbon or line wound round a pole in even turns.
 * Source: length of a helix, sqrt(h^2 + (n pi D)^2).
 *
 * @param height height wound, m, 0 or more
 * @param across diameter of the pole, m
 * @param turns turns, 0 or more, also parts of a turn
 * @returns length, m
 * @throws CalcError `#VALUE!` where an argument is outside its limits
 */
export function wrapLength(height: number, across: number, turns: number): number {
  checkNotNegative("height", height);
  checkLength("across", across);
  if (!(turns >= 0 && turns <= 1e6)) throw invalid("turns", "be from 0 to 1000000", turns);
  return Math.hypot(height, turns * Math.PI * across);
}

/** What each sleeve may come short, m: six feet are 183 cm on a metric tape. */
const SLEEVE_PLAY = 0.01;

/**
 * COUNT_SLEEVES: long modelling balloons that sleeve a pole end to end.
 * Source: common practice, one fully relaxed 60 in balloon covers up to 6 ft; each may come a
 * centimetre short, which a hand pulls out of relaxed rubber.
 *
 * @param pole length of the pole, m
 * @param sleeve length of one balloon, m
 * @param stretch length it covers once relaxed, as a ratio to its own
 * @param tie length that each balloon loses to its knots, m
 * @returns balloons, whole
 * @throws CalcError `#VALUE!` where the ties use up the whole balloon
 */
export function sleeveCount(
  pole: number,
  sleeve = toSi(SLEEVE_INCHES.value, "in"),
  stretch = SLEEVE_STRETCH.value,
  tie = 0,
): number {
  checkLength("pole", pole);
  checkLength("sleeve", sleeve);
  if (!(stretch > 0 && stretch <= 10)) throw invalid("stretch", "be more than 0, up to 10", stretch);
  checkNotNegative("tie", tie);
  const reach = sleeve * stretch - tie;
  if (reach <= 0) {
    throw invalid("tie", `be less than the ${inMetres(sleeve * stretch)} that a sleeve covers`, {
      written: inMetres(tie),
    });
  }
  return wholeUp(pole / (reach + SLEEVE_PLAY));
}
