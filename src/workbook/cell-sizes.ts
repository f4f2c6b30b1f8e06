import type { CellStyle, CellValue } from "./model";

/** Pixels of a column that is as wide as Excel's default, and of a row that is as high. */
export const DEFAULT_WIDTH = 64;
export const DEFAULT_HEIGHT = 20;

/** Excel's rule for a width in characters of its default font, which is 7 pixels wide (ECMA-376 part 1, 18.3.1.13). */
export function widthPixels(characters: number): number {
  return Math.trunc(((256 * characters + Math.trunc(128 / 7)) / 256) * 7);
}

/** The width in characters that is as wide as some pixels, to the 256th of a character in which files count. */
export function widthCharacters(pixels: number): number {
  return Math.ceil((pixels / 7) * 256) / 256;
}

export function heightPoints(pixels: number): number {
  return (pixels * 3) / 4;
}

export function heightPixels(points: number): number {
  return Math.round((points * 4) / 3);
}

/** Height of a line and width of a letter, as shares of the font's size. */
const LINE = 1.3;
const LETTER = 0.52;

/** Pixels that a cell needs in a row without a height of its own: Excel fits such rows to fonts and wrapped texts. */
export function fittedHeight(value: CellValue, style: CellStyle | undefined, width: number): number {
  const { fontSize = 11, wrap } = style ?? {};
  const size = heightPixels(fontSize);
  const text = wrap && typeof value === "string" ? value.split("\n") : [""];
  const perLine = Math.max(1, Math.floor(width / (size * LETTER)));
  const lines = text.reduce((sum, line) => sum + Math.max(1, Math.ceil(line.length / perLine)), 0);
  return Math.ceil(lines * size * LINE);
}
