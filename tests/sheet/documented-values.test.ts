import { afterEach, expect, it } from "vitest";
import { FormulaTranslator } from "../../src/sheet/formula-translation";
import { DOCUMENTED_FUNCTIONS } from "../../src/sheet/trusted-functions";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { errorText, type TestSheets, workbookOf } from "./workbook-of";

let engine = new UniverEngine([]);
afterEach(() => {
  engine.dispose();
});

/** A price list and the cells that the cases read. */
const CELLS: TestSheets[string] = {
  A1: "red",
  A2: "blue",
  A3: "Red",
  A4: "gold",
  B1: 10,
  B2: 20,
  B3: 30,
  B4: 40,
  C1: 1,
  C2: 3,
  C3: 5,
  C4: 7,
  D1: "x",
  D2: true,
  D4: 2,
  E1: "10",
  F1: 4,
  F2: 2,
  F3: 8,
};

/**
 * A formula and the value that Excel gives: Microsoft's page on the function (support.microsoft.com), or the definition
 * worked out by hand on CELLS. A table is written row by row.
 */
const CASES: readonly (readonly [formula: string, value: unknown])[] = [
  // What Univer does wrong.
  ['OR("TRUE")', true],
  ['AND("FALSE")', false],
  ['OR("x")', "#VALUE!"],
  ["OR(A1:A3)", "#VALUE!"],
  ["AND(D1:D4)", true],
  ["_xlfn.XOR(TRUE,TRUE)", false],
  ["PROPER(Z9)", ""],
  ['PROPER("2-way STREET")', "2-Way Street"],
  // Page AVERAGEA: text is 0, TRUE is 1; blanks are left out. (0 + 1 + 2) / 3.
  ["AVERAGEA(D1:D4)", 1],
  // Page GEOMEAN: 4, 5, 8, 7, 11, 4, 3 give 5.476987.
  ["GEOMEAN(4,5,8,7,11,4,3)", 5.476986969656962],
  // The square root of 4 x 9, with text and logical value of the range left out.
  ['GEOMEAN(F1,"9")', 6],
  ["GEOMEAN(D1:D4)", 2],
  // Page HARMEAN: 5.028376. Page KURT: -0.151799637. Page SKEW: 0.359543071.
  ["HARMEAN(4,5,8,7,11,4,3)", 5.028375962061728],
  ["KURT(3,4,5,2,3,4,5,6,4,7)", -0.1517996372084161],
  ["SKEW(3,4,5,2,3,4,5,6,4,7)", 0.359543071406797],
  ["KURT({3,4,5,2,3},{4,5,6,4,7})", -0.1517996372084161],
  // Fewer than two numbers, or none: page STDEV.S and the definition, division by n - 1.
  ["STDEV(A1:A3)", "#DIV/0!"],
  ["_xlfn.STDEV.S(B1)", "#DIV/0!"],
  ["VARP(A1:A3)", "#DIV/0!"],
  ["VAR(B1:B4)", 500 / 3],
  // Pages STDEV and STDEVP: the breaking strength of ten tools.
  ...["STDEV", "_xlfn.STDEV.S"].map(
    (name) => [`${name}(1345,1301,1368,1322,1310,1370,1318,1350,1303,1299)`, 27.463915719843] as const,
  ),
  ...["STDEVP", "_xlfn.STDEV.P"].map(
    (name) => [`${name}(1345,1301,1368,1322,1310,1370,1318,1350,1303,1299)`, 26.054558142482] as const,
  ),
  // Page CORREL: 0.997054486; pairs with a blank or text are left out.
  ["CORREL({3,2,4,5,6},{9,7,12,15,17})", 0.9970544855015815],
  ["CORREL(C1:C5,B1:B5)", 1],
  ["SLOPE(D1:D4,C1:C4)", "#DIV/0!"],
  ["SLOPE(B1:B5,C1:C5)", 5],
  ["INTERCEPT(B1:B5,C1:C5)", 5],
  ['_xlfn.VALUETOTEXT(5)&""', "5"],
  ["ISTEXT(_xlfn.VALUETOTEXT(5))", true],
  ['_xlfn.VALUETOTEXT("a",1)', '"a"'],
  ['ISTEXT(INDEX(_xlfn.TEXTSPLIT("1,2",","),2))', true],
  [
    '_xlfn.TEXTSPLIT("a,b;c",",",";")',
    [
      ["a", "b"],
      ["c", "#N/A"],
    ],
  ],
  // Next smaller, next larger, wildcards, from the end.
  ["_xlfn.XLOOKUP(4,C1:C4,B1:B4,,-1)", 20],
  ["_xlfn.XLOOKUP(4,C1:C4,B1:B4,,1)", 30],
  ['_xlfn.XLOOKUP("r?d",A1:A4,B1:B4,,2)', 10],
  ['_xlfn.XLOOKUP("r*",A1:A4,B1:B4,,2,-1)', 30],
  // Page XLOOKUP: wildcards in mode 2 only.
  ['_xlfn.XLOOKUP("r*",A1:A4,B1:B4,"none")', "none"],
  ['_xlfn.XLOOKUP("r?d",A1:A4,B1:B4)', "#N/A"],
  ['_xlfn.XMATCH("b*",A1:A4)', "#N/A"],
  ['_xlfn.XLOOKUP("11*",{"11";"11*";"*"},{1;2;3})', 2],
  ['_xlfn.XLOOKUP("~",{"a";"~"},{1;2})', 2],
  ["_xlfn.XLOOKUP(5,F1:F3,B1:B3,,-1)", 10],
  ["_xlfn.XLOOKUP(5,F1:F3,B1:B3,,1)", 30],
  ["_xlfn.XLOOKUP(5,C1:C4,B1:B4,,0,2)", 30],
  ['_xlfn.XLOOKUP("lilac",A1:A4,B1:B4,"none")', "none"],
  ['_xlfn.XLOOKUP("red",A1:A4,B1:C4)', [[10, 1]]],
  ['_xlfn.XMATCH("g.+d",A1:A4,3)', 4],
  // Pages XMATCH and XLOOKUP: letters without case, from the last, modes left out, several values at once, lists that lie.
  ['_xlfn.XMATCH("red",A1:A4,0,-1)', 3],
  ['_xlfn.XMATCH("red",A1:A4,,-1)', 3],
  ["_xlfn.XMATCH(4,C1:C4,-1)", 2],
  ["_xlfn.XMATCH(4,C1:C4,1)", 3],
  ["_xlfn.XMATCH(4,C1:C4,0,-1)", "#N/A"],
  ["_xlfn.XMATCH(7,C1:C4,0,-2)", "#N/A"],
  ['_xlfn.XMATCH({"blue";"lilac";"gold"},A1:A4,0,-1)', [[2], ["#N/A"], [4]]],
  ['_xlfn.XMATCH({"blue","red"},A1:A4,0,-1)', [[2, 3]]],
  ["_xlfn.XMATCH(NA(),C1:C4,-1)", "#N/A"],
  ["_xlfn.XMATCH({4,#NUM!},C1:C4,-1)", [[2, "#NUM!"]]],
  ["_xlfn.XMATCH(1,B1:C4,-1)", "#VALUE!"],
  ["_xlfn.XMATCH(1,C1:C4,5)", "#VALUE!"],
  ["_xlfn.XLOOKUP(20,{10,20,30},{1,2,3;4,5,6},,0,-1)", [[2], [5]]],
  ["_xlfn.XLOOKUP(20,{10;20;30},{1,2;3,4;5,6},,0,-1)", [[3, 4]]],
  ["_xlfn.XLOOKUP(1,C1,B1:C1,,-1)", [[10, 1]]],
  ["_xlfn.XLOOKUP({1;7},C1:C4,B1:B4,,-1)", [[10], [40]]],
  ["_xlfn.XLOOKUP({0;7},C1:C4,B1:B4,,-1)", [["#N/A"], [40]]],
  ['_xlfn.XLOOKUP({0;7},C1:C4,B1:B4,"none",-1)', [["none"], [40]]],
  ['_xlfn.XLOOKUP(9,C1:C4,B1:B4,"none",0,-1)', "none"],
  ["_xlfn.XLOOKUP(9,C1:C4,B1:B4,,0,-1)", "#N/A"],
  ['_xlfn.XLOOKUP(NA(),C1:C4,B1:B4,"none",-1)', "#N/A"],
  ['_xlfn.XLOOKUP(NA(),C1:C4,B1:B4,"none")', "#N/A"],
  ["_xlfn.XLOOKUP(1,B1:C4,B1:B4,,-1)", "#VALUE!"],
  // Page ADDRESS, and the last row and column of page Excel specifications and limits.
  ["ADDRESS(2,3)", "$C$2"],
  ["ADDRESS(2.9,3.9,4)", "C2"],
  ["ADDRESS(1048576,16384)", "$XFD$1048576"],
  ["ADDRESS(1048577,1)", "#VALUE!"],
  ["ADDRESS(1,16385)", "#VALUE!"],
  ["ADDRESS(1,0)", "#VALUE!"],
  ['ADDRESS("x",1)', "#VALUE!"],
  // Page SEARCH: a start before the text or behind it.
  ['SEARCH("e","blue",4)', 4],
  ['SEARCH("e","blue",5)', "#VALUE!"],
  ['SEARCH("e","blue",9)', "#VALUE!"],
  ['SEARCH("","blue",9)', "#VALUE!"],
  ['SEARCH("e","blue",0)', "#VALUE!"],
  ['SEARCH("","")', 1],
  // Weekend 17 is Saturday only: 2026-06-19 is a Friday, the next working day the Sunday.
  ["WORKDAY.INTL(DATE(2026,6,19),1,17)-DATE(2026,6,21)", 0],
  ["WORKDAY.INTL(DATE(2026,6,21),-1,17)-DATE(2026,6,19)", 0],
  // Page NETWORKDAYS.INTL: January 2006 has 22 with the usual weekend.
  ["NETWORKDAYS.INTL(DATE(2006,1,1),DATE(2006,1,31))", 22],
  // Page WORKDAY.INTL: 30 days after 2012-01-01 with Sundays off is 2012-02-05 (40944)
  ["WORKDAY.INTL(DATE(2012,1,1),90,11)", 41013],
  // Whole columns count blank rows down to the last.
  ['COUNTIF(A:A,"<>red")', 1_048_574],
  ['COUNTIF(A1:A6,"<>red")', 4],
  ['COUNTIF(A1:A6,"")', 2],
  ['COUNTIF(A1:A6,"<>")', 4],
  ['COUNTIF(A1:A4,"r*")', 2],
  ["COUNTIF(E1:F3,10)", 1],
  ['COUNTIF(E1:F3,"<=4")', 2],
  ['COUNTIFS(A1:A4,"red",B1:B4,">10")', 1],
  ['SUMIF(A1:A4,"red",B1:B4)', 40],
  ['SUMIFS(B1:B4,A1:A4,"<>red",C1:C4,">=3")', 60],
  ['AVERAGEIF(A1:A4,"lilac",B1:B4)', "#DIV/0!"],
  ['_xlfn.MAXIFS(B1:B4,A1:A4,"lilac")', 0],
  ['_xlfn.MINIFS(B1:B4,A1:A4,"lilac")', 0],
  ['ISNUMBER(_xlfn.MINIFS(B1:B4,A1:A4,"lilac"))', true],
  ['_xlfn.MINIFS(B1:B4,A1:A4,"red")', 10],
  // A text in a cell that spells a number.
  ["SQRT(E1+6)+ROUND(E1,-1)+MOD(E1,4)", 16],
  ["POWER(E1,2)", 100],
  ['SEARCH("b?e","blue bee")', 6],
  ['SEARCH("~?","what?")', 5],
  // Page COMPLEX, page IMPRODUCT.
  ["COMPLEX(3,4)", "3+4i"],
  ['IMPRODUCT("3+4i","5-3i")', "27+11i"],
  ['IMSUM("3+4i","5-3i")', "8+i"],
  ['IMDIV("-238+240i","10+24i")', "5+12i"],
  // Page IRR: -70000, 12000, 15000, 18000, 21000 give -2.1 %.
  ["IRR({-70000,12000,15000,18000,21000})", -0.0212448482734],
  // Pages MIRR, SYD, PDURATION and XNPV.
  ["MIRR({-120000,39000,30000,21000,37000,46000},0.1,0.12)", 0.126094130366],
  ["SYD(30000,7500,10,1)", 4090.909090909091],
  ["SYD(30000,7500,10,0)", "#NUM!"],
  ["_xlfn.PDURATION(0.025,2000,2200)", 3.859866162622647],
  ["_xlfn.PDURATION(-0.2,100,200)", "#NUM!"],
  ["XNPV(0.09,{-10000,2750,4250,3250,2750},{39448,39508,39751,39859,39904})", 2086.6476020315],
  ["XNPV(0.09,A1:B1,C1:C2)", "#NUM!"],
  ["ROUND(DB(1000000,100000,6,7,7),2)", 15845.1],
  // Page ATAN2; no direction, by the same page.
  ["ATAN2(1,1)", Math.PI / 4],
  ["ATAN2(-1,-1)", (-3 * Math.PI) / 4],
  ["ATAN2(0,0)", "#DIV/0!"],
  ["ATAN2(0,1)", Math.PI / 2],
  ["ATAN2(1,0)", 0],
  // Pages CONVERT and TRUNC; an inch is 2.54 cm, a pound 0.45359237 kg, and both scales meet at -40 degrees.
  ['CONVERT(68,"F","C")', 20],
  ['CONVERT(-40,"C","F")', -40],
  ['CONVERT(25,"C","K")', 298.15],
  ['CONVERT(80,"Reau","C")', 100],
  ['CONVERT(491.67,"Rank","C")', 0],
  ['CONVERT(1,"lbm","kg")', 0.45359237],
  ['CONVERT(1,"in","cm")', 2.54],
  ["TRUNC(8.9)", 8],
  ["TRUNC(-8.9)", -8],
  ["TRUNC(2.3,1)", 2.3],
  ["TRUNC(123.456,-1)", 120],
  // Page TIMEVALUE, and what Excel stored for outer spaces.
  ['TIMEVALUE(" 6:35 AM ")', 0.2743055555555556],
  // A table without records, and a field of two cells.
  ["DSUM(A1:B1,2,A1:A2)", "#VALUE!"],
  ["DSUM(A1:B4,B1:C1,A1:A2)", "#VALUE!"],
  ["DSUM(A1:B4,2,A1:A2)", 20],
  // Page FREQUENCY: 79, 85, 78, 85, 50, 81, 95, 88, 97 by 70, 79, 89.
  ["FREQUENCY({79;85;78;85;50;81;95;88;97},{70;79;89})", [[1], [2], [4], [2]]],
  // Page DSUM's kind: rows with "red" in any letter case.
  ['_xlfn.REGEXTEST(A1,"^r")', true],
  ['_xlfn.REGEXEXTRACT("Lonely Hearts","[A-Z][a-z]+",1)', [["Lonely", "Hearts"]]],
  ['_xlfn.REGEXREPLACE("a1b2","[0-9]","#",-1)', "a1b#"],
  ["SMALL(F1:F3,2)", 4],
  ["LARGE(F1:F3,1)", 8],
  ['"two\nlines"&A1', "two\nlinesred"],
  // What is trusted by these cases only.
  ["AGGREGATE(9,6,B1:B4)", 100],
  ["SUM(_xlfn.ANCHORARRAY(G1))", 6],
  ["_xlfn.BYCOL(B1:C4,_xlfn.LAMBDA(_xlpm.c,SUM(_xlpm.c)))", [[100, 16]]],
  ["_xlfn.BYROW(B1:C2,_xlfn.LAMBDA(_xlpm.r,SUM(_xlpm.r)))", [[11], [23]]],
  ["CEILING(2.5,1)+FLOOR(3.7,2)+_xlfn.CEILING.MATH(24.3,5)+_xlfn.FLOOR.MATH(24.3,5)", 3 + 2 + 25 + 20],
  ['CHOOSE(2,"1st","2nd")', "2nd"],
  ["COUNTBLANK(A1:A6)", 2],
  ['DATEDIF(DATE(2001,1,1),DATE(2003,1,1),"y")', 2],
  // Page DATEVALUE.
  ['DATEVALUE("2011/02/23")', 40597],
  [
    "_xlfn.DROP(B1:C4,2)",
    [
      [30, 5],
      [40, 7],
    ],
  ],
  ["EDATE(DATE(2011,1,15),1)-DATE(2011,2,15)", 0],
  ['EXACT("word","Word")', false],
  ["_xlfn._xlws.FILTER(B1:B4,C1:C4>3)", [[30], [40]]],
  ["HLOOKUP(10,B1:C2,2,FALSE)", 20],
  ["HOUR(0.75)+MINUTE(0.5208333334)", 48],
  ["INDEX(B1:C4,2,1)+INT(-8.9)", 11],
  ['IF(B1>5,"more","less")', "more"],
  ["_xlfn.ISOWEEKNUM(DATE(2012,3,9))", 10],
  ["_xlfn.LET(_xlpm.x,5,_xlpm.y,_xlpm.x+1,_xlpm.x*_xlpm.y)", 30],
  ["LOOKUP(4.19,C1:C4,B1:B4)", 20],
  ["_xlfn.MAP(C1:C2,_xlfn.LAMBDA(_xlpm.x,_xlpm.x*_xlpm.x))", [[1], [9]]],
  ['MATCH("BLUE",A1:A4,0)+MATCH(4,C1:C4,1)', 4],
  ["MONTH(DATE(2011,4,15))+YEAR(DATE(2008,7,5))", 2012],
  ["MROUND(10,3)", 9],
  ["NETWORKDAYS(DATE(2012,10,1),DATE(2013,3,1))", 110],
  ["NOT(FALSE)", true],
  ["OFFSET(B1,2,0)", 30],
  // Page PMT: 8 %, 10 months, 10000.
  ["PMT(0.08/12,10,10000)", -1037.03208935915],
  ["RANK(B2,B1:B4)", 3],
  ["_xlfn.REDUCE(0,C1:C4,_xlfn.LAMBDA(_xlpm.a,_xlpm.b,_xlpm.a+_xlpm.b))", 16],
  ['REPLACE("abcdefghijk",6,5,"*")', "abcde*k"],
  ["ROWS(B1:B4)", 4],
  [
    "_xlfn.SEQUENCE(2,2,10,5)",
    [
      [10, 15],
      [20, 25],
    ],
  ],
  ["_xlfn._xlws.SORT(F1:F3,,-1)", [[8], [4], [2]]],
  ["_xlfn.SORTBY(A1:A3,B1:B3,-1)", [["Red"], ["blue"], ["red"]]],
  ['SUBSTITUTE("Sales Data","Sales","Cost")', "Cost Data"],
  ["SUBTOTAL(9,B1:B4)", 100],
  ['SUMPRODUCT((A1:A4="red")*B1:B4)', 40],
  ['_xlfn.SWITCH(2,1,"one",2,"two")', "two"],
  ["_xlfn.TAKE(B1:B4,-1)", 40],
  ['_xlfn.TEXTAFTER("a-b-c","-",2)&_xlfn.TEXTBEFORE("a-b","-")', "ca"],
  ["_xlfn.TOCOL(B1:C2)", [[10], [1], [20], [3]]],
  ["TRANSPOSE(B1:B3)", [[10, 20, 30]]],
  ['TRIM("  first   quarter ")', "first quarter"],
  ["_xlfn.UNIQUE(A1:A4)", [["red"], ["blue"], ["gold"]]],
  ['VLOOKUP("blue",A1:B4,2,FALSE)', 20],
  ["WEEKDAY(DATE(2008,2,14))+WEEKNUM(DATE(2012,3,9))", 15],
  ["WORKDAY(DATE(2008,10,1),151)-DATE(2009,4,30)", 0],
];

