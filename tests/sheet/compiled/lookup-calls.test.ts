import { expect, it } from "vitest";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { errorText, workbookOf } from "../workbook-of";
import { LEFT_FORMULAS } from "./left-formulas";
import { LEFT, quickly } from "./quickly";

// Microsoft's pages of the functions, over the cells of `SHEETS`.
it.each([
  ['VLOOKUP("blue",A1:C4,2,FALSE)', 20],
  ['VLOOKUP("BLUE",A1:C4,3,FALSE)', 3],
  ['VLOOKUP("Red",A1:C4,3,FALSE)', 1],
  ['VLOOKUP("x",A1:C4,2,FALSE)', "#N/A"],
  ["VLOOKUP(20,B1:C4,2,FALSE)", 3],
  ['VLOOKUP("blue",A$1:C$4,2,FALSE)+VLOOKUP("gold",A$1:C$4,2,FALSE)', 60],
  ['VLOOKUP("20",B1:C4,2,FALSE)', "#N/A"],
  ["VLOOKUP(20,B1:C4,2,0)", 3],
  ["VLOOKUP(20,B1:C4,2.9,FALSE)", 3],
  ['VLOOKUP(20,B1:C4,"2",FALSE)', 3],
  ["VLOOKUP(20,B1:C4,TRUE,FALSE)", 20],
  // A match is exact where only the comma of the last argument stands there, and near where it is not there at all.
  ["VLOOKUP(25,B1:C4,2,)", "#N/A"],
  ["VLOOKUP(25,B1:C4,2)", 3],
  ["VLOOKUP(25,B1:C4,2,TRUE)", 3],
  ["VLOOKUP(25,B1:C4,2,1)", 3],
  ["VLOOKUP(99,B1:C4,2)", 7],
  ["VLOOKUP(10,B1:C4,2)", 1],
  ["VLOOKUP(5,B1:C4,2)", "#N/A"],
  ["VLOOKUP(20,B1:C4,0,FALSE)", "#VALUE!"],
  ["VLOOKUP(20,B1:C4,0.9,FALSE)", "#VALUE!"],
  ["VLOOKUP(20,B1:C4,-1,FALSE)", "#VALUE!"],
  ["VLOOKUP(20,B1:C4,3,FALSE)", "#REF!"],
  ['VLOOKUP(20,B1:C4,"x",FALSE)', "#VALUE!"],
  ["VLOOKUP(20,B1:C4,E2,FALSE)", "#N/A"],
  ["VLOOKUP(E1,B1:C4,2,FALSE)", "#DIV/0!"],
  ['VLOOKUP("blue",A2:A4,1,FALSE)', "blue"],
  ["VLOOKUP(\"blue\",'Price list'!A:B,2,FALSE)", 0.2],
  // Values of other kinds never match: a typing mistake must not find the first price.
  ['VLOOKUP("x",B1:C4,2)', "#N/A"],
  ['VLOOKUP("20",B1:C4,2)', "#N/A"],
  ["VLOOKUP(TRUE,B1:C4,2)", "#N/A"],
  ["VLOOKUP(5,A1:B4,2)", "#N/A"],
  ['MATCH("x",B1:B4)', "#N/A"],
  ["MATCH(7,M8:M9)", "#N/A"],
  ["MATCH(20,B1:B4,0)", 2],
  ["MATCH(20,B2:B4,0)", 1],
  ["MATCH(30,B1:B2,0)", "#N/A"],
  ["MATCH(30,B:B,0)", 3],
  ["MATCH(20,B1:B4,)", 2],
  ["MATCH(25,B1:B4)", 2],
  ["MATCH(25,B1:B4,1)", 2],
  ["MATCH(25,B2:B4)", 1],
  ["MATCH(15,B2:B4)", "#N/A"],
  ["MATCH(99,B1:B2)", 2],
  ["MATCH(99,B1:B9)", 4],
  ["MATCH(35,B:B)", 3],
  // Of equal values the last one is found: page MATCH says the largest value that is not above.
  ["MATCH(10,N1:N5)", 2],
  ["MATCH(15,N1:N5)", 2],
  ["MATCH(20,N1:N5)", 4],
  ["MATCH(10,N1:N5,0)", 1],
  ["MATCH(20,N1:N5,0)", 3],
  ["MATCH(TRUE,D1:D5,0)", 2],
  ["MATCH(FALSE,D1:D5,0)", 5],
  ['MATCH("X",D1:D5,0)', 1],
  ["MATCH(2,D1:D5,0)", 4],
  ['MATCH("2",D1:D5,0)', "#N/A"],
  ["MATCH(1,D1:D5,0)", "#N/A"],
  ['MATCH("#N/A",E1:E3,0)', "#N/A"],
  ["MATCH(4,E1:E3,0)", 3],
  ['MATCH("c",H1:K1,0)', 3],
  ['MATCH("A",H1:K1,0)', 1],
  ['MATCH("A",I1:K1,0)', 3],
  ['MATCH("z",H1:K1,0)', "#N/A"],
  ["MATCH(4,H2:K2,0)", 4],
  ["MATCH(4,H2:J2,0)", "#N/A"],
  ["MATCH(4,H2:XFD2,0)", 4],
  ['MATCH("q",H2:XFD2,0)', "#N/A"],
  ["MATCH(E1,B1:B4,0)", "#DIV/0!"],
  ['_xlfn.XLOOKUP("blue",A1:A4,B1:B4)', 20],
  ['_xlfn.XLOOKUP("RED",A1:A4,B1:B4)', 10],
  ['_xlfn.XLOOKUP("x",A1:A4,B1:B4)', "#N/A"],
  ['_xlfn.XLOOKUP("x",A1:A4,B1:B4,"none")', "none"],
  ['_xlfn.XLOOKUP("blue",A1:A4,B1:B4,"none")', 20],
  ['_xlfn.XLOOKUP("x",A1:A4,B1:B4,0)', 0],
  ['_xlfn.XLOOKUP("x",A1:A4,B1:B4,E1)', "#DIV/0!"],
  ['_xlfn.XLOOKUP(E1,A1:A4,B1:B4,"none")', "#DIV/0!"],
  ["_xlfn.XLOOKUP(20,B2:B4,A2:A4)", "blue"],
  ['_xlfn.XLOOKUP("gold",A1:A4,D1:D4)', 2],
  ['_xlfn.XLOOKUP("Red",A2:A4,D2:D4)', 0],
  ["INDEX(B1:B4,2)", 20],
  ["INDEX(B1:B4,4)", 40],
  ["INDEX(B1:B4,2.9)", 20],
  ["INDEX(B1:B4,2,1)", 20],
  ["INDEX(B1:C4,2,2)", 3],
  ["INDEX(B1:C4,2.9,1.9)", 20],
  ["INDEX(B1:C4,4,2)", 7],
  ["INDEX(H2:K2,3)", 3],
  ["INDEX(H2:K2,4)", 4],
  ["INDEX(H2:K2,1,3)", 3],
  ["INDEX(B1,1)", 10],
  ["INDEX(IF(TRUE,B1:B4),2)", 20],
  ["SUM(INDEX(A1:A6,6),1)", 1],
  ["INDEX(B1:B4,5)", "#REF!"],
  ["INDEX(B1:B4,1,2)", "#REF!"],
  ["INDEX(B1:C4,1,3)", "#REF!"],
  ["INDEX(B1:C4,5,1)", "#REF!"],
  ["INDEX(H2:K2,5)", "#REF!"],
  ["INDEX(B1:B4,E1)", "#DIV/0!"],
  ["INDEX(B1:C4,1,E2)", "#N/A"],
  ["INDEX(B1:C4,E1,E2)", "#DIV/0!"],
  ['INDEX(B1:B4,MATCH("gold",A1:A4,0))', 40],
])("%s is %j", async (formula, value) => {
  expect(await quickly(formula)).toBe(value);
});

