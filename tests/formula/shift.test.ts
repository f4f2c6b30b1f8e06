import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseFormula, shiftFormula } from "../../src/formula/shift";

const shift = (formula: string, rows: number, columns: number): string => {
  return shiftFormula(parseFormula(formula), rows, columns);
};

describe("shifting formulas", () => {
  // Worked by hand from what Excel does when a formula is filled two rows down and one column right.
  it.each([
    ["A1", "B3"],
    ["$A1+A$1*$A$1", "$A3+B$1*$A$1"],
    ["SUM(A1:B2)", "SUM(B3:C4)"],
    ["SUM(A:A,$B:C)", "SUM(B:B,$B:D)"],
    ["SUM(1:1,$2:3)", "SUM(3:3,$2:5)"],
    ["'A1 B2'!C3&\"A1\"", "'A1 B2'!D5&\"A1\""],
    ["'It''s A1'!A1", "'It''s A1'!B3"],
    ['"say ""A1"" "&A1', '"say ""A1"" "&B3'],
    ["Sheet1!A1", "Sheet1!B3"],
    ["Jan:Mar!A1", "Jan:Mar!B3"],
    ["[1]Sheet1!A1", "[1]Sheet1!B3"],
    ["LOG10(A1)+ATAN2(1,B2)", "LOG10(B3)+ATAN2(1,C4)"],
    ["Table1[[#This Row],[A1]]*A1", "Table1[[#This Row],[A1]]*B3"],
    ["Table1[A1'] B1]+A1", "Table1[A1'] B1]+B3"],
    ["_xlfn.LET(_xlpm.a1,A1,_xlpm.a1+1)", "_xlfn.LET(_xlpm.a1,B3,_xlpm.a1+1)"],
    ["tax_A1+A1.rate+A1", "tax_A1+A1.rate+B3"],
    ["1.5E3+1E5*E5", "1.5E3+1E5*F7"],
    ["{1,2;3,4}+A1", "{1,2;3,4}+B3"],
    ["#REF!+#N/A+A1", "#REF!+#N/A+B3"],
    ["A1:INDEX(B:B,3)", "B3:INDEX(C:C,3)"],
    ["ABCD1+XFE1", "ABCD1+XFE1"],
    ["été1+A1", "été1+B3"],
  ])("%s becomes %s", (formula, shifted) => {
    expect(shift(formula, 2, 1)).toBe(shifted);
  });

  it("makes a reference that leaves the sheet an error", () => {
    expect(shift("A1+B2", -1, 0)).toBe("#REF!+B1");
    expect(shift("XFD1+A:B", 0, -1)).toBe("XFC1+#REF!");
    expect(shift("$A1048576", 1, 0)).toBe("#REF!");
  });

  it("changes references only, whatever stands between them", () => {
    const letters = (column: number): string => {
      const last = String.fromCharCode(65 + (column % 26));
      return column < 26 ? last : letters(Math.floor(column / 26) - 1) + last;
    };
    const prefix = fc.constantFrom("", "", "'A1:B2'!", "Sheet1!", "[2]Data!");
    const cell = fc
      .tuple(prefix, fc.nat(500), fc.nat(5_000), fc.boolean(), fc.boolean())
      .map(([sheet, column, row, isColumnFixed, isRowFixed]) => (rows: number, columns: number) => {
        const c = letters(column + (isColumnFixed ? 0 : columns));
        const r = String(row + 1 + (isRowFixed ? 0 : rows));
        return `${sheet}${isColumnFixed ? "$" : ""}${c}${isRowFixed ? "$" : ""}${r}`;
      });
    const fixed = fc
      .constantFrom(
        '"A1 ""B2"" [C3"',
        "T[[#Data],[B2]]",
        "LOG10(2)",
        "1E5",
        "name_A1",
        "TRUE",
        "#N/A",
        "_xlfn.F2(1)",
      )
      .map((text) => () => text);
    const operator = fc.constantFrom(..."+-*/^&=, );<".split("")).map((text) => () => text);
    const formula = fc.array(fc.tuple(fc.oneof(cell, fixed), operator), { maxLength: 12 });
    fc.assert(
      fc.property(formula, fc.nat(1_000), fc.nat(1_000), (pairs, rows, columns) => {
        const write = (r: number, c: number): string =>
          pairs.flatMap((pair) => pair.map((piece) => piece(r, c))).join("");
        expect(shift(write(0, 0), rows, columns)).toBe(write(rows, columns));
      }),
      { numRuns: 500 },
    );
  });
});
