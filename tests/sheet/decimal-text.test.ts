import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";
import { decimalText } from "../../src/sheet/decimal-text";
import { UniverFormulas } from "../../src/sheet/univer-formulas";
import { errorText, readerOf, workbookOf } from "./workbook-of";

describe("a number within a text", () => {
  // Microsoft support, Excel specifications and limits: 15 digits. Where the exponent begins: values that Excel stored for
  // VALUETOTEXT, and from memory for the operator.
  it.each([
    [0.1 + 0.2, "0.3"],
    [1 / 3, "0.333333333333333"],
    [20 * 1.19, "23.8"],
    [-2 / 3, "-0.666666666666667"],
    [12, "12"],
    [-0.5, "-0.5"],
    [1e-7, "0.0000001"],
    [-1.5e-9, "-0.0000000015"],
    [1e20, "100000000000000000000"],
    [1.25e21, "1.25E+21"],
    [123456789012345680, "123456789012346000"],
    [0, "0"],
  ])("%d is %s", (number, text) => {
    expect(decimalText(number)).toBe(text);
  });

  it("spells the number that it stands for, to 15 digits", () => {
    fc.assert(
      fc.property(fc.double({ min: -1e307, max: 1e307, noNaN: true }), (number) => {
        expect(Number(decimalText(number))).toBe(Number(number.toPrecision(15)) + 0);
      }),
    );
  });
});

describe("texts joined by Univer", () => {
  const cells: Readonly<Record<string, string | number | boolean>> = {
    A1: 23.799999999999997,
    A2: true,
    A3: "m",
  };
  const univer = new UniverFormulas(workbookOf({ S: {} }), [], readerOf(cells));
  afterAll(() => {
    univer.dispose();
  });

  it.each([
    ['"Total "&20*1.19', ["Total 23.8"]],
    ['0.1+0.2&" "&0.3', ["0.3 0.3"]],
    ['"Total "&A1', ["Total 23.8"]],
    ['A1:A3&"."', ["23.8.", "TRUE.", "m."]],
    ['A9&"x"', ["x"]],
    ['"x"&A9', ["x"]],
    ['TRUE&"x"', ["TRUEx"]],
    ['"x"&TRUE', ["xTRUE"]],
    ['1E-7&""', ["0.0000001"]],
    ['""&1E+21', ["1E+21"]],
    ['CONCATENATE(0.1+0.2," m")', ["0.3 m"]],
    ['CONCAT(A1," ",0.1+0.2)', ["23.8 0.3"]],
    ['TEXTJOIN("; ",TRUE,A1,1/3)', ["23.8; 0.333333333333333"]],
  ] as const)("%s", async (formula, values) => {
    const where = { sheet: 0, row: 30, column: 30 };
    const { rows } = await univer.evaluate({ texts: [formula], addresses: [] }, where, { budget: 2000 });
    expect(rows.flat().map(errorText)).toEqual(values);
  });
});
