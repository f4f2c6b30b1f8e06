import { afterEach, expect, it } from "vitest";
import { corrections } from "../../src/sheet/corrections";
import { UniverFormulas } from "../../src/sheet/univer-formulas";
import { readerOf, workbookOf } from "./workbook-of";

const CELLS: Readonly<Record<string, string | number | boolean | { readonly error: string }>> = {
  A1: "red",
  A2: "Red",
  A3: "x",
  B1: 3,
  B2: 1,
  B3: 2,
  C1: "10",
  C2: true,
  D1: "name",
  D2: "red",
  F1: "name",
  F2: "re",
  E1: "5",
  E2: 7,
  B4: { error: "#NUM!" },
};

/** For each correction, by its first function: a formula and what it must give (`documented-values.test.ts` has the sources). */
const CASES: Readonly<Record<string, readonly [formula: string, value: unknown]>> = {
  SORT: ["SORT({#N/A;#DIV/0!;1})", [1, "#DIV/0!", "#N/A"]],
  COUNTIF: ['COUNTIF(A1:A5,"<=")', [0]],
  GEOMEAN: ["GEOMEAN(C1:C2,4,9)", [6]],
  IMCONJUGATE: ['IMCONJUGATE("1+i")', ["1-i"]],
  COMPLEX: ["COMPLEX(5,0)", ["5"]],
  IMSUM: ['IMSUM("1+i","4-i")', ["5"]],
  CONCATENATE: ['(1/3)&" m"', ["0.333333333333333 m"]],
  AND: ['AND("TRUE")', [true]],
  IF: ['IF("x",1,2)', ["#VALUE!"]],
  AVERAGE: ["AVERAGE(A4:B4,1)", ["#NUM!"]],
  MATCH: ["MATCH(5,B1:B3,)", ["#N/A"]],
  VLOOKUP: ["VLOOKUP(TRUE,B1:C3,1)", ["#N/A"]],
  XMATCH: ['XMATCH("r.d",A1:A2,3)', [1]],
  XLOOKUP: ['XLOOKUP("r.d",A1:A2,B1:B2,,3)', [3]],
  DSUM: ["DSUM(D1:E2,2,F1:F2)", [7]],
  IRR: ["IRR({-2,1})", [-0.5]],
  MIRR: ["MIRR({-5,-3},0.1,0.2)", [-1]],
  XNPV: ["XNPV(0.1,A1:B1,E1:E2)", ["#NUM!"]],
  DB: ["DB(0,10,4,1)", [0]],
  SYD: ["SYD(290,2,5,0)", ["#NUM!"]],
  PDURATION: ["PDURATION(-0.2,100,200)", ["#NUM!"]],
  ATAN2: ["ATAN2(FALSE,FALSE)", ["#DIV/0!"]],
  TIMEVALUE: ['TIMEVALUE(" 1:30 ")', [0.0625]],
  FREQUENCY: ["SUM(FREQUENCY(E1:E2,{9}))", [1]],
  SMALL: ['SMALL("3.4",1)', [3.4]],
  UNIQUE: ["UNIQUE(A1:A2)", ["red"]],
  DATE: ["DATE(9999,13,1)", ["#NUM!"]],
  IFERROR: ["IFERROR({1;2;3;4}/{0;0;0;0},{7;8})", [7, 8, "#N/A", "#N/A"]],
  VALUE: ['VALUE("2/3/2023")', "refused"],
  LINEST: ["ROUND(INDEX(LINEST({3;5;8},{1;2;3},,TRUE),1,2),4)", [0.3333]],
  ACOT: ["ROUND(ACOT(C1),6)", [0.099669]],
  TEXT: ['TEXT(-1,"dd/mm/yyyy")', ["#VALUE!"]],
  SUMPRODUCT: ["SUMPRODUCT({1;2},{1,2;3,4})", ["#VALUE!"]],
  ADDRESS: ["ADDRESS(0,3)", ["#VALUE!"]],
  CELL: ['CELL("hello")', ["#VALUE!"]],
  PROPER: ["PROPER(Z9)", [""]],
  VALUETOTEXT: ["ISTEXT(VALUETOTEXT(5))", [true]],
  TEXTSPLIT: ['ISTEXT(INDEX(TEXTSPLIT("1,2",","),2))', [true]],
  SEARCH: ['SEARCH("r?d","a red")', [3]],
  TRUNC: ["TRUNC(-7)", [-7]],
  EDATE: ["EDATE(46053,1)", [46081]],
  EOMONTH: ["EOMONTH(46037,-1.9)", [46022]],
  ISOWEEKNUM: ["ISOWEEKNUM(36584)", [9]],
  WEEKNUM: ["WEEKNUM(36584,21)", [9]],
  "WORKDAY.INTL": ['WORKDAY.INTL(46192,1,"17")', ["#VALUE!"]],
  "NETWORKDAYS.INTL": ['NETWORKDAYS.INTL(46192,46194,"17")', ["#VALUE!"]],
  CONVERT: ['CONVERT(100.001,"C","K")', [373.151]],
  SEQUENCE: ["SEQUENCE(1000000,1000)", "refused"],
};

let univer: UniverFormulas | undefined;
afterEach(() => {
  univer?.dispose();
});

async function evaluate(
  formula: string,
  without?: (functions: readonly string[]) => boolean,
): Promise<unknown> {
  univer = new UniverFormulas(
    workbookOf({ S: {} }),
    [],
    readerOf(CELLS),
    (correction) => "functions" in correction && without?.(correction.functions) === true,
  );
  try {
    const { rows } = await univer.evaluate(
      { texts: [formula], addresses: [] },
      { sheet: 0, row: 30, column: 30 },
      { budget: 300 },
    );
    return rows
      .flat()
      .map((value) => (typeof value === "object" ? (value?.error ?? null) : value))
      .map((value) => (typeof value === "number" ? Number(value.toPrecision(12)) : value));
  } catch {
    return "refused";
  }
}

const table = corrections(() => 0);

it("has a case for each correction", () => {
  expect(
    table.map(({ functions }) => functions[0] ?? "").filter((name) => !Object.hasOwn(CASES, name)),
  ).toEqual([]);
});

it.each(table.map((correction) => [correction.functions[0] ?? "", correction] as const))(
  "%s is right with its correction and wrong without",
  async (name, correction) => {
    const [formula, value] = CASES[name] ?? ["", undefined];
    expect(await evaluate(formula)).toEqual(value);
    univer?.dispose();
    expect(await evaluate(formula, (functions) => functions[0] === correction.functions[0])).not.toEqual(
      value,
    );
  },
);
