import { checkContent } from "./cell-markup";
import { ensureDynamicMark } from "./metadata";
import { type CellChange, type SheetModel, WorkbookError, type WorkbookModel } from "./model";
import { NewStyles } from "./new-styles";
import type { WorkbookPackage } from "./package";
import { type LayoutChange, SheetLayout } from "./sheet-layout";
import { type SheetChanges, SheetPatch } from "./sheet-patch";
import { findWorkbookPart } from "./workbook-part";
import { applyEdits } from "./xml";

/**
 * The file with some cells, looks, widths, heights and panes changed. Only the sheets that change are written anew, and in
 * them only what changes; writing what a cell already holds changes nothing. Newer errors such as `#SPILL!` are stored as
 * `#VALUE!`. Throws WorkbookError for what a cell cannot hold.
 *
 * @param onProgress told the share that is done, from 0 to 1
 */
export function patchWorkbook(
  parts: WorkbookPackage,
  model: WorkbookModel,
  changes: readonly CellChange[],
  layouts: readonly LayoutChange[] = [],
  onProgress?: (share: number) => void,
): Uint8Array {
  const result = parts.copy();
  const workbookPart = findWorkbookPart(parts);
  const bySheet = new Map<SheetModel, SheetChanges>();
  const sheetAt = (position: number): SheetModel => {
    const sheet = model.sheets[position];
    if (sheet === undefined) throw new WorkbookError(`the workbook has no sheet ${String(position + 1)}`);
    return sheet;
  };
  for (const change of changes) {
    const sheet = sheetAt(change.sheet);
    checkContent(sheet.name, change, change);
    const rows = bySheet.get(sheet) ?? new Map<number, Map<number, CellChange>>();
    const row = rows.get(change.row) ?? new Map<number, CellChange>();
    const earlier = row.get(change.column);
    row.set(change.column, earlier === undefined ? change : { ...earlier, ...change });
    bySheet.set(sheet, rows.set(change.row, row));
  }
  const dressed = new Map(layouts.map((layout) => [sheetAt(layout.sheet), layout]));
  for (const sheet of dressed.keys()) if (!bySheet.has(sheet)) bySheet.set(sheet, new Map());
  let movesFormulas = false;
  let done = 0;
  const styles = new NewStyles(result, workbookPart, model.styles);
  for (const [sheet, rows] of bySheet) {
    const layout = dressed.get(sheet);
    const patch = new SheetPatch(
      parts.readText(sheet.part),
      sheet,
      rows,
      layout && new SheetLayout(layout),
      () => ensureDynamicMark(result, workbookPart),
      (style, change) => styles.styleWith(style, change),
      (share) => onProgress?.((done + share) / bySheet.size),
    );
    const edits = patch.edits();
    if (edits.length > 0) result.writeText(sheet.part, applyEdits(patch.xml, edits));
    movesFormulas ||= patch.movesFormulas;
    done++;
  }
  styles.write();
  if (movesFormulas) {
    for (const chain of parts.linked(workbookPart, "calcChain")) result.remove(chain, workbookPart);
  }
  return result.toBytes();
}
