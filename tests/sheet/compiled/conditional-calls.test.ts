import { expect, it } from "vitest";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { errorText, type TestCell, workbookOf } from "../workbook-of";
import { LEFT_FORMULAS } from "./left-formulas";
import { LEFT, quickly } from "./quickly";

// Microsoft's pages of the functions, over the cells of `SHEETS`.
it.each([
  ['COUNTIF(A1:A4,"red")', 2],
  ['COUNTIF(B1:B4,">=20")', 3],
  ['COUNTIF(B1:B4,">20")', 2],
  ['COUNTIF(B1:B4,"<20")', 1],
  ['COUNTIF(B1:B4,"<=20")', 2],
  ['COUNTIF(B1:B4,"<>20")', 3],
  ["COUNTIF(B1:B4,20)", 1],
  ['COUNTIF(B1:B4,">"&B2)', 2],
  ["COUNTIF(D1:D5,TRUE)", 1],
  ["COUNTIF(D1:D5,A5)", 0],
  ["COUNTIF(N1:N5,10)", 2],
  ["COUNTIF(E1:E3,E1)", 1],
  ['COUNTIF(E1:E3,"#N/A")', 1],
  ['COUNTIF(A1:A6,"<>red")', 4],
  ['COUNTIF(A1:A4,"r*")', 2],
  // Blank cells count where the condition fits them, down to the last row of the sheet.
  ['COUNTIF(B1:B9,"")', 5],
  ['COUNTIF(B1:C9,"")', 10],
  ['COUNTIF(B:B,"")', 1_048_572],
  ['COUNTIF(B:C,"")', 2 * 1_048_572],
  ['COUNTIF(B:B,">15")', 3],
  ['COUNTIFS(A1:A4,"red",B1:B4,">10")', 1],
  ['COUNTIFS(A1:A9,"",B1:B9,"")', 2],
  ['COUNTIFS(B1:B9,"",A1:A9,"")', 2],
  ['COUNTIFS(B1:B9,"",A1:A9,"<>")', 3],
  ['COUNTIFS(H1:K1,"a",H2:K2,">1")', 1],
  ['COUNTIF(B1:C4,">6")', 5],
  ['SUMIF(A1:A4,"red",B1:B4)', 40],
  ['SUMIF(B1:B4,">15")', 90],
  ['SUMIF(A1:A4,"lilac",B1:B4)', 0],
  ['SUMIF(H1:K1,"a",H2:K2)', 5],
  ['SUMIF(B1:C4,">6")', 107],
  ['SUMIF(B1:C2,">2",B3:C4)', 30 + 40 + 7],
  ['SUMIF(B1:B4,">15",A1:A4)', 0],
  ['SUMIF(B1:B3,">0",E1:E3)', "#DIV/0!"],
  ['SUMIF(B1:B3,">15",E1:E3)', "#N/A"],
  ["SUMIF(B1:B3,30,E1:E3)", 4],
  ['SUMIF(L1:L4,">0")', "#NUM!"],
  ['SUMIF(B1:B9,"",C1:C9)', 0],
  ['SUMIF(A1:A9,"",N1:N9)', 30],
  ['AVERAGEIF(A1:A4,"red",B1:B4)', 20],
  ['AVERAGEIF(B1:B4,">15")', 30],
  ['AVERAGEIF(A1:A4,"lilac",B1:B4)', "#DIV/0!"],
  ['SUMIFS(B1:B4,A1:A4,"red",C1:C4,">1")', 30],
  ['SUMIFS(B1:B4,C1:C4,">1",C1:C4,"<7")', 50],
  ['SUMIFS(N1:N9,A1:A9,"")', 30],
  ['AVERAGEIFS(B1:B4,C1:C4,">1",C1:C4,"<7")', 25],
  ['AVERAGEIFS(B1:B4,A1:A4,"lilac")', "#DIV/0!"],
  ['_xlfn.MAXIFS(B1:B4,A1:A4,"red")', 30],
  ['_xlfn.MINIFS(B1:B4,A1:A4,"red")', 10],
  ['_xlfn.MAXIFS(F1:F3,B1:B3,">10")', 20],
  ['_xlfn.MINIFS(F1:F3,B1:B3,"<30")', 20],
  ['_xlfn.MAXIFS(L1:L4,L1:L4,"<0")', -1e308],
  // Page MAXIFS: 0 where nothing fits.
  ['_xlfn.MAXIFS(B1:B4,A1:A4,"lilac")', 0],
  ['_xlfn.MINIFS(B1:B4,A1:A4,"lilac")', 0],
  ["COUNTIF('Price list'!A:A,A1)", 1],
])("%s is %j", async (formula, value) => {
  expect(await quickly(formula)).toBe(value);
});

