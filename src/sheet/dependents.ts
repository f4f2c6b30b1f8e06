import { type CellRange, MAX_ROWS } from "../formula/address";
import type { SheetRange } from "./rectangles";

/**
 * Finds who reads a cell. Each column of a sheet is a binary tree over its rows: a range is filed at the few
 * nodes that make it up, and a cell is asked for at the nodes above it, so that long ranges cost no more than short.
 */
export class Dependents<Reader> {
  private readonly nodes: Map<number, Set<Reader>>[] = [];

  add(reader: Reader, reads: readonly SheetRange[]): void {
    for (const range of reads) {
      const nodes = (this.nodes[range.sheet] ??= new Map());
      for (const node of nodesOf(range)) {
        const readers = nodes.get(node);
        if (readers === undefined) nodes.set(node, new Set([reader]));
        else readers.add(reader);
      }
    }
  }

  remove(reader: Reader, reads: readonly SheetRange[]): void {
    for (const range of reads) {
      for (const node of nodesOf(range)) this.nodes[range.sheet]?.get(node)?.delete(reader);
    }
  }

  /** A walk that gives each reader's entry once at most, however many changed cells it is asked for. */
  walk(): (changed: SheetRange) => Generator<Reader> {
    const seen = new Set<Set<Reader>>();
    const readersOf = (sheet: number, node: number): Set<Reader> | undefined => this.nodes[sheet]?.get(node);
    return function* (changed) {
      for (let column = changed.firstColumn; column <= changed.lastColumn; column++) {
        for (let row = changed.firstRow; row <= changed.lastRow; row++) {
          for (let node = row + MAX_ROWS; node >= 1; node = Math.floor(node / 2)) {
            const readers = readersOf(changed.sheet, column * COLUMN_NODES + node);
            if (readers === undefined || seen.has(readers)) continue;
            seen.add(readers);
            yield* readers;
          }
        }
      }
    };
  }
}

/** Nodes of one column: a leaf for each row and those above. */
const COLUMN_NODES = 2 * MAX_ROWS;

/** The fewest nodes that together cover a range and nothing else. */
function* nodesOf(range: CellRange): Generator<number> {
  for (let column = range.firstColumn; column <= range.lastColumn; column++) {
    const base = column * COLUMN_NODES;
    let low = range.firstRow + MAX_ROWS;
    let high = range.lastRow + MAX_ROWS;
    while (low <= high) {
      if (low % 2 === 1) yield base + low++;
      if (high % 2 === 0) yield base + high--;
      low = Math.floor(low / 2);
      high = Math.floor(high / 2);
    }
  }
}