// Texts are alike in any case, but not by their capitals alone: "ß" has none of its own.
it("tells a text from one that only shares its capitals", async () => {
  const cells = { S: { A1: "ss", A2: "STRASSE", A3: "stra\u00dfe", B1: 1, B2: 2, B3: 3 } };
  expect(await quickly('MATCH("Stra\u00dfe",A1:A3,0)', cells)).toBe(3);
});

it("finds a value that was typed after the first look, and none that was taken away", async () => {
  const engine = new UniverEngine([]);
  const cells = { A1: "red", A2: "blue", A3: "gold", B1: 1, B2: 2, B3: 3 };
  await engine.load(
    workbookOf({
      S: { ...cells, D1: '=MATCH("blue",A1:A3,0)', D2: "=MATCH(2.5,B1:B3)", D3: '=MATCH("blue",A2:A3,0)' },
    }),
  );
  const type = async (row: number, column: number, value: string | number | null): Promise<unknown[]> => {
    await engine.setCell({ sheet: 0, row, column }, value);
    await engine.recalculate();
    return [0, 1, 2].map((at) => errorText(engine.value({ sheet: 0, row: at, column: 3 })));
  };
  await engine.recalculate();
  expect(await type(4, 4, 0)).toEqual([2, 2, 1]);
  expect(await type(0, 0, "Blue")).toEqual([1, 2, 1]);
  expect(await type(1, 0, "pink")).toEqual([1, 2, "#N/A"]);
  expect(await type(0, 0, null)).toEqual(["#N/A", 2, "#N/A"]);
  expect(await type(2, 1, 2.25)).toEqual(["#N/A", 3, "#N/A"]);
  engine.dispose();
});

it.each(LEFT_FORMULAS.lookup)("%s is left to Univer", async (formula) => {
  expect(await quickly(formula)).toBe(LEFT);
});
