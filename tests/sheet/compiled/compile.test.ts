import { expect, it } from "vitest";
import { LEFT_FORMULAS } from "./left-formulas";
import { LEFT, quickly } from "./quickly";

// Microsoft's page "Calculation operators and precedence in Excel", over the cells of `SHEETS`; the order of values of
// several kinds is numbers, texts, FALSE, TRUE.
it.each([
  ["1+2*3", 7],
  ["(1+2)*3", 9],
  ["2*(3+4)*5", 70],
  ["10-4-3", 3],
  ["100/5/2", 10],
  ["8/4*2", 4],
  ["2+3-4", 1],
  ["2^3^2", 64],
  ["2*3^2", 18],
  ["-2^2", 4],
  ["2^-1", 0.5],
  ["3--2", 5],
  ["--3", 3],
  ["-+-3", 3],
  ["+A1", "red"],
  ["-A6", -5],
  ["-0", 0],
  ["-A1", "#VALUE!"],
  ["-E1", "#DIV/0!"],
  ["50%", 0.5],
  ["200*5%", 10],
  ["5%%", 0.0005],
  ["A6%", 0.05],
  ["E2%", "#N/A"],
  ["1/0", "#DIV/0!"],
  ["0/5", 0],
  ["0^0", "#NUM!"],
  ["0^-1", "#DIV/0!"],
  ["0^2", 0],
  ["4^0.5", 2],
  ["(-8)^0.5", "#NUM!"],
  ["1E300*1E300", "#NUM!"],
  ["1E200^2", "#NUM!"],
  ["-1E308-1E308", "#NUM!"],
  ["TRUE+TRUE", 2],
  ["TRUE*5", 5],
  ["FALSE+1", 1],
  ["A5+1", 1],
  ['"5"+1', 6],
  ['"2.5"*"2"', 5],
  ['"-3"+1', -2],
  ['"+3"+1', 4],
  ['".5"+1', 1.5],
  ['"x"+1', "#VALUE!"],
  ['"123456789012345"+1', 123456789012346],
  ['123456789012345&""', "123456789012345"],
  ['-1234.5678901&""', "-1234.5678901"],
  ['1234567890123.5&""', "1234567890123.5"],
  ["E1+E2", "#DIV/0!"],
  ["E2+E1", "#N/A"],
  ["1+E2", "#N/A"],
  ["A1&A2", "redblue"],
  ["1&2+3", "15"],
  ['"a"&TRUE&FALSE', "aTRUEFALSE"],
  ['A5&"x"', "x"],
  ["1.5&-2", "1.5-2"],
  ["E1&A1", "#DIV/0!"],
  ["A1&E2", "#N/A"],
  ["1=1", true],
  ["1=2", false],
  ["1<>2", true],
  ["1<>1", false],
  ["1<2", true],
  ["2<2", false],
  ["2>1", true],
  ["2>2", false],
  ["2<=2", true],
  ["3<=2", false],
  ["2>=2", true],
  ["1>=2", false],
  ["1=1=TRUE", true],
  ['"a"="A"', true],
  ['"a"<"B"', true],
  ['"b"<"A"', false],
  ['"b">"A"', true],
  ['1<"a"', true],
  ['"a">99', true],
  ['"z"<FALSE', true],
  ["FALSE<TRUE", true],
  ["TRUE>99", true],
  ["1=TRUE", false],
  ['"TRUE"=TRUE', false],
  ['"5"=5', false],
  ["A5=0", true],
  ['A5=""', true],
  ["A5=FALSE", true],
  ["A5=TRUE", false],
  ["A5=A9", true],
  ["0=A5", true],
  ['""=A5', true],
  ["A5<1", true],
  ['A5<"a"', true],
  ["A5<D2", true],
  ["E1=1", "#DIV/0!"],
  ["1=E2", "#N/A"],
  ["E2=E1", "#N/A"],
  ['"Gold 11"="gold 11"', true],
  ['"Gold 11"<"gold 12"', true],
  ["B1", 10],
  ["A5", 0],
  ["$B$2", 20],
  ["'Price list'!C1*2", 14],
  ["Z2", 0],
  ["XFD1048576", 0],
])("%s is %j", async (formula, value) => {
  expect(await quickly(formula)).toBe(value);
});

// A range where one value is wanted, and a reference that leaves the sheet.
it.each([
  "B1:B4",
  "B1:C1",
  "A9:A10",
  "IF(TRUE,B1:B4)",
  "IF(TRUE,B1:C1)",
  "IF(TRUE,B1:B4)+1",
  "IF(TRUE,B1:C1)+1",
  "B1:B4+1",
  "{1,2}",
  "SUM({1,2})",
  "SIN(1)",
  "_xlfn.TEXTJOIN(B1:B4)",
])("%s is left to Univer", async (formula) => {
  expect(await quickly(formula)).toBe(LEFT);
});

it.each(LEFT_FORMULAS.operators)("%s is left to Univer", async (formula) => {
  expect(await quickly(formula)).toBe(LEFT);
});

it("computes what a formula reads first, in cells, ranges and branches that are taken", async () => {
  const cells = {
    S: {
      A1: "=A2+1", A2: "=B9*2", A3: 5, B9: "=IF(A3>4,A3,A4)", A4: "=A4", C1: "=SUM(A1:A3)", C2: "=COUNTIF(A1:A3,\">5\")",
      C3: "=SUMIF(A1:A3,10,B9:B11)", C4: "=MATCH(10,A1:A3,0)", C5: "=MATCH(10,B9:B9)", C6: "=INDEX(A1:A3,1)",
      C7: "=SUMPRODUCT(A1:A3,A1:A3)", C8: "=AND(A1:A3)", C9: "=A1&\"\"",
    },
  }; // prettier-ignore
  expect(await quickly("SUM(C1:C7)", cells)).toBe(26 + 2 + 0 + 2 + 1 + 11 + 121 + 100 + 25);
  expect(await quickly("C8", cells)).toBe(true);
  expect(await quickly("C9", cells)).toBe("11");
});

// Microsoft support, Excel specifications and limits: a cell holds 32,767 characters.
it("joins no text that is longer than a cell holds", async () => {
  const cells = { S: { A1: "x".repeat(32_766), A2: "y" } };
  expect(String(await quickly("A1&A2", cells)).length).toBe(32_767);
  expect(await quickly('A1&A2&"z"', cells)).toBe("#VALUE!");
});

it("computes no formula over more cells than one may read, blank ones beyond the part in use aside", async () => {
  const cells = { S: { A1: 1 }, T: { A1: 7, XFD200: 1 } };
  // 16,384 columns of 128 rows are the most.
  expect(await quickly("INDEX(T!A1:XFD128,1,1)", cells)).toBe(7);
  expect(await quickly("INDEX(T!A$1:XFD$128,1,1)", cells)).toBe(7);
  expect(await quickly("INDEX(T!A1:XFD129,1,1)", cells)).toBe(LEFT);
  expect(await quickly("INDEX(T!$A$1:$XFD$129,1,1)", cells)).toBe(LEFT);
  expect(await quickly("INDEX(T!$A$1:$XFD$1048576,1,1)", { S: { A1: 1 }, T: { A1: 7 } })).toBe(7);
  expect(await quickly("INDEX(T!$A$900000:$XFD$1048576,1,1)", cells)).toBe(0);
});
