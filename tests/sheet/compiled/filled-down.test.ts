import fc from "fast-check";
import { expect, it } from "vitest";
import { parseFormula, shiftFormula } from "../../../src/formula/shift";
import { isFilledDown } from "../../../src/sheet/compiled/filled-down";

const formulas = [
  "A1*$B2+C$3",
  'SUM($A$1:A7)&"A1"',
  "VLOOKUP(A1,'Price list'!$J$1:$L$500,2,FALSE)",
  "SUM(A:C,4:$5)",
  "A12+AB2",
  "1.5*A1%",
];

it("knows a formula by what it reads some rows further down, and only that", () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...formulas),
      fc.constantFrom(...formulas),
      fc.nat(3000),
      fc.nat(3),
      (a, b, rows, off) => {
        const template = parseFormula(a);
        const text = shiftFormula(parseFormula(b), rows, 0);
        const isSame = shiftFormula(template, rows + off, 0) === text;
        expect(isFilledDown(template, text, rows + off)).toBe(isSame);
      },
    ),
  );
});
