import type { CellChange, WorkbookModel } from "./model";
import type { WorkbookPackage } from "./package";
import { PACKAGE_ROOT, relationshipsPart, TYPES_PART } from "./part-names";
import { proofFault } from "./proof-fault";
import { cellNumber, isRestyling, proveCells, proveFormulas } from "./prove-cells";
import { proveLayout, proveSurroundings } from "./prove-layout";
import type { LayoutChange } from "./sheet-layout";
import { findWorkbookPart } from "./workbook-part";
import { readXml, scanXml } from "./xml";

/** A file as it was read. */
export interface ReadFile {
  readonly parts: WorkbookPackage;
  readonly model: WorkbookModel;
}

/** What was meant to change in a file. */
export interface MeantChanges {
  readonly changes: readonly CellChange[];
  readonly layouts: readonly LayoutChange[];
}

/**
 * Proves that a written file is the one that was read with these changes and no others. Throws WorkbookError for the first
 * thing that is not: a part that changed or went without need, one that is no XML, a cell that holds something else, a
 * formula outside the range it belongs to.
 */
export function proveChanges(before: ReadFile, after: ReadFile, { changes, layouts }: MeantChanges): void {
  const meant = bySheet(changes);
  const dressed = new Map(layouts.map((layout) => [layout.sheet, layout]));
  proveParts(before, after, new Set([...meant.keys(), ...dressed.keys()]));
  const areWhole = changes.some(isRestyling) && areWholeStyles(before.parts);
  const looks = { before: before.model.styles, after: after.model.styles, areWhole };
  for (const [position, sheet] of before.model.sheets.entries()) {
    const written = after.model.sheets[position];
    if (written?.name !== sheet.name) throw proofFault(`sheet "${sheet.name}" is not where it was`);
    if (written === sheet) continue;
    const layout = dressed.get(position);
    proveCells(sheet, written, meant.get(position) ?? new Map<number, CellChange>(), looks);
    proveFormulas(sheet, written);
    proveLayout(sheet, written, layout);
    const texts = [before.parts.readText(sheet.part), after.parts.readText(written.part)] as const;
    proveSurroundings(sheet, texts, layout);
  }
  if (after.model.sheets.length !== before.model.sheets.length)
    throw proofFault("it has more sheets than before");
}

/** Changes by sheet and cell; later ones to one cell add to earlier ones. */
function bySheet(changes: readonly CellChange[]): Map<number, Map<number, CellChange>> {
  const sheets = new Map<number, Map<number, CellChange>>();
  for (const change of changes) {
    const cells = sheets.get(change.sheet) ?? new Map<number, CellChange>();
    const key = cellNumber(change);
    const earlier = cells.get(key);
    cells.set(key, earlier === undefined ? change : { ...earlier, ...change });
    sheets.set(change.sheet, cells);
  }
  return sheets;
}

/** Parts that writing cells may change; of these only the chain of calculation may go. */
function proveParts(before: ReadFile, after: ReadFile, changed: ReadonlySet<number>): void {
  const workbook = findWorkbookPart(before.parts);
  const chains = before.parts.linked(workbook, "calcChain");
  const mayChange = new Set(
    [
      ...[...changed].map((sheet) => before.model.sheets[sheet]?.part ?? ""),
      ...before.parts.linked(workbook, "styles"),
      ...after.parts.linked(workbook, "sheetMetadata"),
      relationshipsPart(workbook),
      TYPES_PART,
    ].map((name) => name.toLowerCase()),
  );
  for (const name of before.parts.names) {
    if (!after.parts.has(name)) {
      if (!chains.includes(name)) throw proofFault(`its part ${name} is missing`);
    } else if (!mayChange.has(name.toLowerCase()) && !before.parts.hasSame(name, after.parts)) {
      throw proofFault(`its part ${name} changed`);
    }
  }
  for (const name of after.parts.names) {
    if (before.parts.hasSame(name, after.parts)) continue;
    if (!mayChange.has(name.toLowerCase())) throw proofFault(`its part ${name} is new`);
    // Sheets were read already.
    if (!after.model.sheets.some(({ part }) => part === name)) scanXml(after.parts.readText(name), name, {});
  }
  for (const source of [PACKAGE_ROOT, workbook]) {
    const lost = after.parts
      .relationships(source)
      .find((link) => !link.isExternal && !after.parts.has(link.target));
    if (lost !== undefined && before.parts.has(lost.target))
      throw proofFault(`a link leads to ${lost.target}, which is missing`);
  }
}

/** Whether a file's styles have all that a new one needs. */
function areWholeStyles(parts: WorkbookPackage): boolean {
  const [part] = parts.linked(findWorkbookPart(parts), "styles");
  if (part === undefined || !parts.has(part)) return false;
  const root = readXml(parts.readText(part), part);
  return ["fonts", "fills", "borders", "cellXfs"].every((list) => root.child(list) !== undefined);
}
