import { describe, expect, it } from "vitest";
import { readerLocale, readTyped, type TypedValue } from "../../src/desk/typed-value";

const read = (text: string, tag: string): TypedValue | undefined => readTyped(text, readerLocale(tag));
/** 19 June 2027: day 1 is 1900-01-01 and 1900 counts as a leap year (ECMA-376 part 1, 18.17.4.1). */
const DAY = 46_557;

describe("what a person types", () => {
  it.each([
    ["19/6/2027", "en-GB", DAY, "dd/mm/yyyy"],
    ["6/19/2027", "en-US", DAY, "mm/dd/yyyy"],
    ["19.06.2027", "de-DE", DAY, "dd.mm.yyyy"],
    ["19.6.27", "de-CH", DAY, "dd.mm.yyyy"],
    ["2027-06-19", "en-US", DAY, "yyyy-mm-dd"],
    ["2027/06/19", "ja-JP", DAY, "yyyy/mm/dd"],
    ["18:30", "en-GB", 18.5 / 24, "h:mm"],
    ["26:00", "en-GB", 26 / 24, "[h]:mm"],
    ["€ 12,50", "de-DE", 12.5, '"€" #,##0.00'],
    ["12,50 €", "fr-FR", 12.5, '#,##0.00 "€"'],
    ["-£3.20", "en-GB", -3.2, '"£" #,##0.00'],
    ["1.234,5", "de-DE", 1234.5, "#,##0.0"],
    ["1'234.50", "de-CH", 1234.5, "#,##0.00"],
    ["1 234,5", "fr-FR", 1234.5, "#,##0.0"],
    ["1,234.5", "en-US", 1234.5, "#,##0.0"],
    ["12,5 %", "de-DE", 0.125, "0.0%"],
    ["5%", "en-US", 0.05, "0%"],
    ["7", "en-US", 7, undefined],
    ["0,5", "de-DE", 0.5, undefined],
  ])("%s in %s is a number", (text, tag, value, numberFormat) => {
    expect(read(text, tag)).toEqual({ value, ...(numberFormat !== undefined && { numberFormat }) });
  });

  it("stays text, and says why, where the reader would not write it so", () => {
    expect(read("19/6/2027", "en-US")).toEqual({
      value: "19/6/2027",
      sentence: "19/6/2027 stays text: dates are read as month/day/year",
    });
    expect(read("31.2.2027", "de-DE")).toMatchObject({ value: "31.2.2027" });
    expect(read("12,50", "en-US")).toMatchObject({
      sentence: "12,50 stays text: numbers are written 1,234.5",
    });
    expect(read("1.5", "de-DE")).toMatchObject({ value: "1.5" });
  });

  it.each(["12 ft", "red", "1.2.3", "10 in x 12", "A1", "", "+", "3 bags", "$", "12-14"])(
    "%s is plain text",
    (text) => {
      expect(read(text, "en-US")).toBeUndefined();
    },
  );

  it("is read in English where the language is unknown", () => {
    expect(readerLocale("no such tag")).toEqual(readerLocale("en-US"));
  });
});
