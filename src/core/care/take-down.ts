import { unavailable } from "../calc-error";
import { TAKE_DOWN_GUST } from "../practice";

/**
 * Refuses to size a weight for wind in which balloon work does not belong outdoors.
 * Source: common practice, `TAKE_DOWN_GUST`; 10 m/s lies in Beaufort 5 (WMO-No. 8).
 *
 * @param gust m/s
 * @throws `#N/A` above the take-down gust
 */
export function assertGust(gust: number): void {
  const limit = TAKE_DOWN_GUST.value;
  if (gust > limit) {
    throw unavailable(
      `do not put up balloons in a gust of ${Number(gust.toPrecision(4))} m/s, ` +
        `or take them down: the limit is ${limit} m/s`,
    );
  }
}
