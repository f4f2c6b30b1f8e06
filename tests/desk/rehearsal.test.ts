import { expect, it } from "vitest";
import { makeRehearsalEngine } from "../../src/desk/make-engine";
import { rehearse } from "../../src/desk/rehearsal";
import type { CellPlace, RecalculateOptions, TypedInput } from "../../src/sheet/engine";
import { UniverEngine } from "../../src/sheet/univer-engine";
import type { WorkbookModel } from "../../src/workbook/model";
import { workbookOf } from "../sheet/workbook-of";

/** An engine that writes down what is asked of it. */
class Watched extends UniverEngine {
  readonly written: (CellPlace & { readonly input: TypedInput })[] = [];
  readonly computed: number[] = [];
  cells = 0;
  disposals = 0;

  override async load(workbook: WorkbookModel): Promise<void> {
    this.cells = workbook.sheets.reduce((sum, { cells }) => sum + cells.length, 0);
    await super.load(workbook);
  }

  override async setCell(place: CellPlace, input: TypedInput): Promise<void> {
    this.written.push({ ...place, input });
    await super.setCell(place, input);
  }

  override async recalculate(options: RecalculateOptions = {}): ReturnType<UniverEngine["recalculate"]> {
    const outcome = await super.recalculate(options);
    this.computed.push(outcome.computed.length);
    return outcome;
  }

  override dispose(): void {
    this.disposals++;
    super.dispose();
  }
}

const never = new AbortController().signal;

it("writes numbers of the workbook again, as they are, and computes what reads them", async () => {
  const engine = new Watched([]);
  const list = Array.from({ length: 100 }, (_, at) => [`A${at + 1}`, at + 0.5] as const);
  const formulas = Array.from({ length: 50 }, (_, at) => [`B${at + 1}`, `=SUM(A$1:A$100)*${at}`] as const);
  await rehearse(engine, workbookOf({ Prices: Object.fromEntries([...list, ...formulas]) }), never);
  const { written, computed, disposals } = engine;
  expect(written.length).toBeGreaterThan(0);
  for (const { row, column, input } of written) expect([column, input]).toEqual([0, row + 0.5]);
  // From all over the list, not from its head.
  expect(Math.max(...written.map(({ row }) => row))).toBeGreaterThan(80);
  expect(computed).toEqual([50, 50, 50]);
  expect(disposals).toBeGreaterThan(1);
});

it("takes a part of a large workbook", async () => {
  const engine = new Watched([]);
  const cells = Array.from({ length: 20_000 }, (_, at) => [`A${at + 1}`, at] as const);
  await rehearse(engine, workbookOf({ Prices: Object.fromEntries(cells) }), never);
  expect(engine.cells).toBeLessThanOrEqual(3000);
});

it("does without numbers and without sheets' cells", async () => {
  const engine = new Watched([]);
  await rehearse(engine, workbookOf({ Notes: { A1: "balloons" }, Blank: {} }), never);
  expect(engine.written).toEqual([]);
});

it("leaves alone what only Univer computes, and computes the rest", async () => {
  const engine = makeRehearsalEngine();
  const cells = {
    A1: 4,
    B1: { f: "STDEVP(A1:A2)", v: 7 },
    C1: { f: "A1*2", v: 0 },
    D1: { f: "B1+C1", v: 0 },
    E1: { f: 'IF(A1>1,"a"&LEN(A1),SIN(A1))', v: "x" },
  };
  await engine.load(workbookOf({ Prices: cells }));
  const { computed, uncomputed } = await engine.recalculate({ differences: "accept" });
  expect(computed.map(({ column, value }) => [column, value])).toEqual(
    expect.arrayContaining([
      [2, 8],
      [3, 15],
    ]),
  );
  expect(uncomputed.map(({ column }) => column)).toContain(1);
  expect(engine.value({ sheet: 0, row: 0, column: 1 })).toBe(7);
  engine.dispose();
});

it("ends where it is stopped, and lets the engine go", async () => {
  const engine = new Watched([]);
  const stopped = AbortSignal.abort(new Error("a person types"));
  await expect(rehearse(engine, workbookOf({ S: { A1: 1, B1: "=A1+1" } }), stopped)).rejects.toThrow(
    "a person types",
  );
  expect(engine.disposals).toBeGreaterThan(1);
});
