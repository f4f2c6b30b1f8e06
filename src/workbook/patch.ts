import { checkContent } from "./cell-markup";
import { ensureDynamicMark } from "./metadata";
import { type CellChange, type SheetModel, WorkbookError, type WorkbookModel } from "./model";
import { NewStyles } from "./new-styles";
import type { WorkbookPackage } from "./package";
import { type LayoutChange, SheetLayout } from "./sheet-layout";
import { type SheetChanges, SheetPatch } from "./sheet-patch";
import { findWorkbookPart } from "./workbook-part";
import { valueEdits, type ValuePlaces } from "./value-places";
import { applyEdits } from "./xml";

/** A file to be patched. */
export interface PatchedFile {
  readonly parts: WorkbookPackage;
  readonly model: WorkbookModel;
  /** Where the values of sheets stand, by part, where that is known. */
  readonly places?: ReadonlyMap<string, ValuePlaces>;
}

/**
 * The file with some cells, looks, widths, heights and panes changed. Only the sheets that change are written anew, and in
 * them only what changes; writing what a cell already holds changes nothing. Newer errors such as `#SPILL!` are stored as
 * `#VALUE!`. Throws WorkbookError for what a cell cannot hold.
 *
 * @param onProgress told the share that is done, from 0 to 1
 */
export function patchWorkbook(
  { parts, model, places }: PatchedFile,
  changes: readonly CellChange[],
  layouts: readonly LayoutChange[] = [],
  onProgress?: (share: number) => void,
): Uint8Array {
  const result = parts.copy();
  const workbookPart = findWorkbookPart(parts);
  const bySheet = new Map<SheetModel, CellChange[]>();
  const sheetAt = (position: number): SheetModel => {
    const sheet = model.sheets[position];
    if (sheet === undefined) throw new WorkbookError(`the workbook has no sheet ${String(position + 1)}`);
    return sheet;
  };
  for (const change of changes) {
    const sheet = sheetAt(change.sheet);
    checkContent(sheet.name, change, change);
    const list = bySheet.get(sheet);
    if (list === undefined) bySheet.set(sheet, [change]);
    else list.push(change);
  }
  const dressed = new Map(layouts.map((layout) => [sheetAt(layout.sheet), layout]));
  for (const sheet of dressed.keys()) if (!bySheet.has(sheet)) bySheet.set(sheet, []);
  let movesFormulas = false;
  let done = 0;
  const styles = new NewStyles(result, workbookPart, model.styles);
  for (const [sheet, own] of bySheet) {
    const layout = dressed.get(sheet);
    const known = layout === undefined ? places?.get(sheet.part) : undefined;
    const values = known && valueEdits(sheet, known, own);
    if (values !== undefined) {
      if (values.length > 0) result.writeText(sheet.part, applyEdits(parts.readText(sheet.part), values));
      done++;
      continue;
    }
    const patch = new SheetPatch(
      parts.readText(sheet.part),
      sheet,
      byRow(own),
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

/** Changes by row and column; later ones to one cell add to earlier ones. */
function byRow(changes: readonly CellChange[]): SheetChanges {
  const rows: SheetChanges = new Map();
  for (const change of changes) {
    const row = rows.get(change.row) ?? new Map<number, CellChange>();
    const earlier = row.get(change.column);
    row.set(change.column, earlier === undefined ? change : { ...earlier, ...change });
    rows.set(change.row, row);
  }
  return rows;
}
