import { typedFormula } from "../formula/names";
import type { CellPlace } from "../sheet/engine";
import type { CellLook, LookChange } from "../workbook/cell-looks";
import { cellFinder, type CellFinder } from "../workbook/cell-finder";
import type { CellStyle, WorkbookModel } from "../workbook/model";
import type { LayoutChange } from "../workbook/sheet-layout";
import type { Dressing, Edit, Work } from "./messages";
import { placeNumber } from "../sheet/place-number";

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

interface FileCell {
  readonly input: Edit["input"];
  readonly format: string;
  readonly look: CellLook;
}

function isSame(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/** What differs between a file and what the grid shows of it: the last word on every cell, look and width. */
export class Journal {
  private readonly edits = new Map<number, Edit>();
  private readonly looks = new Map<number, LookChange>();
  private readonly layouts = new Map<number, LayoutChange>();
  private readonly stored: CellFinder;
  private marked: string | undefined;

  /** `lookAs` gives a look of the file as the grid reports it, so that both can be compared. */
  constructor(
    private readonly model: WorkbookModel,
    private readonly lookAs: (style: CellStyle | undefined) => CellLook = () => ({}),
  ) {
    this.stored = cellFinder(model);
  }

  /** Looks through the file while nobody waits, so that the first edit is as quick as those after it. */
  prepare(): void {
    for (const sheet of this.model.sheets.keys()) this.stored(sheet, 0, 0);
  }

  /** Takes up edits and gives those that change what is known. */
  edit(edits: readonly Edit[]): readonly Edit[] {
    return edits.filter((edit) => {
      const key = placeNumber(edit);
      const known = this.edits.get(key);
      const file = this.fileCell(edit);
      const before = {
        input: known ? known.input : file.input,
        numberFormat: known?.numberFormat ?? file.format,
      };
      const numberFormat = edit.numberFormat ?? known?.numberFormat;
      const after = { input: edit.input, numberFormat: numberFormat ?? file.format };
      if (isSame(after, { input: file.input, numberFormat: file.format })) this.edits.delete(key);
      else this.edits.set(key, { ...edit, ...(numberFormat !== undefined && { numberFormat }) });
      return !isSame(before, after);
    });
  }

  /** Takes up looks and sizes. */
  dress({ looks, layouts }: Dressing): void {
    for (const look of looks) {
      const key = placeNumber(look);
      if (isSame(this.fileCell(look).look, look.look)) this.looks.delete(key);
      else this.looks.set(key, look);
    }
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
    return this.edits.get(placeNumber(place))?.input;
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

  private fileCell({ sheet, row, column }: CellPlace): FileCell {
    const cell = this.stored(sheet, row, column);
    if (cell === undefined) return { input: null, format: "General", look: {} };
    const { value, formula, style } = cell;
    return {
      input: formula ? { formula: `=${typedFormula(formula.text)}` } : value,
      format: this.model.styles[style]?.numberFormat ?? "General",
      look: this.lookAs(this.model.styles[style]),
    };
  }
}

const EMPTY_STAMP = JSON.stringify([[], [], []]);

function plainLayout(layout: LayoutChange): readonly unknown[] {
  const { sheet, columnWidths, rowHeights, hiddenColumns, hiddenRows, frozen } = layout;
  return [
    sheet,
    ...[columnWidths, rowHeights, hiddenColumns, hiddenRows].map((map) => [...(map ?? [])]),
    frozen,
  ];
}
