import { expect, it } from "vitest";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { workbookOf } from "./workbook-of";

it.each([
  ["by Univer alone", { fast: false }],
  ["as it comes", {}],
])(
  "gives each of the formulas that share a parsed form the cells that it names itself, %s",
  async (_, how) => {
    const engine = new UniverEngine([], how);
    const rows = [1, 2, 3, 4, 5];
    const cells = rows.flatMap((row): [string, string | number][] => [
      [`A${row}`, row * row],
      [`B${row}`, `=SUM(A$1:A${row})`],
      [`C${row}`, `=-A${row}%*'Price list'!$B${row}`],
      [`D${row}`, `=IF(A${row}>4,SUM('Price list'!A$1:B${row}),A${row})`],
      [`E${row}`, `=_xlfn.LET(_xlpm.x,A${row},_xlpm.x+SUM(A${row}:A$5))`],
      [`F${row}`, `=SUM(_xlfn.MAP(A$1:A${row},_xlfn.LAMBDA(_xlpm.v,_xlpm.v+A${row})))`],
      [`G${row}`, `=ROW()*100+COLUMN()+ROWS(A$1:A${row})`],
      [`H${row}`, `=SUM(OFFSET(A${row},0,0,1,1),INDEX(A$1:A$5,${row}):A${row})`],
    ]);
    const list = rows.flatMap((row): [string, number][] => [
      [`A${row}`, 10 * row],
      [`B${row}`, row],
    ]);
    await engine.load(workbookOf({ S: Object.fromEntries(cells), "Price list": Object.fromEntries(list) }));
    const { uncomputed } = await engine.recalculate();
    expect(uncomputed).toEqual([]);
    const square = (row: number): number => row * row;
    const sum = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
    for (const row of rows) {
      const [upTo, onFrom] = [rows.slice(0, row), rows.slice(row - 1)];
      const found = [1, 2, 3, 4, 5, 6, 7].map((column) => engine.value({ sheet: 0, row: row - 1, column }));
      expect(found).toEqual([
        sum(upTo.map(square)),
        (-square(row) / 100) * row,
        square(row) > 4 ? sum(upTo.map((at) => 11 * at)) : square(row),
        square(row) + sum(onFrom.map(square)),
        sum(upTo.map(square)) + row * square(row),
        row * 100 + 7 + row,
        2 * square(row),
      ]);
    }
    engine.dispose();
  },
);
