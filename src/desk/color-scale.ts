import type { ScaleStop } from "../workbook/conditions";

/** Where a stop of a scale lies among numbers in rising order; undefined where there is none. */
export function stopPosition(
  kind: ScaleStop["kind"],
  given: number | undefined,
  numbers: readonly number[],
): number | undefined {
  const [least, most] = [numbers[0], numbers.at(-1)];
  if (kind === "min") return least;
  if (kind === "max") return most;
  if (given === undefined || least === undefined || most === undefined) return undefined;
  if (kind === "percent") return least + ((most - least) * given) / 100;
  if (kind !== "percentile") return given;
  // Between the two numbers beside the rank, as PERCENTILE.INC does.
  const rank = ((numbers.length - 1) * given) / 100;
  const below = numbers[Math.floor(rank)] ?? least;
  const above = numbers[Math.ceil(rank)] ?? most;
  return below + (above - below) * (rank - Math.floor(rank));
}

/** The colour of a number on a scale, red, green and blue each in proportion; beyond the ends it is theirs. */
export function colorBetween(
  stops: readonly { readonly at: number | undefined; readonly color: string | undefined }[],
  value: number,
): string | undefined {
  const known = stops.flatMap(({ at, color }) =>
    at === undefined || color === undefined ? [] : [{ at, color }],
  );
  const after = known.findIndex(({ at }) => value <= at);
  const high = known[after < 0 ? known.length - 1 : after];
  const low = known[after < 0 ? known.length - 1 : Math.max(0, after - 1)];
  if (!low || !high) return undefined;
  const share = high.at === low.at ? 1 : (value - low.at) / (high.at - low.at);
  return mixed(low.color, high.color, share);
}

function mixed(from: string, to: string, share: number): string {
  const channel = (color: string, at: number): number => parseInt(color.slice(at, at + 2), 16);
  const parts = [1, 3, 5].map((at) => channel(from, at) + (channel(to, at) - channel(from, at)) * share);
  return `#${parts.map((part) => Math.round(part).toString(16).padStart(2, "0")).join("")}`;
}
