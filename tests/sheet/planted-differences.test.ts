import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import { engineFunctions } from "../../src/sheet/catalogue-functions";
import type { SheetEngine } from "../../src/sheet/engine";
import { compareEngines, type EngineMaker } from "../../src/sheet/engine-comparison";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { workbookOf } from "./workbook-of";

const functions = engineFunctions(catalogue);
const today: EngineMaker = () => new UniverEngine(functions);
const makers = { old: (): SheetEngine => new UniverEngine(functions, { fast: false }), new: today };

/** Today's engine with one thing wrong. */
function faulty(fault: (engine: UniverEngine) => Partial<SheetEngine>): EngineMaker {
  return () => {
    const engine = new UniverEngine(functions);
    const bound: SheetEngine = {
      load: (workbook) => engine.load(workbook),
      setCell: (place, input) => engine.setCell(place, input),
      hold: (place, why) => {
        engine.hold(place, why);
      },
      recalculate: (options) => engine.recalculate(options),
      prepare: () => {
        engine.prepare();
      },
      value: (place) => engine.value(place),
      evaluate: (place, formula) => engine.evaluate(place, formula),
      dispose: () => {
        engine.dispose();
      },
    };
    return Object.assign(bound, fault(engine));
  };
}

describe("a planted difference", () => {
  const workbook = workbookOf({
    S: {
      A1: 2,
      A2: { f: "A1*2", v: 4 },
      A3: { f: "A1*3", v: 5 },
      C1: { f: "SEQUENCE(2)", v: 1, kind: "dynamic", range: "C1:C2" },
      C2: 2,
    },
  });
  const edits = [{ sheet: 0, row: 0, column: 0, input: 3 }];

  it("is in no engine beside itself", async () => {
    const found = await compareEngines(workbook, makers, { isExcels: true, edits });
    expect(found).toMatchObject({ formulas: 3, differences: [] });
  });

  it("is found in a value, with who is right", async () => {
    const offByABit = faulty((engine) => ({
      value: (place) => {
        const value = engine.value(place);
        return typeof value === "number" && place.column === 0 ? value * (1 + 2 ** -52) : value;
      },
    }));
    const off = faulty((engine) => ({
      value: (place) => (place.row === 1 ? 7 : place.row === 2 ? 5 : engine.value(place)),
    }));
    const rights = async (old: EngineMaker, now: EngineMaker): Promise<unknown> => {
      const { differences } = await compareEngines(workbook, { old, new: now }, { isExcels: true });
      return differences.map(({ row, right }) => [row, right]);
    };
    expect(await rights(today, off)).toEqual([
      [1, "old"],
      [2, "new"],
    ]);
    expect(await rights(off, today)).toEqual([
      [1, "new"],
      [2, "old"],
    ]);
    expect(await rights(today, offByABit)).toEqual([
      [1, "both"],
      [2, "neither"],
    ]);
  });

  it("is found in a spill, a reason and a sentence", async () => {
    const changed = faulty((engine) => ({
      recalculate: async (options) => {
        const { computed, uncomputed, differing } = await engine.recalculate(options);
        const [first, second, third] = computed;
        if (first === undefined || second === undefined || third === undefined)
          throw new Error("three formulas");
        return {
          computed: [
            { ...first, sentences: [{ row: 1, column: 0, sentence: "so" }] },
            { ...third, spilled: [[1], [3]] },
          ],
          uncomputed: [...uncomputed, { ...second, formula: "A1*3", why: "no" }],
          differing,
        };
      },
    }));
    const { differences } = await compareEngines(workbook, { old: today, new: changed }, { isExcels: true });
    expect(differences.map(({ row, column, right }) => [row, column, right])).toEqual([
      [1, 0, "both"],
      [2, 0, "neither"],
      [0, 2, "old"],
    ]);
  });

  it("is found after an edit, in values and in what is computed anew", async () => {
    const deaf = faulty((engine) => ({
      setCell: async (place, input) => {
        if (input !== 3) await engine.setCell(place, input);
      },
    }));
    const zealous = faulty((engine) => ({
      setCell: async (place, input) => {
        await engine.setCell(place, input);
        await engine.setCell({ sheet: 0, row: 0, column: 2 }, { formula: "SEQUENCE(2)" });
      },
    }));
    const found = await compareEngines(workbook, { old: today, new: deaf }, { isExcels: true, edits });
    expect(found.differences.map(({ row, edits: count, right }) => [row, count, right])).toEqual([
      [1, 1, undefined],
      [2, 1, undefined],
    ]);
    const more = await compareEngines(workbook, { old: today, new: zealous }, { edits });
    expect(
      more.differences.map(({ column, old, new: now }) => [column, old.isComputed, now.isComputed]),
    ).toEqual([[2, false, true]]);
  });

  it("is found where an engine throws", async () => {
    const broken = faulty(() => ({ recalculate: () => Promise.reject(new Error("so")) }));
    const { differences } = await compareEngines(workbook, { old: today, new: broken });
    expect(differences.map(({ new: { why } }) => why)).toEqual(Array(3).fill("the engine threw: so"));
  });
});

