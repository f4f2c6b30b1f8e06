import { describe, expect, it } from "vitest";
import { catalogue, offered } from "../../src/functions/catalogue";
import type {
  CatalogueFunction,
  Cell,
  ExampleArgument,
  Outcome,
  PlainCell,
} from "../../src/functions/definition";
import { isNumeric, limitsOf } from "../../src/functions/param";
import { formulaText } from "../../src/functions/reference";

/** Example arguments as a worksheet sends them: a list lies across, as an array constant does. */
function sent(args: readonly ExampleArgument[]): readonly unknown[] {
  return args.map((argument) =>
    Array.isArray(argument) && !Array.isArray(argument[0]) ? [argument as readonly unknown[]] : argument,
  );
}

function tableOf(fn: CatalogueFunction, outcome: Outcome): readonly (readonly Cell[])[] {
  if (outcome.kind !== "table") throw new Error(`${fn.name} gave ${JSON.stringify(outcome)}`);
  return fn.result.kind === "table" ? outcome.rows.slice(1) : outcome.rows;
}

/** The statuses of a plan that stop it, each beside a withheld number. */
function stopsOf(fn: CatalogueFunction, outcome: Outcome): readonly string[] {
  const { result } = fn;
  if (outcome.kind !== "table" || result.kind !== "table") return [];
  const status = result.columns.findIndex((column) => column.name === "status");
  return outcome.rows.map((row) => String(row[status])).filter((text) => text.startsWith("stop: "));
}

function expectCell(actual: Cell | undefined, expected: PlainCell | null, within: number): void {
  if (expected === null) return;
  if (expected === "#N/A") {
    expect(actual).toEqual({ error: "#N/A", sentence: expect.stringMatching(/[^.]$/) });
    return;
  }
  if (typeof expected === "number") {
    expect(typeof actual).toBe("number");
    expect(Math.abs(Number(actual) - expected)).toBeLessThanOrEqual(within);
  } else expect(actual).toBe(expected);
}

