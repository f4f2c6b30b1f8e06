import fc from "fast-check";
import { expect, it } from "vitest";
import { NeedsUniver } from "../../../src/sheet/compiled/signals";
import { spelledNumber } from "../../../src/sheet/compiled/spelled-numbers";
import { numberIn } from "../../../src/sheet/conditional-functions";

function ours(text: string): number | "odd" | undefined {
  try {
    return spelledNumber(text, undefined);
  } catch (error) {
    if (error instanceof NeedsUniver) return "odd";
    throw error;
  }
}

const months = ["May", "june", "SEPT", "December", "Mon", "thursday", "am", "PM", "a", "p", "T"];
const money = ["$", "£", "€", "¥", "Rp", "zł", "R$", "HK$", "NT$", "kr"];
const words = [
  "item",
  "cm",
  "ft",
  "m",
  "kg",
  "inch",
  "Gold",
  "e",
  "E",
  "x",
  "o",
  "b",
  "th",
  "latex",
  "Infinity",
];
const signs = [" ", ".", ",", ":", "/", "-", "+", "%", "(", ")", "'", '"', "#", "&", "~", "_", "*", "\u00a0"];
const digits = ["0", "1", "5", "12", "30", "007", "2026", "1999", "99999", "1000000"];
const text = fc
  .array(
    fc.oneof(
      { weight: 4, arbitrary: fc.constantFrom(...digits) },
      { weight: 3, arbitrary: fc.constantFrom(...signs) },
      { weight: 2, arbitrary: fc.constantFrom(...words, ...months, ...money) },
    ),
    { minLength: 1, maxLength: 6 },
  )
  .map((pieces) => pieces.join(""));

it("reads a number as Univer does, or leaves it to Univer", () => {
  fc.assert(
    fc.property(text, (given) => {
      const found = ours(given);
      if (found !== "odd") expect([given, found]).toEqual([given, numberIn(given)]);
      expect(spelledNumber(given, numberIn)).toBe(numberIn(given));
    }),
    { numRuns: 6000 },
  );
});

it("leaves few of the texts of price lists to Univer", () => {
  const usual = [
    "item 12",
    "11",
    "0.5",
    "30 cm",
    '11"',
    "10 ft",
    "Gold 11",
    "12 inch",
    "A-17b",
    "red",
    "#12",
    "5 m",
  ];
  expect(usual.filter((given) => ours(given) === "odd")).toEqual([]);
  expect(["50%", "1 May", "$5", "1,000", "1e3", "0x1f", "5:30 pm", "1/2"].map(ours)).toEqual(
    Array(8).fill("odd"),
  );
});
