import { expect, it } from "vitest";
import { UniverEngine } from "../../src/sheet/univer-engine";
import type { TypedInput } from "../../src/sheet/engine";
import { workbookOf } from "./workbook-of";

it("follows a formula that stands for itself and one that others share, as long as each is there", async () => {
  const engine = new UniverEngine([]);
  // ROW asks where its reference stands, so that no other cell has the same formula: Microsoft support, ROW.
  await engine.load(workbookOf({ S: { A2: 1, D1: "=ROW(A2)+A2", D2: "=A2*2", D3: "=A3*2" } }));
  await engine.recalculate();
  const type = async (row: number, column: number, input: TypedInput): Promise<readonly number[]> => {
    await engine.setCell({ sheet: 0, row, column }, input);
    const { computed, uncomputed } = await engine.recalculate();
    return [...computed, ...uncomputed].map((cell) => cell.row + 1).sort((a, b) => a - b);
  };
  const value = (row: number): unknown => engine.value({ sheet: 0, row: row - 1, column: 3 });
  expect(await type(1, 0, 5)).toEqual([1, 2]);
  expect([value(1), value(2)]).toEqual([7, 10]);
  expect(await type(0, 3, 8)).toEqual([]);
  expect(await type(1, 3, 9)).toEqual([]);
  expect(await type(1, 0, 6)).toEqual([]);
  expect([value(1), value(2)]).toEqual([8, 9]);
  expect(await type(0, 3, { formula: "=ROW(A3)+A2" })).toEqual([1]);
  expect(await type(1, 3, { formula: "=A2*2" })).toEqual([2]);
  expect(await type(1, 0, 7)).toEqual([1, 2]);
  expect([value(1), value(2)]).toEqual([10, 14]);
  engine.dispose();
});