describe("the engines that are compared", () => {
  /** An engine that computes nothing and tells what it is asked. */
  function silent(asked: unknown[], fails = false): SheetEngine {
    return {
      load: () => (fails ? Promise.reject(new Error("too large")) : Promise.resolve()),
      setCell: (place, input) => {
        asked.push([place, input]);
        return Promise.resolve();
      },
      hold: () => undefined,
      recalculate: (options) => {
        asked.push(options);
        return Promise.resolve({ computed: [], uncomputed: [], differing: [] });
      },
      prepare: () => undefined,
      value: () => 1,
      evaluate: () => Promise.resolve(null),
      dispose: () => {
        asked.push("disposed");
      },
    };
  }
  const workbook = workbookOf({ S: { A1: 1, A2: { f: "A1", v: 1 } } });
  const compared = async (options: Parameters<typeof compareEngines>[2], fails = false) => {
    const asked: unknown[] = [];
    const found = await compareEngines(
      workbook,
      { old: () => silent([]), new: () => silent(asked, fails) },
      options,
    );
    return { asked, found };
  };

  it("keep volatile values, take no stored one, and get the options that are given", async () => {
    const always = { volatile: "keep", differences: "accept" };
    expect((await compared({})).asked).toEqual([always, "disposed"]);
    const each = {
      budget: 5,
      interrupt: (work: () => void) => {
        work();
      },
    };
    expect((await compared(each)).asked).toEqual([{ ...always, ...each }, "disposed"]);
  });

  it("get each edit with a recalculation after it; a typed formula is compared too", async () => {
    const place = { sheet: 0, row: 4, column: 0 };
    const { asked, found } = await compared({ edits: [{ ...place, input: { formula: "=A1+1" } }] });
    expect(asked.slice(1, 2)).toEqual([[place, { formula: "=A1+1" }]]);
    expect(asked).toHaveLength(4);
    expect(found.formulas).toBe(2);
    expect((await compared({ edits: [{ ...place, input: 5 }] })).found.formulas).toBe(1);
  });

  it("are timed by the clock given, and disposed of whatever happens", async () => {
    let now = 100;
    const { found, asked } = await compared({ clock: () => (now += 3) }, true);
    expect(found.time).toEqual({ old: 3, new: 3 });
    expect(asked).toEqual(["disposed"]);
    expect(found.differences).toMatchObject([
      { formula: "A1", row: 1, old: { value: 1 }, new: { value: null, why: "the engine threw: too large" } },
    ]);
    expect(found.differences[0]).not.toHaveProperty("stored");
    expect((await compared({})).found.time.new).toBeGreaterThanOrEqual(0);
  });
});
