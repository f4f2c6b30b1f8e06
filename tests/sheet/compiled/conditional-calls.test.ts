import { expect, it } from "vitest";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { errorText, type TestCell, workbookOf } from "../workbook-of";
import { CONDITIONAL_CASES } from "./call-cases";
import { LEFT_FORMULAS } from "./left-formulas";
import { LEFT, quickly } from "./quickly";

it.each(CONDITIONAL_CASES)("%s is %j", async (formula, value) => {
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
