import { exportedSpills, healedFileFormula, mayBeDamaged } from "../formula/heal";
import { calledFunction, mayFill } from "../formula/ours";
import { tokenize } from "../formula/tokens";
import type { CellChange, CellFormula, SheetModel, WorkbookCell, WorkbookModel } from "./model";

/** A workbook whose formulas are as Excel writes them, and what that changes in the file. */
export interface HealedWorkbook {
  readonly model: WorkbookModel;
  readonly changes: readonly CellChange[];
  /** Formulas that were damaged. */
  readonly healed: number;
}

/**
 * Mends what other programs do to formulas of ours when they save a file: names in another spelling or behind a path, spills
 * that became arrays of a fixed size, and the wrapping of a Google Sheets export. In all formulas Excel's later functions and
 * the parts of tables get its own spelling, which other programs change and it may not know. Values stay.
 */
export function healWorkbook(model: WorkbookModel): HealedWorkbook {
  let healed = 0;
  const changes: CellChange[] = [];
  const sheets = model.sheets.map((sheet, position) => {
    const mended = mendedFormulas(sheet);
    if (mended.size === 0) return sheet;
    const cells = sheet.cells.map((cell): WorkbookCell => {
      const formula = mended.get(cell);
      if (formula === undefined) return cell;
      const { row, column } = cell;
      changes.push({ sheet: position, row, column, formula });
      if (formula !== null) {
        healed++;
        return { ...cell, formula };
      }
      return { row, column, value: cell.value, style: cell.style };
    });
    return { ...sheet, cells };
  });
  return healed === 0 ? { model, changes: [], healed } : { model: { ...model, sheets }, changes, healed };
}

/** New formulas by cell, null for a cell that a spill fills. */
function mendedFormulas(sheet: SheetModel): ReadonlyMap<WorkbookCell, CellFormula | null> {
  const mended = new Map<WorkbookCell, CellFormula | null>();
  const exported = [];
  for (const cell of sheet.cells) {
    const { row, column, formula } = cell;
    if (formula !== undefined && /DUMMYFUNCTION/i.test(formula.text))
      exported.push({ row, column, formula: formula.text, cell });
  }
  const spills = new Map([...exportedSpills(exported)].map(([{ cell }, spill]) => [cell, spill]));
  for (const cell of sheet.cells) {
    const { formula } = cell;
    if (formula === undefined || formula.kind === "dataTable") continue;
    if (formula.kind !== "array" && !mayBeDamaged(formula.text)) continue;
    const text = healedFileFormula(formula.text);
    if (!usesCatalogue(text)) {
      if (text !== formula.text) mended.set(cell, { ...formula, text });
      continue;
    }
    const spill = spills.get(cell);
    const range = spill?.range ?? formula.range;
    const isSpill = mayFill(text) && (formula.kind === "array" || spill !== undefined);
    const next: CellFormula =
      isSpill && range !== undefined ? { text, kind: "dynamic", range } : { ...formula, text };
    if (next.text === formula.text && next.kind === formula.kind) continue;
    mended.set(cell, next);
    for (const other of spill?.filled ?? []) mended.set(other.cell, null);
  }
  return mended;
}

function usesCatalogue(formula: string): boolean {
  return tokenize(formula).some((token) => calledFunction(token) !== undefined);
}
