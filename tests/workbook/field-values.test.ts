import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type FieldStyle, fieldStyle, fieldValue } from "../../src/workbook/field-values";

const COMMA: FieldStyle = { decimalMark: ",", dateOrder: "day first" };
const POINT: FieldStyle = { decimalMark: ".", dateOrder: "month first" };
const UNKNOWN: FieldStyle = { decimalMark: undefined, dateOrder: undefined };

describe("a field of a file with decimal commas", () => {
  it.each<[string, unknown, string?]>([
    ["9,90", 9.9],
    ["1.234,50", 1234.5],
    ["1 234,50", 1234.5],
    ["1\u202f234", 1234],
    ["1.000", 1000],
    ["1,250", 1.25],
    ["-0,5", -0.5],
    ["−3", -3],
    ["0,125", 0.125],
    ["9,90 €", 9.9, '#,##0.00 "€"'],
    ["€ 1.234", 1234, '"€"#,##0'],
    ["-12,5 EUR", -12.5, '#,##0.0 "EUR"'],
    ["19%", 0.19, "0%"],
    ["7,5 %", 0.075, "0.0%"],
    ["0", 0],
    // 2026-04-03 is 442 days before 2027-06-19, whose serial number is 46557.
    ["03.04.2026", 46115, "yyyy-mm-dd"],
    ["03/04/2026", 46115, "yyyy-mm-dd"],
    ["2026-04-03 18:00", 46115.75, "yyyy-mm-dd hh:mm"],
    ["TRUE", true],
    ["", null],
  ])("reads %j as %j", (text, value, numberFormat) => {
    expect(fieldValue(text, COMMA)).toEqual(numberFormat === undefined ? { value } : { value, numberFormat });
  });
});

describe("a field of a file with decimal points", () => {
  it.each<[string, unknown, string?]>([
    ["9.90", 9.9],
    ["1,234.50", 1234.5],
    ["1,000", 1000],
    ["1.250", 1.25],
    ["$1,234.50", 1234.5, '"$"#,##0.00'],
    ["04/03/2026", 46115, "yyyy-mm-dd"],
    [".5", 0.5],
  ])("reads %j as %j", (text, value, numberFormat) => {
    expect(fieldValue(text, POINT)).toEqual(numberFormat === undefined ? { value } : { value, numberFormat });
  });
});

it.each([
  "00123",
  "+49 30 1234",
  "1E5",
  "=1+1",
  "@SUM(1)",
  "5/11/16",
  '11"',
  "12 345 6",
  "1,23,45",
  "1.2.3",
  "1234567890123456",
  "31.02.2026",
  "13/13/2026",
  "01.01.1899",
  "2026-13-01",
  "€",
  "12 bags",
  "5-6",
  "1,",
  "--1",
  "€5€",
  " navy ",
  "true",
])("leaves %j the text that it is", (text) => {
  for (const style of [COMMA, POINT, UNKNOWN]) expect(fieldValue(text, style)).toEqual({ value: text });
});

it.each([
  ["1,234", /thousands or decimals/],
  ["1.234 €", /thousands or decimals/],
  ["04/05/2026", /either way/],
])("does not guess what %j means where the file does not show it", (text, why) => {
  const mixed: FieldStyle = { decimalMark: "mixed", dateOrder: "mixed" };
  for (const style of [UNKNOWN, mixed]) {
    const { value, unclear } = fieldValue(text, style);
    expect(value).toBe(text);
    expect(unclear).toMatch(why);
  }
});

it("reads both kinds of a file that has both", () => {
  const style = fieldStyle(["1,5", "2.5"]);
  expect(style.decimalMark).toBe("mixed");
  expect([fieldValue("1,5", style).value, fieldValue("2.5", style).value]).toEqual([1.5, 2.5]);
});

it.each<[readonly string[], FieldStyle]>([
  [["9,90", "1.000"], { decimalMark: ",", dateOrder: undefined }],
  [["1,234,567"], { decimalMark: ".", dateOrder: undefined }],
  [["1.000", "3,000", "12", "04/05/2026"], UNKNOWN],
  [["4/13/2026"], { decimalMark: undefined, dateOrder: "month first" }],
  [["13/4/2026", "4/13/2026"], { decimalMark: undefined, dateOrder: "mixed" }],
])("tells from %j how the file writes", (fields, style) => {
  expect(fieldStyle(fields)).toEqual(style);
});

describe("a number as a locale writes it", () => {
  const amount = fc.double({ min: -1e9, max: 1e9, noNaN: true, noDefaultInfinity: true });
  it.each<[string, FieldStyle]>([
    ["de-DE", COMMA],
    ["es-ES", COMMA],
    ["fr-FR", COMMA],
    ["en-US", POINT],
    ["de-CH", POINT],
  ])("of %s comes back", (locale, style) => {
    const written = new Intl.NumberFormat(locale, { minimumFractionDigits: 2, maximumFractionDigits: 2 });
    fc.assert(
      fc.property(amount, (value) => {
        const rounded = Number(value.toFixed(2));
        expect(fieldValue(written.format(rounded), style).value).toBe(rounded === 0 ? 0 : rounded);
      }),
    );
  });
});
