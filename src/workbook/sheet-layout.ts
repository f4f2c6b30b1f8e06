import { cellAddress, MAX_COLUMNS } from "../formula/address";
import type { SheetModel } from "./model";
import { openWorkbook } from "./read";
import { scanSheet } from "./sheet-scan";
import { appendTo, applyEdits, type XmlEdit, type XmlElement } from "./xml";

/** Widths, heights, hidden rows and columns and frozen panes of one sheet that change; what is left out stays. */
export interface LayoutChange {
  readonly sheet: number;
  /** Widths in Excel's character units by column. */
  readonly columnWidths?: ReadonlyMap<number, number>;
  /** Heights in points by row. */
  readonly rowHeights?: ReadonlyMap<number, number>;
  readonly hiddenColumns?: ReadonlyMap<number, boolean>;
  readonly hiddenRows?: ReadonlyMap<number, boolean>;
  readonly frozen?: { readonly rows: number; readonly columns: number };
}

/** Excel's width of a column that no file gives one, in characters. */
const DEFAULT_WIDTH = 9.140625;

/** The file with other widths, heights and panes; everything else stays as it is. */
export function withLayout(bytes: Uint8Array, changes: readonly LayoutChange[]): Uint8Array {
  if (changes.length === 0) return bytes;
  const { model, parts: opened } = openWorkbook(bytes);
  const parts = opened.copy();
  for (const change of changes) {
    const sheet = model.sheets[change.sheet];
    if (sheet === undefined) continue;
    const text = parts.readText(sheet.part);
    const edits = layoutEdits(text, sheet, change);
    if (edits.length > 0) parts.writeText(sheet.part, applyEdits(text, edits));
  }
  return parts.toBytes();
}

function layoutEdits(text: string, sheet: SheetModel, change: LayoutChange): readonly XmlEdit[] {
  const edits: XmlEdit[] = [];
  const columns: XmlElement[] = [];
  const rows: { readonly index: number; readonly element: XmlElement }[] = [];
  const inView: XmlElement[] = [];
  let list: XmlElement | undefined;
  let sheetData: XmlElement | undefined;
  let view: XmlElement | undefined;
  let root: XmlElement | undefined;
  let head: XmlElement | undefined;
  scanSheet(text, sheet.part, sheet.name, {
    row({ index, element }) {
      rows.push({ index, element });
    },
    open(element) {
      root ??= element;
    },
    close(element) {
      if (element.is("sheetPr") || element.is("dimension")) head = element;
      else if (element.is("col")) columns.push(element);
      else if (element.is("cols")) list = element;
      else if (element.is("sheetData")) sheetData = element;
      else if (element.is("sheetView")) view ??= element;
      else if (element.parent?.is("sheetView") === true && view === undefined) inView.push(element);
    },
  });
  if (sheetData === undefined || root === undefined) return [];
  if (change.columnWidths !== undefined || change.hiddenColumns !== undefined) {
    const owner = list ?? sheetData;
    const markup = owner.wrap("cols", "", columnMarkup(owner, columns, change));
    const start = owner.start;
    edits.push({ start, end: list === undefined ? start : owner.end, text: markup });
  }
  edits.push(...rowEdits(sheetData, rows, change));
  if (change.frozen !== undefined)
    edits.push(...paneEdits(head?.end ?? root.contentStart, root, view, inView, change.frozen));
  return edits;
}

