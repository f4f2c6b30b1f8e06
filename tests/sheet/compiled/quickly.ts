import { vi } from "vitest";
import { LazyUniver } from "../../../src/sheet/lazy-univer";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import type { EngineFunction } from "../../../src/sheet/engine";
import { errorText, type TestCell, type TestSheets, workbookOf } from "../workbook-of";

/** What `quickly` gives for a formula that needs Univer. */
export const LEFT = "left to Univer";

/** The cell that `quickly` writes its formula into. */
export const AT = { address: "Z3", place: { sheet: 0, row: 2, column: 25 } };

/** The cells that most cases read, on two sheets. */
export const SHEETS: TestSheets = {
  S: {
    A1: "red", A2: "blue", A3: "Red", A4: "gold", A6: "5", A7: "  ", A8: "#N/A",
    B1: 10, B2: 20, B3: 30, B4: 40,
    C1: 1, C2: 3, C3: 5, C4: 7,
    D1: "x", D2: true, D4: 2, D5: false,
    E1: { error: "#DIV/0!" }, E2: { error: "#N/A" }, E3: 4,
    F1: 30, F2: 20, F3: 10,
    G1: 5, G2: 1, G3: 9, G4: 1,
    H1: "a", I1: "b", J1: "c", K1: "A", H2: 1, I2: 2, J2: 3, K2: 4,
    L1: 1e308, L2: 1e308, L3: -1e308, L4: -1e308,
    M1: "TRUE", M2: "false", M3: "1e3", M4: "",
    O6: { error: "#N/A" }, P1: 4, P2: { error: "#N/A" }, Q1: { error: "#DIV/0!" }, Q2: 1,
    R1: 10, R2: 20, R4: 30,
    N1: 10, N2: 10, N3: 20, N4: 20, N5: 30,
  },
  "Price list": { A1: "red", A2: "blue", B1: 0.1, B2: 0.2, C1: 7 },
}; // prettier-ignore

/** A formula in row 3 beside cells, computed where Univer never comes: its value, errors as their text. */
export async function quickly(
  formula: string | TestCell,
  sheets: TestSheets = SHEETS,
  extra: Parameters<typeof workbookOf>[1] = {},
  functions: readonly EngineFunction[] = [],
): Promise<unknown> {
  const bring = vi.spyOn(LazyUniver.prototype, "bring").mockRejectedValue(new Error(LEFT));
  const engine = new UniverEngine(functions);
  const own = { [AT.address]: typeof formula === "string" ? `=${formula}` : formula };
  const [[name = "S", cells] = [], ...others] = Object.entries(sheets);
  try {
    await engine.load(workbookOf({ [name]: { ...cells, ...own }, ...Object.fromEntries(others) }, extra));
    const { uncomputed } = await engine.recalculate();
    const [odd] = uncomputed.filter(({ row, column }) => row === AT.place.row && column === AT.place.column);
    return odd === undefined ? errorText(engine.value(AT.place)) : odd.why;
  } catch (error) {
    if (error instanceof Error && error.message === LEFT) return LEFT;
    throw error;
  } finally {
    engine.dispose();
    bring.mockRestore();
  }
}
