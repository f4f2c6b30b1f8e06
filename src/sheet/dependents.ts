import type { CellRange } from "../workbook/model";
import type { SheetRange } from "./formula-translation";

/** Rows in one block: a reader of a range is filed once for each column and block that the range touches. */
const BLOCK_ROWS = 128;
const BLOCKS = 8_192;

/** Finds who reads a cell. */
export class Dependents<Reader> {
  private readonly blocks: Map<number, { readonly range: CellRange; readonly reader: Reader }[]>[] = [];

  add(reader: Reader, reads: readonly SheetRange[]): void {
    for (const range of reads) {
      for (const block of blocksOf(range)) {
        const sheet = (this.blocks[range.sheet] ??= new Map());
        const entry = { range, reader };
        const entries = sheet.get(block);
        if (entries === undefined) sheet.set(block, [entry]);
        else entries.push(entry);
      }
    }
  }

  remove(reader: Reader, reads: readonly SheetRange[]): void {
    for (const range of reads) {
      for (const block of blocksOf(range)) {
        const entries = this.blocks[range.sheet]?.get(block);
        const kept = entries?.filter((entry) => entry.reader !== reader);
        if (kept !== undefined) this.blocks[range.sheet]?.set(block, kept);
      }
    }
  }

  /** Readers of any cell of a range; one reader may come several times. */
  *of(changed: SheetRange): Generator<Reader> {
    const sheet = this.blocks[changed.sheet];
    if (sheet === undefined) return;
    for (const block of blocksOf(changed)) {
      for (const { range, reader } of sheet.get(block) ?? []) if (intersects(range, changed)) yield reader;
    }
  }
}

/** Whether two rectangles of one sheet share a cell. */
export function intersects(a: CellRange, b: CellRange): boolean {
  return (
    a.firstRow <= b.lastRow &&
    b.firstRow <= a.lastRow &&
    a.firstColumn <= b.lastColumn &&
    b.firstColumn <= a.lastColumn
  );
}

function* blocksOf(range: CellRange): Generator<number> {
  const first = Math.floor(range.firstRow / BLOCK_ROWS);
  const last = Math.floor(range.lastRow / BLOCK_ROWS);
  for (let column = range.firstColumn; column <= range.lastColumn; column++) {
    for (let block = first; block <= last; block++) yield column * BLOCKS + block;
  }
}
