import type { SheetEngine } from "../sheet/engine";

export function makeEngine(): SheetEngine {
  return {
    load: () => Promise.resolve(),
    setCell: () => Promise.resolve(),
    recalculate: () => Promise.resolve({ computed: [], uncomputed: [] }),
    value: () => null,
    dispose: () => undefined,
  };
}