describe.each(catalogue.map((fn) => [fn.name, fn] as const))("%s", (_, fn) => {
  it("keeps the naming rules", () => {
    expect(fn.name).toMatch(/^[A-Z][A-Z0-9]*(?:_[A-Z0-9]+)*$/);
    expect(fn.name.length).toBeGreaterThanOrEqual(3);
    expect(fn.name).not.toMatch(/^[A-Z]{1,3}\d{1,7}$|^R\d*C\d*$/);
    expect(fn.name.endsWith("_PLAN")).toBe(
      fn.result.kind === "table" &&
        fn.name !== "CAUTIONS" &&
        fn.name !== "PRICE_CHANGES" &&
        fn.name !== "STOCK_AFTER",
    );
    expect(fn.text).toMatch(/^[A-Z].*\.$/);
    expect(fn.asks.length).toBeGreaterThan(0);
    for (const param of fn.params) expect(param.name).toMatch(/^[a-z][a-z0-9_]*$/);
    expect(new Set(fn.params.map((param) => param.name)).size).toBe(fn.params.length);
    // Columns are only ever appended: some plans have got one after their status.
    if (fn.name.endsWith("_PLAN") && fn.name !== "READY_PLAN" && fn.result.kind === "table")
      expect(fn.result.columns.slice(-2).map((column) => column.name)).toContain("status");
  });

  it.each(fn.examples.map((example) => [formulaText(fn, example.args), example] as const))(
    "computes the example %s",
    (__, example) => {
      expect(example.source).not.toBe("");
      const outcome = fn.call(sent(example.args));
      const within = example.within ?? 0;
      if (!Array.isArray(example.gives)) {
        if (outcome.kind !== "value") throw new Error(JSON.stringify(outcome));
        expectCell(outcome.value, example.gives as PlainCell, within);
        return;
      }
      const rows = tableOf(fn, outcome);
      expect(rows).toHaveLength(example.gives.length);
      example.gives.forEach((row: readonly (PlainCell | null)[], index: number) =>
        row.forEach((cell, column) => expectCell(rows[index]?.[column], cell, within)),
      );
    },
  );

  it.each(fn.failures.map((failure) => [failure.when, failure] as const))("refuses: %s", (__, failure) => {
    const outcome = fn.call(sent(failure.args));
    if (outcome.kind === "table") {
      expect(failure.gives).toBe("#N/A");
      const stopped = stopsOf(fn, outcome);
      expect(stopped.length).toBeGreaterThan(0);
      expect(stopped.join("\n")).toContain(failure.says ?? "stop: ");
      return;
    }
    expect(outcome.kind).toBe("error");
    if (outcome.kind !== "error") return;
    expect(outcome.code).toBe(failure.gives);
    expect(outcome.sentence).not.toMatch(/fault of its own/);
    expect(outcome.sentence).not.toMatch(/\.$/);
    if (failure.says !== undefined) expect(outcome.sentence).toContain(failure.says);
  });

  it("names every argument that is outside its limits, blank or of the wrong kind", () => {
    const [example] = fn.examples;
    if (example === undefined) return;
    fn.params.forEach((param, index) => {
      const withArgument = (value: unknown): Outcome => {
        const args = [...sent(example.args)];
        while (args.length < fn.params.length) args.push(null);
        args[index] = value;
        return fn.call(args);
      };
      const refused = (value: unknown): void => {
        const outcome = withArgument(value);
        if (outcome.kind === "table" && stopsOf(fn, outcome).length > 0) {
          expect(stopsOf(fn, outcome).join("\n")).toContain(param.name);
          return;
        }
        expect(outcome.kind, `${param.name} = ${JSON.stringify(value)}`).toBe("error");
        if (outcome.kind === "error") {
          expect(outcome.code).toBe("#VALUE!");
          expect(outcome.sentence).toContain(param.name);
          expect(outcome.sentence).not.toMatch(/fault of its own/);
        }
      };
      if (param.kind === "list" || param.kind === "table") {
        const keepsShape = param.kind === "table" && param.raw === true;
        if (param.optional !== true && !keepsShape) refused(null);
        return;
      }
      if (param.optional !== true && param.default === undefined) refused(null);
      if (!isNumeric(param)) return;
      const { min, max, isAbove } = limitsOf(param);
      refused(isAbove && min !== 0 ? min : min - Math.max(1, Math.abs(min)) * 0.1);
      refused(max + Math.max(1, Math.abs(max)) * 0.1);
      refused("twelve");
      refused([
        [1, 2],
        [3, 4],
      ]);
    });
  });

  if (fn.draw !== undefined)
    it("draws as many balloons as it counts, each whole and above the base", () => {
      for (const example of fn.examples) {
        const args = sent(example.args);
        const outcome = fn.call(args);
        const drawn = fn.draw?.(args) ?? [];
        expect(drawn.length).toBeGreaterThan(0);
        for (const { x, y, z, radius } of drawn) {
          expect([x, y, z, radius].every(Number.isFinite)).toBe(true);
          expect(y - radius).toBeGreaterThanOrEqual(-1e-9);
        }
        if (outcome.kind === "value" && fn.result.kind === "value" && fn.result.measure === "count") {
          expect(drawn).toHaveLength(Number(outcome.value));
        }
      }
    });

  it("ignores what Excel appends after the last argument and never changes what it was given", () => {
    for (const example of fn.examples) {
      const args = [...sent(example.args)];
      while (args.length < fn.params.length) args.push(null);
      const before = JSON.stringify(args);
      const plain = fn.call(args);
      expect(fn.call([...args, { address: "Sheet1!A1" }])).toEqual(plain);
      expect(JSON.stringify(args)).toBe(before);
    }
  });
});

it("offers everything but what another function has replaced", () => {
  const replaced = catalogue.filter((fn) => !offered.includes(fn));
  expect(replaced.map(({ name, replacedBy }) => [name, replacedBy])).toEqual([
    ["STOCK_AFTER", "STOCK_PLAN"],
    ["HARDWARE_PLAN", "GOODS_PLAN"],
    ["PIECE_PLAN", "COST_PLAN"],
  ]);
});

it("has every name once", () => {
  expect(new Set(catalogue.map((fn) => fn.name)).size).toBe(catalogue.length);
});
