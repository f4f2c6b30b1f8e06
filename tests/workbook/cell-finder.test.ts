import fc from "fast-check";
import { expect, it } from "vitest";
import { cellFinder } from "../../src/workbook/cell-finder";
import type { WorkbookCell, WorkbookModel } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import { tinyWorkbook } from "./tiny-package";

const CELLS = fc
  .uniqueArray(fc.tuple(fc.nat(6), fc.nat(6)), { selector: ([row, column]) => row * 10 + column })
  .map((places) => places.map(([row, column], value): WorkbookCell => ({ row, column, value, style: 0 })));

it("finds every cell and no other, whatever order a file has", () => {
  const { model } = openWorkbook(tinyWorkbook());
  fc.assert(
    fc.property(CELLS, fc.boolean(), (given, isOrdered) => {
      const cells = isOrdered ? given.toSorted((a, b) => a.row - b.row || a.column - b.column) : given;
      const sheets: WorkbookModel["sheets"] = model.sheets.map((sheet) => ({ ...sheet, cells }));
      const find = cellFinder({ sheets });
      for (let row = 0; row < 8; row++) {
        for (let column = 0; column < 8; column++)
          expect(find(0, row, column)).toBe(cells.find((cell) => cell.row === row && cell.column === column));
      }
      expect(find(1, 0, 0)).toBeUndefined();
    }),
  );
});
