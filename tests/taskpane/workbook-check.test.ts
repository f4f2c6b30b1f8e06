import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { functionNamed } from "../../src/functions/catalogue";
import { blocksOf, Contents, readContents, type ReadFormula } from "../../src/taskpane/contents";
import { checkWorkbook, levelsOf } from "../../src/taskpane/workbook-check";
import { area, at, FakeHost } from "./fake-host";

const ignore = (): void => undefined;
const findings = async (host: FakeHost) => checkWorkbook(await readContents(host, ignore));

describe("blocks", () => {
  it("cover every cell once and hold at most so many", () => {
    const side = fc.integer({ min: 0, max: 40 });
    fc.assert(
      fc.property(
        side,
        side,
        side,
        side,
        fc.integer({ min: 1, max: 60 }),
        (row, column, down, across, most) => {
          const range = {
            firstRow: row,
            firstColumn: column,
            lastRow: row + down,
            lastColumn: column + across,
          };
          const seen = new Map<string, number>();
          for (const block of blocksOf(range, most)) {
            const size = (block.lastRow - block.firstRow + 1) * (block.lastColumn - block.firstColumn + 1);
            expect(size).toBeLessThanOrEqual(most);
            for (let r = block.firstRow; r <= block.lastRow; r++) {
              for (let c = block.firstColumn; c <= block.lastColumn; c++) {
                seen.set(`${r},${c}`, (seen.get(`${r},${c}`) ?? 0) + 1);
              }
            }
          }
          expect(seen.size).toBe((down + 1) * (across + 1));
          expect([...seen.values()].every((times) => times === 1)).toBe(true);
        },
      ),
    );
  });

  it("are read one after the other with growing progress, and the work can be stopped", async () => {
    const host = new FakeHost()
      .addSheet("Plan")
      .fill("Plan!A1", [[1]])
      .fill("Plan!T2000", [["=BLN.METRES(1)"]]);
    const shares: number[] = [];
    const contents = await readContents(host, (share) => shares.push(share));
    expect(host.calls.filter((name) => name === "read").length).toBe(4);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    expect(shares.at(-1)).toBe(1);
    expect(contents.ours).toHaveLength(1);
    expect(contents.value(at("Plan!T2000"))).toBe(1);
    expect(contents.value(at("Plan!A1"))).toBe(1);
    const stopping = new AbortController();
    const stopped = readContents(
      host,
      () => {
        stopping.abort(new Error("stopped"));
      },
      stopping.signal,
    );
    await expect(stopped).rejects.toThrow("stopped");
  });
});