function columnMarkup(owner: XmlElement, columns: readonly XmlElement[], change: LayoutChange): string {
  const { columnWidths = new Map<number, number>(), hiddenColumns = new Map<number, boolean>() } = change;
  const changed = [...new Set([...columnWidths.keys(), ...hiddenColumns.keys()])].sort((a, b) => a - b);
  const known = new Set<number>();
  const pieces: { readonly first: number; readonly markup: string }[] = [];
  const attributesOf = (column: number): Record<string, string | null> => {
    const width = columnWidths.get(column);
    const isHidden = hiddenColumns.get(column);
    return {
      ...(width !== undefined && { width: String(width), customWidth: "1", bestFit: null }),
      ...(isHidden !== undefined && { hidden: isHidden ? "1" : null }),
    };
  };
  for (const element of columns) {
    let first = (element.number("min") ?? 1) - 1;
    const end = Math.min(MAX_COLUMNS, element.number("max") ?? 1);
    const add = (to: number, attributes: Record<string, string | null>): void => {
      if (to <= first) return;
      const span = { min: String(first + 1), max: String(to) };
      pieces.push({ first, markup: element.openTag({ ...span, ...attributes }, true) });
      first = to;
    };
    for (const column of changed.filter((candidate) => candidate >= first && candidate < end)) {
      add(column, {});
      add(column + 1, attributesOf(column));
      known.add(column);
    }
    add(end, {});
  }
  for (const column of changed.filter((candidate) => !known.has(candidate))) {
    const place = String(column + 1);
    const attributes = Object.entries({ width: String(DEFAULT_WIDTH), ...attributesOf(column) })
      .filter(([, value]) => value !== null)
      .map(([name, value]) => `${name}="${String(value)}"`);
    const markup = owner.wrap("col", `min="${place}" max="${place}" ${attributes.join(" ")}`, "");
    pieces.push({ first: column, markup });
  }
  return pieces
    .sort((a, b) => a.first - b.first)
    .map((piece) => piece.markup)
    .join("");
}

function rowEdits(
  sheetData: XmlElement,
  rows: readonly { readonly index: number; readonly element: XmlElement }[],
  { rowHeights = new Map<number, number>(), hiddenRows = new Map<number, boolean>() }: LayoutChange,
): readonly XmlEdit[] {
  const changed = [...new Set([...rowHeights.keys(), ...hiddenRows.keys()])].sort((a, b) => a - b);
  const byIndex = new Map(rows.map(({ index, element }) => [index, element]));
  const added: string[] = [];
  const edits: XmlEdit[] = [];
  for (const index of changed) {
    const height = rowHeights.get(index);
    const isHidden = hiddenRows.get(index);
    const attributes = {
      ...(height !== undefined && { ht: String(height), customHeight: "1" }),
      ...(isHidden !== undefined && { hidden: isHidden ? "1" : null }),
    };
    const element = byIndex.get(index);
    if (element !== undefined) {
      const { start, contentStart, isSelfClosing } = element;
      edits.push({ start, end: contentStart, text: element.openTag(attributes, isSelfClosing) });
      continue;
    }
    const kept = Object.entries(attributes).filter(([, value]) => value !== null);
    const list = [`r="${String(index + 1)}"`, ...kept.map(([name, value]) => `${name}="${String(value)}"`)];
    const markup = sheetData.wrap("row", list.join(" "), "");
    const next = rows.filter((row) => row.index > index).sort((a, b) => a.index - b.index)[0];
    if (sheetData.isSelfClosing) added.push(markup);
    else {
      const at = next?.element.start ?? sheetData.contentEnd;
      edits.push({ start: at, end: at, text: markup });
    }
  }
  return added.length === 0 ? edits : [...edits, appendTo(sheetData, added.join(""))];
}

function paneEdits(
  place: number,
  root: XmlElement,
  view: XmlElement | undefined,
  inView: readonly XmlElement[],
  { rows, columns }: { readonly rows: number; readonly columns: number },
): readonly XmlEdit[] {
  const active = rows > 0 && columns > 0 ? "bottomRight" : rows > 0 ? "bottomLeft" : "topRight";
  const attributes = [
    ...(columns > 0 ? [`xSplit="${String(columns)}"`] : []),
    ...(rows > 0 ? [`ySplit="${String(rows)}"`] : []),
    `topLeftCell="${cellAddress(rows, columns)}"`,
    `activePane="${active}"`,
    'state="frozen"',
  ];
  const pane = rows > 0 || columns > 0 ? root.wrap("pane", attributes.join(" "), "") : "";
  if (view === undefined) {
    if (pane === "") return [];
    const markup = root.wrap("sheetViews", "", root.wrap("sheetView", 'workbookViewId="0"', pane));
    return [{ start: place, end: place, text: markup }];
  }
  if (view.isSelfClosing) return pane === "" ? [] : [appendTo(view, pane)];
  // Selections name the pane they are in, so they go with the old panes.
  const dropped = inView.filter(({ local }) => local === "pane" || local === "selection");
  return [
    { start: view.contentStart, end: view.contentStart, text: pane },
    ...dropped.map(({ start, end }) => ({ start, end, text: "" })),
  ];
}
