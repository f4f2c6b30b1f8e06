import { afterAll, expect, it } from "vitest";
import { UniverFormulas } from "../../src/sheet/univer-formulas";
import { errorText, readerOf, workbookOf } from "./workbook-of";

const CELLS: Readonly<Record<string, string | number | boolean | { readonly error: string }>> = {
  A1: "red",
  A2: "Red",
  A3: "r?d",
  B1: 3,
  B2: 1,
  B3: 2,
  B4: { error: "#NUM!" },
  C1: "1.5",
  C2: "true",
  C3: "x",
};

const univer = new UniverFormulas(workbookOf({ S: {} }), [], readerOf(CELLS));
afterAll(() => {
  univer.dispose();
});

/** What Univer gives with all corrections, row by row; numbers with twelve digits. */
async function evaluate(formula: string): Promise<unknown> {
  const where = { sheet: 0, row: 30, column: 30 };
  const { rows } = await univer.evaluate({ texts: [formula], addresses: [] }, where, { budget: 2000 });
  const values = rows
    .flat()
    .map(errorText)
    .map((value) => (typeof value === "number" ? Number(value.toPrecision(12)) : value));
  return values.length === 1 ? values[0] : values;
}

it.each([
  // Page DATE: the year 9999 is the last; 2,958,465 is its last day.
  ["DATE(9999,12,31)", 2_958_465],
  ["DATE(9999,12,32)", "#NUM!"],
  ["DATE(9998,13,1)", 2_958_101],
  ["DATE(10000,1,1)", "#NUM!"],
  ["DATE(9999,1E+9,1)", "#NUM!"],
  ["DATE(9999,1E+15,1)", "#NUM!"],
  ["DATE(300000,1,1)", "#NUM!"],
  // As Excel stores it: the month alone is beyond the last year, whatever the day takes back.
  ["DATE(9999,13,-1)", "#NUM!"],
  // Page IF: a text is no condition, unless it spells a logical value.
  ['IF("true",1,2)', 1],
  ['IF("FALSE",1,2)', 2],
  ["IF(A1,1,2)", "#VALUE!"],
  ["IF(C2,1,2)", 1],
  ['IF("untrue",1,2)', "#VALUE!"],
  ['IF("falsehood",1,2)', "#VALUE!"],
  ["IF(FALSE,1)", false],
  ["IF(B4,1,2)", "#NUM!"],
  ["IF({1,0},5,6)", [5, 6]],
  // Page AVERAGE: arguments that are errors are the result.
  ["AVERAGE(B1:B3)", 2],
  ["AVERAGE(B1:B4)", "#NUM!"],
  ["AVERAGE(1/0,B4)", "#DIV/0!"],
  // Page MATCH: 1 where no type is given at all, 0 where its place is left empty (the blank is 0).
  ["MATCH(2.5,{1,2,3})", 2],
  ["MATCH(2.5,{1,2,3},1)", 2],
  ["MATCH(2.5,{1,2,3},)", "#N/A"],
  ["MATCH(2,{1,2,3},)", 2],
  ["MATCH(2,{3,2,1},-1)", 2],
  // Page XMATCH: wildcards mean something with match mode 2 only.
  ['XMATCH("r?d",A1:A3)', 3],
  ['XMATCH("r?d",A1:A3,2)', 1],
  ['XLOOKUP("*",A1:A3,B1:B3,"none")', "none"],
  ["XMATCH(B4,B1:B3)", "#NUM!"],
  // Page TIMEVALUE: 2:24 AM is 0.10; spaces around it do not count.
  ['TIMEVALUE("2:24 AM")', 0.1],
  ['TIMEVALUE("  2:24 AM ")', 0.1],
  // Pages SMALL and LARGE: a typed text that spells a number is one, any other no number.
  ["SMALL({3,1,2},2)", 2],
  ["LARGE(B1:B3,1)", 3],
  ['SMALL("x",1)', "#VALUE!"],
  ['LARGE("4",1)', 4],
  ["SMALL(C1:C3,1)", "#NUM!"],
  ["SMALL(B4,1)", "#NUM!"],
  // Pages IFERROR and IFNA, arrays of different size as all of Excel's array operations: a row or column of one repeats.
  ["IFNA({1;#N/A},{7,8})", [1, 1, 7, 8]],
  ["IFNA({#DIV/0!;1},{2,3})", ["#DIV/0!", "#DIV/0!", 1, 1]],
  ["IFERROR({#DIV/0!;1},{2,3})", [2, 3, 1, 1]],
  ["IFERROR({1,#DIV/0!},5)", [1, 5]],
  ["IFERROR({#N/A,2},{3,4})", [3, 2]],
  ["IFERROR({1;#N/A},{7;8;9})", [1, 8, 9]],
  ["IFERROR(B4,7)", 7],
  ["IFNA(B4,7)", "#NUM!"],
  // Page LINEST: the constant is computed unless FALSE. Least squares by hand: 5/2 with it, 37/14 through the origin.
  ["INDEX(LINEST({3;5;8},{1;2;3},,FALSE),1,1)", 2.5],
  ["ROUND(INDEX(LINEST({3;5;8},{1;2;3},FALSE),1,1),6)", 2.642857],
  ["ROUND(INDEX(LINEST({3;5;8},{1;2;3},TRUE),1,2),6)", 0.333333],
  // 2, 4, 8 are the powers of 2: the base is 2, the constant 1.
  ["ROUND(LOGEST({2;4;8},{1;2;3},),9)", [2, 1]],
  // Page ERF: 0.707929 at 0.745; texts of cells are read as numbers, as Excel converts arguments.
  ['ROUND(ERF("0.745"),6)', 0.707929],
  ["ROUND(GAUSS(C1),6)", 0.433193],
  ["ROUND(GAUSS(C2),6)", 0.341345],
  ["GAUSS(C3)", "#VALUE!"],
  ['GAUSS("false")', 0],
  ['GAUSS("untrue")', "#VALUE!"],
  ['GAUSS("trueish")', "#VALUE!"],
  // Page VALUE; the second of February is the same day in either order.
  ['VALUE("$1,000")', 1000],
  ['VALUE("2/2/2023")', 44_959],
  // Page TEXT: days count from 0 January 1900 to 31 December 9999; what is no number stays as it is.
  ['TEXT(0,"yyyy")', "1900"],
  ['TEXT(-1,"yyyy")', "#VALUE!"],
  ['TEXT(2958465.5,"yyyy-mm-dd hh:mm")', "9999-12-31 12:00"],
  ['TEXT(2958466,"yyyy")', "#VALUE!"],
  ['TEXT(2958466,"0")', "2958466"],
  ['TEXT(-1,"0.00")', "-1.00"],
  ['TEXT(1234.567,"#,##0.00")', "1,234.57"],
  ['TEXT("red","yyyy")', "red"],
  [String.raw`TEXT(5,"0\#")`, "5#"],
  [String.raw`TEXT(5,"\#0")`, "#5"],
  // Page EDATE: 15 January 2011 is day 40558. Page EOMONTH: 1 January 2011 is day 40544.
  ["EDATE(40558,1)", 40_589],
  ["EDATE(40558,-1)", 40_527],
  ["EDATE({40558,40559},1)", [40_589, 40_590]],
  ["EDATE(40558,{1,2})", [40_589, 40_617]],
  ['EDATE("x",1)', "#VALUE!"],
  ["EOMONTH(40544,1)", 40_602],
  ["EOMONTH(40544,-3)", 40_482],
  // Pages ISOWEEKNUM and WEEKNUM: 9 March 2012 is day 40977.
  ["ISOWEEKNUM(40977)", 10],
  ["ISOWEEKNUM({40977;36584})", [10, 9]],
  ["WEEKNUM(40977)", 10],
  ["WEEKNUM(40977,2)", 11],
  // Page TRUNC.
  ["TRUNC(8.9)", 8],
  ["TRUNC(-8.9)", -8],
  ["TRUNC(0.45)", 0],
  ["TRUNC(-1.25,1)", -1.2],
  // Page ATAN2.
  ["ROUND(ATAN2(1,1),8)", 0.78539816],
  ["ROUND(ATAN2(-1,-1),8)", -2.35619449],
  // Page SEQUENCE.
  ["SEQUENCE(2,2)", [1, 2, 3, 4]],
  ["SEQUENCE(2)", [1, 2]],
  // Pages SYD, PDURATION, DB and MIRR. XNPV by its formula: -100 and 121 two years later at 10 % are worth 0.
  ["ROUND(SYD(30000,7500,10,1),2)", 4090.91],
  ["ROUND(SYD(30000,7500,10,10),2)", 409.09],
  ["SYD(30000,7500,10,0)", "#NUM!"],
  ["ROUND(PDURATION(0.025,2000,2200),2)", 3.86],
  ["PDURATION(0.025,0,2200)", "#NUM!"],
  ["PDURATION(0,2000,2200)", "#NUM!"],
  ["ROUND(DB(1000000,100000,6,1,7),2)", 186_083.33],
  ["ROUND(DB(1000000,100000,6,7,7),2)", 15_845.1],
  // 1 - (100/1000)^(1/5) is 0.369 to three digits.
  ["DB(1000,100,5,1)", 369],
  ["ROUND(MIRR({-120000,39000,30000,21000,37000,46000},0.1,0.12),6)", 0.126094],
  ["ROUND(XNPV(0.1,{-100,121},{365,1095}),6)", 0],
  ["XNPV(0.1,{-100,#N/A},{365,1095})", "#N/A"],
  ['XNPV(0.1,{-100,"x"},{365,1095})', "#NUM!"],
  ['XNPV(0.1,{-100,121},{365,"x"})', "#VALUE!"],
  ["ROUND(IRR({-70000,12000,15000,18000,21000}),9)", -0.021244848],
] as readonly (readonly [string, unknown])[])("%s is %j", async (formula, value) => {
  expect(await evaluate(formula)).toEqual(value);
});

it.each(["SEQUENCE(2000,1000)", "RANDARRAY(2000,1000)", 'TEXT(1E+22,"0")'])(
  "%s is refused, not wrong",
  async (formula) => {
    await expect(evaluate(formula)).rejects.toThrow();
  },
);
