import { vi } from "vitest";

type Plain = Readonly<Record<string, unknown>>;

/** What was asked of Excel, in order: calls, assignments and `sync`. */
export type Log = string[];

interface Clock {
  syncs: number;
}

function isPlain(value: unknown): value is Plain {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

/**
 * An object of Excel's that minds the rules of Office.js: a property can be read only after it was loaded and the context
 * synced since. Functions, and objects in the data, are there at once; `items` hold objects of the same kind.
 */
function strict(data: Plain, path: string, log: Log, clock: Clock): unknown {
  const loaded = new Map<string, number>();
  const set = new Map<string, unknown>();
  return new Proxy(data, {
    get(_, property) {
      if (typeof property === "symbol" || property === "then") return undefined;
      if (property === "load") {
        return (names: string) => {
          for (const name of names.split(",")) loaded.set(name.split("/")[0] ?? "", clock.syncs);
        };
      }
      const value = data[property];
      if (typeof value === "function") {
        return (...args: readonly unknown[]) => {
          log.push(
            `${path}.${property}(${args.map((arg) => (isPlain(arg) ? "object" : JSON.stringify(arg))).join(", ")})`,
          );
          const result = (value as (...args: readonly unknown[]) => unknown)(...args);
          return isPlain(result) ? strict(result, `${path}.${property}`, log, clock) : result;
        };
      }
      if (isPlain(value)) return strictOnce(value, `${path}.${property}`, log, clock);
      if (property === "isNullObject") return clock.syncs > 0 && value === true;
      if (property === "value" && "value" in data) {
        if (clock.syncs === 0) throw new Error(`${path}.value was read before sync`);
        return value;
      }
      const when = loaded.get(property);
      if (when === undefined) throw new Error(`${path}.${property} was read without load`);
      if (when >= clock.syncs) throw new Error(`${path}.${property} was read before sync`);
      return Array.isArray(value) && property === "items"
        ? value.map((item: Plain, index) => strictOnce(item, `${path}[${index}]`, log, clock, true))
        : value;
    },
    set(_, property, value) {
      set.set(String(property), value);
      log.push(`${path}.${String(property)} = ${JSON.stringify(value)}`);
      return true;
    },
  });
}

const made = new WeakMap<Plain, unknown>();

/** The same object each time it is reached, so that what was loaded once stays loaded. */
function strictOnce(data: Plain, path: string, log: Log, clock: Clock, isItem = false): unknown {
  const known = made.get(data) ?? strict(data, path, log, clock);
  made.set(data, known);
  if (isItem) {
    // A load of `items/name` loads the names of the items.
    (known as { load(names: string): void }).load(Object.keys(data).join(","));
    clock.syncs += 0.001;
  }
  return known;
}

/** Puts a workbook in place of Excel's; gives the log of what is asked of it. */
export function stubExcel(workbook: Plain): Log {
  const log: Log = [];
  const clock: Clock = { syncs: 0 };
  const context = {
    workbook: strict(workbook, "workbook", log, clock),
    sync: () => {
      clock.syncs = Math.floor(clock.syncs) + 1;
      log.push("sync");
      return Promise.resolve();
    },
  };
  vi.stubGlobal("Excel", {
    run: (batch: (given: unknown) => Promise<unknown>) => batch(context),
    ClearApplyTo: { contents: "Contents" },
    RangeCopyType: { values: "Values" },
  });
  return log;
}
