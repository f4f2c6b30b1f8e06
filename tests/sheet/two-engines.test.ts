import { expect, it } from "vitest";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { workbookOf } from "./workbook-of";

const CELLS = {
  A1: "=_xlfn.LET(_xlpm.x,1,SUM(_xlpm.x,3))",
  A2: "=_xlfn.LAMBDA(_xlpm.x,_xlpm.x*2)(4)",
  A3: "=SUM(_xlfn.MAP(B1:B3,_xlfn.LAMBDA(_xlpm.v,_xlpm.v+1)))",
  A4: "=SUM(B1:B3)",
};

async function results(engine: UniverEngine): Promise<readonly unknown[]> {
  const { uncomputed } = await engine.recalculate();
  expect(uncomputed).toEqual([]);
  return [0, 1, 2, 3].map((row) => engine.value({ sheet: 0, row, column: 0 }));
}

it("give right results side by side in one process, each on its own cells", async () => {
  const [one, two] = [new UniverEngine([]), new UniverEngine([])];
  await one.load(workbookOf({ S: { ...CELLS, B1: 1, B2: 2, B3: 3 } }));
  await two.load(workbookOf({ S: { ...CELLS, B1: 10, B2: 20, B3: 30 } }));
  const both = await Promise.all([results(one), results(two)]);
  expect(both).toEqual([
    [4, 8, 9, 6],
    [4, 8, 63, 60],
  ]);
  await one.setCell({ sheet: 0, row: 0, column: 1 }, 5);
  two.dispose();
  expect(await results(one)).toEqual([4, 8, 13, 10]);
  one.dispose();
});
