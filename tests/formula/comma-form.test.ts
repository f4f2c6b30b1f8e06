import { describe, expect, it } from "vitest";
import fc from "fast-check";
import { commaForm, pointForm } from "../../src/formula/comma-form";
import { EXCEL_COMMA_STYLE, EXCEL_STYLE } from "../../src/functions/formula-style";
import { argumentText } from "../../src/functions/reference";

describe("a formula with decimal commas", () => {
  it.each([
    ["BLN.COUNT_COLUMN(1,8; 9)", "BLN.COUNT_COLUMN(1.8, 9)"],
    ["SUM(A1;B1)*1,5", "SUM(A1,B1)*1.5"],
    ['IF(A1;"1,5; x";{1,5\\2;3\\4})', 'IF(A1,"1,5; x",{1.5,2;3,4})'],
    ["SUM('1,8; b'!A1;Pieces[[#All];[a,b]])", "SUM('1,8; b'!A1,Pieces[[#All];[a,b]])"],
  ])("%s", (typed, kept) => {
    expect(pointForm(typed)).toBe(kept);
  });

  it.each([
    ["BLN.COUNT_COLUMN(1.8, 9)", "BLN.COUNT_COLUMN(1,8; 9)"],
    ['IF(A1,"1.5, x",{1.5,2;3,4})', 'IF(A1;"1.5, x";{1,5\\2;3\\4})'],
    ["SUM('1.8, b'!A1,Pieces[[#All],[a.b]])", "SUM('1.8, b'!A1;Pieces[[#All],[a.b]])"],
  ])("%s is written with commas, and read back", (kept, typed) => {
    expect(commaForm(kept)).toBe(typed);
    expect(pointForm(typed)).toBe(kept);
  });

  it.each(["SUM(A1,B1)", "BLN.BAG_PLAN(200, {50;100}, {8;14})", "A1"])("%s is none", (typed) => {
    expect(pointForm(typed)).toBeUndefined();
  });

  it("is the same call as the one with points (law, any numbers and texts)", () => {
    const cell = fc.oneof(
      fc.double({ min: 0.001, max: 1e6, noNaN: true }),
      fc.string({ maxLength: 6 }),
      fc.boolean(),
    );
    const rows = fc.array(fc.tuple(cell, cell), { minLength: 2, maxLength: 3 });
    fc.assert(
      fc.property(fc.array(fc.oneof(cell, rows), { minLength: 2, maxLength: 4 }), (args) => {
        const written = (style: typeof EXCEL_STYLE): string =>
          `F(${args.map((arg) => argumentText(arg, style)).join(style.separator)})`;
        expect(pointForm(written(EXCEL_COMMA_STYLE))).toBe(written(EXCEL_STYLE));
      }),
      { numRuns: 200 },
    );
  });
});