async function computed(formula: string): Promise<unknown> {
  engine = new UniverEngine([]);
  const cells = {
    ...CELLS,
    G1: { f: "_xlfn.SEQUENCE(3)", kind: "dynamic" },
    Z20: { f: formula, kind: "dynamic" },
  } as const;
  await engine.load(workbookOf({ Sheet1: cells }));
  const result = await engine.recalculate();
  expect(result.uncomputed).toEqual([]);
  const cell = result.computed.find(({ row, column }) => row === 19 && column === 25);
  const shown = cell?.spilled?.map((row) => row.map(errorText));
  return shown ?? errorText(cell?.value ?? null);
}

it.each(CASES)("%s", async (formula, value) => {
  const found = await computed(formula);
  if (typeof value === "number") expect(found).toBeCloseTo(value, 9);
  else expect(found).toEqual(value);
});

it("has a case for every function that is trusted without a file", () => {
  const translator = new FormulaTranslator({
    sheetNames: ["Sheet1"],
    names: [],
    tables: [],
    lastRow: 99,
    lastColumn: 99,
    knowsFunction: () => true,
  });
  const place = { sheet: 0, row: 19, column: 25 };
  const called = new Set(
    CASES.flatMap(([formula]) => [
      ...translator.translate(formula, place).calls,
      ...(formula.match(/[A-Z][A-Z0-9.]+(?=\()/g) ?? []),
    ]),
  );
  expect(DOCUMENTED_FUNCTIONS.filter((name) => !called.has(name))).toEqual([]);
});
