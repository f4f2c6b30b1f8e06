import { expect, it } from "vitest";
import { isWithheld } from "../../../src/core/withheld";
import { inches, type Tables } from "./job-builder";
import { plannedOf } from "./planned";

const coloured = (tables: Tables) => plannedOf(tables)[0]?.parts[0]?.colours;
const column = { name: "D", kind: "column" as const, height: 1.8, printed: inches(11), palette: "P" };

it("takes whole patterns over clusters and insides beside them", () => {
  const palettes = [
    { palette: "P", colour: "Clear", pattern: 1, inside: "Gold" },
    { palette: "P", colour: "White", pattern: 3 },
  ];
  // By hand: 11 clusters of 4.
  expect(coloured({ pieces: [column], palettes })).toMatchObject({
    colours: [
      { colour: "Clear", places: 11, count: 11 },
      { colour: "White", places: 33, count: 33 },
      { colour: "Gold", places: 0, count: 11 },
    ],
    inner: 11,
  });
});

it("does not know insides of a palette that cannot be read, but none where no palettes are given", () => {
  const palettes = [{ palette: "P", colour: "Clear", doubt: "share must be a number" }];
  const unread = coloured({ pieces: [column], palettes });
  expect(isWithheld(unread?.inner)).toBe(true);
  expect(unread?.problems.map(({ what }) => what)).toEqual(["palettes row 2: share must be a number"]);
  expect(coloured({ pieces: [column] })?.inner).toBe(0);
});

it("refuses a row with palette and colour", () => {
  const both = coloured({ pieces: [{ ...column, colour: "White" }] });
  expect(both?.problems[0]?.what).toBe("pieces row 2: palette and colour must not both be given");
});
