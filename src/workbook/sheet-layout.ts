import { cellAddress, MAX_COLUMNS } from "../formula/address";
import { appendTo, type XmlEdit, type XmlElement } from "./xml";

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

/** Attributes of a row that change; null drops one. */
export type RowSize = Readonly<Record<string, string | null>>;

/** Attributes of a new element, those without a value left out. */
export function attributesText(attributes: Readonly<Record<string, string | null>>): string {
  return Object.entries(attributes)
    .flatMap(([name, value]) => (value === null ? [] : [`${name}="${value}"`]))
    .join(" ");
}

/** Finds what a change of the layout does to a sheet's part, while another walks over it. */
export class SheetLayout {
  private readonly columns: XmlElement[] = [];
  private readonly inView: XmlElement[] = [];
  private readonly sizes: Map<number, RowSize>;
  private list: XmlElement | undefined;
  private view: XmlElement | undefined;
  private head: XmlElement | undefined;

  constructor(private readonly change: LayoutChange) {
    this.sizes = rowSizes(change);
  }

  /** Takes note of an element around the rows, once it has closed. */
  take(element: XmlElement): void {
    if (element.is("sheetPr") || element.is("dimension")) this.head = element;
    else if (element.is("col")) this.columns.push(element);
    else if (element.is("cols")) this.list = element;
    else if (element.is("sheetView")) this.view ??= element;
    else if (element.parent?.is("sheetView") === true && this.view === undefined) this.inView.push(element);
  }

  /** What changes of a row that the file holds. */
  takeRow(index: number): RowSize | undefined {
    const size = this.sizes.get(index);
    this.sizes.delete(index);
    return size;
  }

  /** What is to be of rows that the file did not hold. */
  leftRows(): ReadonlyMap<number, RowSize> {
    return this.sizes;
  }

  /** The edits around the rows. */
  edits(sheetData: XmlElement): readonly XmlEdit[] {
    const { change, list } = this;
    const edits: XmlEdit[] = [];
    if (hasColumns(change)) {
      const owner = list ?? sheetData;
      const markup = owner.wrap("cols", "", columnMarkup(owner, this.columns, change));
      edits.push({ start: owner.start, end: list === undefined ? owner.start : owner.end, text: markup });
    }
    const root = sheetData.parent;
    if (change.frozen !== undefined && root !== undefined)
      edits.push(
        ...paneEdits(this.head?.end ?? root.contentStart, root, this.view, this.inView, change.frozen),
      );
    return edits;
  }
}

function hasColumns({ columnWidths, hiddenColumns }: LayoutChange): boolean {
  return (columnWidths?.size ?? 0) + (hiddenColumns?.size ?? 0) > 0;
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
    const width = String(DEFAULT_WIDTH);
    const attributes = attributesText({ min: place, max: place, width, ...attributesOf(column) });
    const markup = owner.wrap("col", attributes, "");
    pieces.push({ first: column, markup });
  }
  return pieces
    .sort((a, b) => a.first - b.first)
    .map((piece) => piece.markup)
    .join("");
}

function rowSizes({ rowHeights = new Map(), hiddenRows = new Map() }: LayoutChange): Map<number, RowSize> {
  const indexes = new Set([...rowHeights.keys(), ...hiddenRows.keys()]);
  return new Map(
    [...indexes].map((index) => {
      const height = rowHeights.get(index);
      const isHidden = hiddenRows.get(index);
      const size: RowSize = {
        ...(height !== undefined && { ht: String(height), customHeight: "1" }),
        ...(isHidden !== undefined && { hidden: isHidden ? "1" : null }),
      };
      return [index, size];
    }),
  );
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
