interface Entry<Value> {
  readonly key: number;
  readonly value: Value;
}

/** A queue that gives the entry with the smallest key first; equal keys in no stated order, but always the same. */
export class Heap<Value> {
  private readonly entries: Entry<Value>[] = [];

  /**
   * @param key place in the queue
   * @param value what waits there
   */
  push(key: number, value: Value): void {
    const entry = { key, value };
    let at = this.entries.length;
    for (;;) {
      const parent = (at - 1) >> 1;
      // Nothing stands above the first place: its parent would be at -1.
      const above = this.entries[parent];
      if (above === undefined || above.key <= key) break;
      this.entries[at] = above;
      at = parent;
    }
    this.entries[at] = entry;
  }

  /** @returns the entry with the smallest key, taken out, or undefined where none is left */
  pop(): Entry<Value> | undefined {
    const [top] = this.entries;
    const last = this.entries.pop();
    if (last === undefined || last === top) return last;
    let at = 0;
    for (;;) {
      const left = 2 * at + 1;
      const right = left + 1;
      const leftKey = this.entries[left]?.key ?? Infinity;
      const child = (this.entries[right]?.key ?? Infinity) < leftKey ? right : left;
      const below = this.entries[child];
      if (below === undefined || below.key >= last.key) break;
      this.entries[at] = below;
      at = child;
    }
    this.entries[at] = last;
    return top;
  }
}
