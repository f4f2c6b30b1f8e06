/** Decimals beyond which a number of the General format is not written. */
const MOST_DECIMALS = 10;

/** A number as its cell shows it before anyone asks whether there is room. */
export interface ShownNumber {
  readonly text: string;
  /** The number itself, where no number format decides how many decimals it has. */
  readonly general?: number;
}

/**
 * What a cell shows of a number: all of it, fewer decimals where no number format asks for them, or a row of `#`.
 * Never a part of its digits, which would read as another number. `widthOf` measures a text in the units of `width`.
 */
export function fittedNumber(
  { text, general }: ShownNumber,
  width: number,
  widthOf: (text: string) => number,
): string {
  if (widthOf(text) <= width) return text;
  if (general !== undefined && Math.abs(general) < 1e15) {
    for (let decimals = MOST_DECIMALS; decimals >= 0; decimals--) {
      const rounded = Number(general.toFixed(decimals));
      // A small number rounded to nothing would read as zero.
      if (rounded === 0 && general !== 0) break;
      const shorter = String(rounded);
      if (!shorter.includes("e") && widthOf(shorter) <= width) return shorter;
    }
  }
  return "#".repeat(Math.max(1, Math.floor(width / widthOf("#"))));
}
