import type { CatalogueFunction } from "../../src/functions/definition";
import { isNumeric, limitsOf, type Param, type ScalarSpec } from "../../src/functions/param";

/** A seeded source of numbers (mulberry32), so that a failing run can be repeated. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

type Random = () => number;

function pick<Value>(random: Random, values: readonly [Value, ...Value[]]): Value {
  return values[Math.floor(random() * values.length)] ?? values[0];
}

const HOSTILE: readonly [unknown, ...unknown[]] = [
  null,
  undefined,
  "",
  " \u00a0\u200b",
  0,
  -0,
  1,
  -1,
  0.1,
  Number.NaN,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
  1e308,
  -1e308,
  5e-324,
  Number.MAX_SAFE_INTEGER,
  46157,
  true,
  false,
  "🎈🎈🎈",
  "6 ft",
  "6′2″",
  "14,90",
  "1,234",
  "€ 12",
  "3%",
  "none",
  "n/a",
  "#N/A",
  "1e400",
  "-5 in",
  "0x10",
  "=1+1",
  "__proto__",
  "constructor",
  "toString",
  "hasOwnProperty",
  "'; DROP TABLE x; --",
  "<script>alert(1)</script>",
  "x".repeat(5000),
  "9".repeat(400),
  "1 ".repeat(500),
  "½".repeat(50),
  {},
  { toString: "no" },
  { __proto__: null, value: 3 },
  [],
  [[]],
  [[], [1]],
  [[1, 2], [3]],
  [[null, "", 0]],
  [[["nested"]]],
  Symbol.iterator,
  10n,
];

function near(random: Random, spec: ScalarSpec): unknown {
  if (spec.kind === "flag") return pick(random, [true, false, "yes", "no", 1, 0]);
  if (spec.kind === "choice")
    return pick(random, [spec.options[0] ?? "", spec.options.at(-1) ?? "", "other"]);
  if (spec.kind === "text")
    return pick(random, ["Navy", "White", "Door", "column", "Total", " navy ", "Coral", "x"]);
  if (!isNumeric(spec)) return null;
  const { min, max } = limitsOf(spec);
  const usual = Math.min(max, Math.max(min, pick(random, [1, 2, 3, 5, 9, 11, 36, 100]) * (0.5 + random())));
  const wide = Math.exp(Math.log(1e-6) + random() * (Math.log(Math.max(max, 1e-5)) - Math.log(1e-6)));
  const value = pick(random, [min, max, usual, usual, usual, usual, wide, min + random() * (max - min)]);
  return spec.kind === "count" && random() < 0.9 ? Math.round(value) : value;
}

function cell(random: Random, spec: ScalarSpec, hostility: number): unknown {
  return random() < hostility ? pick(random, HOSTILE) : near(random, spec);
}

function range(random: Random, rows: number, make: () => unknown[]): unknown[][] {
  return Array.from({ length: rows }, () => (random() < 0.05 ? [] : make()));
}

function argument(random: Random, param: Param, hostility: number): unknown {
  if (random() < hostility / 2) return pick(random, HOSTILE);
  const size = pick(random, [1, 2, 3, 5, 8, 12, 40]);
  if (param.kind === "list") {
    const cells = Array.from({ length: size }, () => cell(random, param.of, hostility / 2));
    return random() < 0.5 ? [cells] : cells.map((value) => [value]);
  }
  if (param.kind === "table") {
    const columns =
      random() < 0.2 ? param.columns.slice(0, Math.ceil(random() * param.columns.length)) : param.columns;
    const rows = range(random, size, () =>
      columns.map((column) =>
        column.optional && random() < 0.5 ? null : cell(random, column, hostility / 4),
      ),
    );
    return random() < 0.8 ? [columns.map((column) => column.name), ...rows] : rows;
  }
  return cell(random, param, hostility);
}

function mutatedRow(
  random: Random,
  row: readonly unknown[],
  specs: readonly ScalarSpec[],
  hostility: number,
) {
  return row.map((value, column) => {
    const spec = specs[column];
    return spec !== undefined && random() < hostility ? cell(random, spec, 0.3) : value;
  });
}

/** An example's argument with some of its cells changed and rows left out, doubled, emptied or in another order. */
function mutated(random: Random, param: Param, example: unknown, hostility: number): unknown {
  if (random() < hostility / 3) return argument(random, param, hostility);
  if (param.kind !== "list" && param.kind !== "table")
    return random() < hostility ? cell(random, param, 0.3) : example;
  if (!Array.isArray(example)) return example;
  const specs = param.kind === "table" ? param.columns : new Array<ScalarSpec>(example.length).fill(param.of);
  const rows = example.flatMap((row: unknown, index): unknown[] => {
    // A header row keeps its place and mostly its words: its columns may stand in another order than ours.
    if (index === 0 && random() < 0.95) return [row];
    const changed = Array.isArray(row) ? mutatedRow(random, row, specs, hostility) : row;
    return random() < hostility / 2
      ? pick(random, [[], [changed, changed], [[]], [row, changed]])
      : [changed];
  });
  return random() < hostility / 4 ? rows.reverse() : rows;
}

/** Arguments for one call: near what the parameters want, or an example changed, with hostile values strewn in. */
export function argumentsFor(fn: CatalogueFunction, random: Random): unknown[] {
  const hostility = pick(random, [0, 0, 0.1, 0.3, 0.8]);
  const example = random() < 0.4 ? fn.examples[Math.floor(random() * fn.examples.length)] : undefined;
  const args = fn.params.map((param, index) =>
    example === undefined
      ? argument(random, param, hostility)
      : mutated(random, param, example.args[index], hostility),
  );
  if (random() < 0.1) args.push({ address: "Sheet1!A1" });
  if (random() < 0.05) args.length = Math.floor(random() * args.length);
  return args;
}