it.each(LEFT_FORMULAS.conditional)("%s is left to Univer", async (formula) => {
  expect(await quickly(formula)).toBe(LEFT);
});

/** The values of column D, from the top, after each of some inputs. */
async function afterInputs(
  cells: Readonly<Record<string, TestCell>>,
  inputs: readonly (readonly [row: number, column: number, value: string | number | null])[],
): Promise<readonly (readonly unknown[])[]> {
  const engine = new UniverEngine([]);
  await engine.load(workbookOf({ S: cells }));
  const rows = Object.keys(cells).filter((address) => address.startsWith("D")).length;
  const shown: unknown[][] = [];
  for (const input of [undefined, ...inputs]) {
    if (input !== undefined) await engine.setCell({ sheet: 0, row: input[0], column: input[1] }, input[2]);
    await engine.recalculate();
    shown.push(
      Array.from({ length: rows }, (_, row) => errorText(engine.value({ sheet: 0, row, column: 3 }))),
    );
  }
  engine.dispose();
  return shown;
}

const LIST = { A1: "red", A2: "blue", A3: "red", A4: "gold", B1: 1, B2: 2, B3: 4, B4: 8 };

it("gives each cell of a filled formula its own condition, and the same again at once", async () => {
  const cells = Object.fromEntries([1, 2, 3, 4].map((row) => [`D${row}`, `=SUMIF(A$1:A$4,A${row},B$1:B$4)`]));
  expect(
    await afterInputs({ ...LIST, ...cells }, [
      [1, 1, 20],
      [1, 0, "gold"],
      [0, 1, null],
      [5, 5, 1],
    ]),
  ).toEqual([
    [5, 2, 5, 8],
    [5, 20, 5, 8],
    [5, 28, 5, 28],
    [4, 28, 4, 28],
    [4, 28, 4, 28],
  ]);
});

it("tells conditions of several kinds apart, and pairs of them", async () => {
  const cells = {
    A1: 1, A2: true, A3: "ab", A4: "a", A5: { error: "#N/A" }, B1: "x", B2: "x", B3: "c", B4: "bc", B5: 5,
    C1: 1, C2: true, C3: { error: "#N/A" }, C4: "ab", C5: "a",
    D1: "=COUNTIF(A$1:A$5,C1)", D2: "=COUNTIF(A$1:A$5,C2)", D3: "=COUNTIF(A$1:A$5,C3)",
    D4: "=COUNTIFS(A$1:A$5,C4,B$1:B$5,\"c\")", D5: "=COUNTIFS(A$1:A$5,C5,B$1:B$5,\"c\")",
  }; // prettier-ignore
  expect(await afterInputs(cells, [])).toEqual([[1, 1, 1, 1, 0]]);
});

it("follows areas that move with the formula", async () => {
  const cells = Object.fromEntries(
    [1, 2, 3].map((row) => [`D${row}`, `=SUMIF(A${row}:A4,"red",B${row}:B4)`]),
  );
  expect(await afterInputs({ ...LIST, ...cells }, [[2, 0, "blue"]])).toEqual([
    [5, 4, 4],
    [1, 0, 0],
  ]);
});