describe("the check of a workbook", () => {
  it("says of each error what the function says, wherever its arguments stand", async () => {
    const host = new FakeHost()
      .addSheet("Plan")
      .fill("Plan!A1", [
        ["Height", "Balloon", "Count"],
        [-1, 10, ""],
      ])
      .table("Pieces", "Plan!A1:C2")
      .fill("Plan!C2", [["=BLN.COUNT_COLUMN([@Height], [@Balloon])"]])
      .fill("Plan!E1", [["=BLN.AIR_LITRES(250)"]])
      .show("Plan!E2", "=ROUND(BLN.AIR_LITRES(A2),0)", "#VALUE!")
      .show("Plan!E3", "=BLN.AIR_LITRES(A2*2)", "#VALUE!")
      .show("Plan!E4", "=BLN.AIR_LITRES(11)", "#BUSY!")
      .show("Plan!E5", "=1/0", "#DIV/0!");
    const said = (name: string, args: readonly unknown[]): string => {
      const outcome = functionNamed(name)?.call(args);
      return outcome?.kind === "error" ? outcome.sentence : "";
    };
    const { failures, cells } = await findings(host);
    expect(cells).toBe(5);
    expect(failures.map(({ row, column, code, sentence }) => [row, column, code, sentence])).toEqual([
      [0, 4, "#VALUE!", said("AIR_LITRES", [250])],
      [1, 2, "#VALUE!", said("COUNT_COLUMN", [-1, 10])],
      [1, 4, "#VALUE!", said("AIR_LITRES", [-1])],
      [2, 4, "#VALUE!", "the formula gives this error"],
      [3, 4, "#BUSY!", "Excel still waits for the result"],
    ]);
    expect(said("AIR_LITRES", [250])).toContain("balloon must be");
  });

  it("lists cells to enter anew, with the name that Excel knows, but none on protected sheets", async () => {
    const host = new FakeHost()
      .addSheet("Plan")
      .addSheet("Locked", { isProtected: true })
      .show("Plan!A1", "=BLN.METRES(1)", "#NAME?")
      .show("Plan!A2", "=_xldudf_BLN_METRES(1)+2", "#NAME?")
      .show("Plan!A3", "=OTHER.METRES(1)", "#NAME?")
      .show("Locked!B2", "=BLN.METRES(1)", "#NAME?");
    const { stuck, locked } = await findings(host);
    expect(stuck).toEqual([
      { ...at("Plan!A1"), formula: "=BLN.METRES(1)" },
      { ...at("Plan!A2"), formula: "=BLN.METRES(1)+2" },
    ]);
    expect(locked).toEqual([at("Locked!B2")]);
    await host.enter(stuck);
    expect((await findings(host)).stuck).toEqual([]);
  });

  it("finds chains of more than three levels, through other formulas, nesting, names and spills", async () => {
    const host = new FakeHost()
      .addSheet("Plan")
      .show("Plan!A1", "=BLN.METRES(1)", 1)
      .show("Plan!A2", "=A1*2", 2)
      .show("Plan!A3", "=BLN.METRES(A2)", 2)
      .show("Plan!A4", "=BLN.METRES(BLN.METRES(A3))", 2)
      .show("Plan!A5", "=BLN.METRES(A3)+A1", 2)
      .fill("Plan!C1", [["=BLN.BAG_PLAN(200, {50,100}, {8,14})"]])
      .show("Plan!C9", "=BLN.METRES(C3)", 2);
    const contents = await readContents(host, ignore);
    const levels = new Map(
      [...levelsOf(contents)].map(([{ row, column }, level]) => [`${row},${column}`, level]),
    );
    // Counted by hand: A1 1, A2 1, A3 2, A4 4, A5 3; C9 reads a cell that C1 fills.
    expect(["0,0", "1,0", "2,0", "3,0", "4,0", "8,2"].map((cell) => levels.get(cell))).toEqual([
      1, 1, 2, 4, 3, 2,
    ]);
    expect(checkWorkbook(contents).chains).toEqual([
      { ...at("Plan!A4"), levels: 4, formula: "=BLN.METRES(BLN.METRES(A3))" },
    ]);
  });
});

describe("levels", () => {
  const contentsOf = (formulas: readonly ReadFormula[]): Contents =>
    new Contents(
      { sheets: [{ name: "S", isProtected: false, used: area("S!A1:A99999").range }], tables: [], names: [] },
      new Map(),
      formulas,
      new Map(),
    );
  const cell = (row: number, formula: string, isOurs: boolean): ReadFormula => ({
    sheet: "S",
    row,
    column: 0,
    formula,
    value: 0,
    isOurs,
  });

  it("equal the longest path found by trying every one", () => {
    const graph = fc.array(fc.record({ isOurs: fc.boolean(), on: fc.array(fc.nat(20), { maxLength: 3 }) }), {
      minLength: 1,
      maxLength: 9,
    });
    fc.assert(
      fc.property(graph, (nodes) => {
        // A cell refers only to cells above it, so that there is no circle.
        const on = nodes.map((node, index) =>
          node.on.map((other) => other % (index + 1)).filter((other) => other < index),
        );
        const longest = (index: number): number =>
          (nodes[index]?.isOurs === true ? 1 : 0) + Math.max(0, ...(on[index] ?? []).map(longest));
        const formulas = nodes.map(({ isOurs }, index) => {
          const inner = (on[index] ?? []).map((other) => `A${other + 1}`).join("+") || "1";
          return cell(index, isOurs ? `=BLN.METRES(${inner})` : `=${inner}`, isOurs);
        });
        const levels = levelsOf(contentsOf(formulas));
        expect(formulas.map((formula) => levels.get(formula))).toEqual(
          nodes.map((_, index) => longest(index)),
        );
      }),
    );
  });

  it("are found down a column of thousands, and where cells refer to themselves in a circle", () => {
    const many = Array.from({ length: 20_000 }, (_, row) =>
      cell(row, row === 0 ? "=1" : `=A${row}+1`, false),
    );
    const deep = [...many, cell(20_000, "=BLN.METRES(A20000)", true)];
    expect(levelsOf(contentsOf(deep)).get(deep[20_000] as ReadFormula)).toBe(1);
    const circle = [cell(0, "=BLN.METRES(A2)", true), cell(1, "=BLN.METRES(A1)", true)];
    expect([...levelsOf(contentsOf(circle)).values()].every(Number.isFinite)).toBe(true);
  });
});

vi.setConfig({ testTimeout: 60_000 });
