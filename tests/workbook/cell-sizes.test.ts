import { expect, it } from "vitest";
import {
  fittedHeight,
  heightPixels,
  heightPoints,
  widthCharacters,
  widthPixels,
} from "../../src/workbook/cell-sizes";

// ECMA-376 part 1, 18.3.1.13, with digits 7 pixels wide: eight characters are stored as 8.7109375 and 61 pixels wide; Excel's
// usual column of 8.43 characters is stored as 9.140625 and 64 pixels wide.
it.each([
  [8.7109375, 61],
  [9.140625, 64],
  [0, 0],
  [1, 7],
  [100, 700],
])("shows a width of %d characters in %d pixels", (characters, pixels) => {
  expect(widthPixels(characters)).toBe(pixels);
});

it("finds for every number of pixels a width that is shown so", () => {
  for (let pixels = 0; pixels < 2000; pixels++) {
    const width = widthCharacters(pixels);
    expect(widthPixels(width)).toBe(pixels);
    expect(Number.isInteger(width * 256)).toBe(true);
    // The least of them: a digit's 256th less is shown narrower or was no whole pixel to begin with.
    expect(width * 7 - pixels).toBeLessThan(7 / 256);
    expect(width * 7 - pixels).toBeGreaterThanOrEqual(0);
  }
});

// A point is 1/72 in, a pixel 1/96 in; Excel's usual row is 15 points high.
it("turns points into pixels and back", () => {
  expect(heightPixels(15)).toBe(20);
  expect(heightPoints(20)).toBe(15);
  expect(heightPixels(14.25)).toBe(19);
});

// Heights in pixels that Excel gives rows of these sizes of Calibri (from memory: 15, 18.75, 23.25, 26.25 and 31.5 points).
it.each([
  [11, 20],
  [14, 25],
  [18, 31],
  [20, 35],
  [24, 42],
])("is as high as Excel makes a row of %d points, to a pixel", (fontSize, pixels) => {
  expect(
    Math.abs(fittedHeight("text", { numberFormat: "General", fontSize }, 64) - pixels),
  ).toBeLessThanOrEqual(1);
});

it("is as high as the lines into which a text is broken", () => {
  const wrapped = { numberFormat: "General", wrap: true };
  const line = fittedHeight("a", wrapped, 64);
  expect(line).toBe(fittedHeight(null, undefined, 64));
  expect(fittedHeight("", wrapped, 64)).toBe(line);
  expect(fittedHeight(7, wrapped, 64)).toBe(line);
  const lines = (text: string, width: number): number =>
    Math.round(fittedHeight(text, wrapped, width) / line);
  expect(lines("a\nb\n\nd", 64)).toBe(4);
  expect(lines("x".repeat(80), 700)).toBe(1);
  // Letters of 11 points are about 7.8 pixels wide (common practice, no source): a column of 80 pixels takes ten.
  expect(lines("x".repeat(40), 80)).toBe(4);
  expect(lines("x".repeat(41), 80)).toBe(5);
  // Where no letter has room, each has a line of its own.
  expect(lines("abc", 2)).toBe(3);
  // A text that is not wrapped needs one line, however long.
  expect(fittedHeight("a\nb", { numberFormat: "General" }, 10)).toBe(line);
});
