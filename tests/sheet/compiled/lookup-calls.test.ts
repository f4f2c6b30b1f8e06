import { expect, it } from "vitest";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { errorText, workbookOf } from "../workbook-of";
import { LOOKUP_CASES } from "./lookup-cases";
import { LEFT_FORMULAS } from "./left-formulas";
import { LEFT, quickly } from "./quickly";

it.each(LOOKUP_CASES)("%s is %j", async (formula, value) => {
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
