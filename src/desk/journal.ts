import { typedFormula } from "../formula/names";
import type { CellPlace } from "../sheet/engine";
import type { LookChange } from "../workbook/cell-looks";
import type { WorkbookModel } from "../workbook/model";
import type { LayoutChange } from "../workbook/sheet-layout";
import type { Dressing, Edit, Work } from "./messages";

function keyOf({ sheet, row, column }: CellPlace): string {
  return `${sheet}/${row}/${column}`;
}

function merged<K, V>(
  before: ReadonlyMap<K, V> | undefined,
  after: ReadonlyMap<K, V> | undefined,
): ReadonlyMap<K, V> {
  return new Map([...(before ?? []), ...(after ?? [])]);
}

function mergedLayout(before: LayoutChange | undefined, after: LayoutChange): LayoutChange {
  return {
    ...before,
    ...after,
    columnWidths: merged(before?.columnWidths, after.columnWidths),
    rowHeights: merged(before?.rowHeights, after.rowHeights),
    hiddenColumns: merged(before?.hiddenColumns, after.hiddenColumns),
    hiddenRows: merged(before?.hiddenRows, after.hiddenRows),
  };
}

/** What differs between a file and what the grid shows of it: the last word on every cell, look and width. */
export class Journal {
  private readonly edits = new Map<string, Edit>();
  private readonly looks = new Map<string, LookChange>();
  private readonly layouts = new Map<number, LayoutChange>();
  private inputs: ReadonlyMap<string, Edit["input"]> | undefined;
  private marked: string | undefined;

  constructor(private readonly model: WorkbookModel) {}

  /** Takes up edits and gives those that change what is known. */
  edit(edits: readonly Edit[]): readonly Edit[] {
    return edits.filter((edit) => {
      const key = keyOf(edit);
      const known = this.edits.get(key);
      const before = known ? known.input : this.fileInput(key);
      const numberFormat = edit.numberFormat ?? known?.numberFormat;
      const isSame =
        JSON.stringify(before) === JSON.stringify(edit.input) && numberFormat === known?.numberFormat;
      const isAsFile =
        numberFormat === undefined && JSON.stringify(this.fileInput(key)) === JSON.stringify(edit.input);
      if (isAsFile) this.edits.delete(key);
      else this.edits.set(key, { ...edit, ...(numberFormat !== undefined && { numberFormat }) });
      return !isSame;
    });
  }

  dress({ looks, layouts }: Dressing): void {
    for (const look of looks) this.looks.set(keyOf(look), look);
    for (const layout of layouts)
      this.layouts.set(layout.sheet, mergedLayout(this.layouts.get(layout.sheet), layout));
  }

  get work(): Work {
    return {
      edits: [...this.edits.values()],
      looks: [...this.looks.values()],
      layouts: [...this.layouts.values()],
    };
  }

  /** What a person put into a cell since the file was opened. */
  input(place: CellPlace): Edit["input"] | undefined {
    return this.edits.get(keyOf(place))?.input;
  }

  /** Remembers the present state as the saved one. */
  mark(): void {
    this.marked = this.stamp();
  }

  /** Whether nothing differs from the saved state, which is that of the file where none was. */
  get isMarked(): boolean {
    return this.stamp() === (this.marked ?? EMPTY_STAMP);
  }

  private stamp(): string {
    const { edits, looks, layouts } = this.work;
    return JSON.stringify([edits, looks, layouts.map(plainLayout)]);
  }

  private fileInput(key: string): Edit["input"] {
    this.inputs ??= new Map(
      this.model.sheets.flatMap((sheet, position) =>
        sheet.cells.map(({ row, column, value, formula }) => [
          keyOf({ sheet: position, row, column }),
          formula ? { formula: `=${typedFormula(formula.text)}` } : value,
        ]),
      ),
    );
    return this.inputs.get(key) ?? null;
  }
}

const EMPTY_STAMP = JSON.stringify([[], [], []]);

function plainLayout(layout: LayoutChange): readonly unknown[] {
  const { sheet, columnWidths, rowHeights, hiddenColumns, hiddenRows, frozen } = layout;
  return [sheet, ...[columnWidths, rowHeights, hiddenColumns, hiddenRows].map((map) => [...(map ?? [])]), frozen];
}
