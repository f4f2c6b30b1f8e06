import { cellAddress, type CellPosition, type CellRange, parseRange, rangeAddress } from "../formula/address";
import { formulaMarkup, valueMarkup } from "./cell-markup";
import { widenRange, widenSpans } from "./extent";
import { FilledRanges } from "./filled-ranges";
import {
  type CellChange,
  type CellFormula,
  type SheetModel,
  type WorkbookCell,
  WorkbookError,
} from "./model";
import { type NextCell, nextOf, filledBy, sameFormula, sameRange, sameValue } from "./next-cell";
import { attributesText, type RowSize, type SheetLayout } from "./sheet-layout";
import { type ScannedCell, type ScannedRow, scanSheet } from "./sheet-scan";
import { appendTo, type XmlEdit, type XmlElement } from "./xml";

/** Rows between two reports of how far a sheet is patched. */
const PROGRESS_ROWS = 500;

/** Changes by row and column. */
export type SheetChanges = Map<number, Map<number, CellChange>>;

/** Finds the edits of one sheet's part. */
export class SheetPatch {
  /** Whether a formula came, went or became of another kind, so that the calculation chain no longer fits. */
  movesFormulas = false;
  private readonly found: XmlEdit[] = [];
  /** What array formulas fill before and after the changes. */
  private readonly filledBefore: FilledRanges;
  private readonly filled: FilledRanges;
  /** Shared formulas whose first cell loses them. */
  private readonly orphans = new Set<string>();
  private readonly columnStyles: { readonly first: number; readonly last: number; readonly style: string }[] =
    [];
  private readonly rowStarts: { readonly index: number; readonly start: number }[] = [];
  private sheetData: XmlElement | undefined;
  private dimension: XmlElement | undefined;
  private added: CellRange | undefined;
  private scanned = 0;

  constructor(
    readonly xml: string,
    private readonly sheet: SheetModel,
    private readonly changes: SheetChanges,
    private readonly layout: SheetLayout | undefined,
    private readonly dynamicMark: () => number,
    private readonly styleWith: (style: number, change: CellChange) => number,
    private readonly onProgress: (share: number) => void,
  ) {
    const before: CellRange[] = [];
    const after: CellRange[] = [];
    for (const cell of sheet.cells) {
      const range = cell.formula?.range;
      const change = changes.get(cell.row)?.get(cell.column);
      if (range !== undefined) before.push(range);
      if (change?.formula !== undefined || change?.range !== undefined)
        after.push(...filledBy(nextOf(cell, change)));
      else if (range !== undefined) after.push(range);
    }
    for (const row of changes.values())
      for (const change of row.values())
        if (change.formula !== undefined) after.push(...filledBy(nextOf(undefined, change)));
    this.filledBefore = new FilledRanges(before);
    this.filled = new FilledRanges(after);
  }

  edits(): readonly XmlEdit[] {
    let rows = 0;
    scanSheet(this.xml, this.sheet.part, this.sheet.name, {
      row: (row) => {
        if (++rows % PROGRESS_ROWS === 0) this.onProgress(row.element.start / this.xml.length);
        this.onRow(row);
      },
      open: (element) => {
        if (element.is("dimension")) this.dimension ??= element;
        const style = element.is("col") ? element.get("style") : undefined;
        if (style === undefined) return;
        this.columnStyles.push({
          first: (element.number("min") ?? 0) - 1,
          last: (element.number("max") ?? 0) - 1,
          style,
        });
      },
      close: (element) => {
        if (element.is("sheetData")) this.sheetData ??= element;
        this.layout?.take(element);
      },
    });
    const { sheetData } = this;
    if (sheetData === undefined) {
      throw new WorkbookError(`the file is damaged: sheet "${this.sheet.name}" has no place for cells`);
    }
    this.addRows(sheetData);
    this.growDimension();
    this.found.push(...(this.layout?.edits(sheetData) ?? []));
    return this.found;
  }

  private onRow(row: ScannedRow): void {
    this.rowStarts.push({ index: row.index, start: row.element.start });
    const pending = this.changes.get(row.index);
    this.changes.delete(row.index);
    for (const cell of row.cells) {
      // The model was read by the same walk, so its cells come in the same order.
      const current = this.sheet.cells[this.scanned++];
      if (current === undefined) continue;
      const change = pending?.get(cell.column);
      if (change !== undefined) pending?.delete(cell.column);
      // Most cells of a large sheet: nothing of them changes.
      else if (cell.formula === undefined) continue;
      this.onCell(cell, current, change);
    }
    const fresh = pending === undefined ? [] : this.newCells(row.index, pending, row.element);
    const sizes = this.layout?.takeRow(row.index);
    const [first] = fresh;
    const last = fresh.at(-1);
    const spans = first && last ? widenSpans(row.element.get("spans"), first.column, last.column) : undefined;
    const attributes = { ...sizes, ...(spans !== undefined && { spans }) };
    const isOther = Object.keys(attributes).length > 0;
    const { start, contentStart, contentEnd, end, name, isSelfClosing } = row.element;
    if (isSelfClosing && fresh.length > 0) {
      const cells = fresh.map((cell) => cell.markup).join("");
      this.found.push({ start, end, text: `${row.element.openTag(attributes)}${cells}</${name}>` });
      return;
    }
    if (isOther)
      this.found.push({ start, end: contentStart, text: row.element.openTag(attributes, isSelfClosing) });
    let next = 0;
    for (const { column, markup } of fresh) {
      while ((row.cells[next]?.column ?? Infinity) < column) next++;
      const at = row.cells[next]?.element.start ?? contentEnd;
      this.found.push({ start: at, end: at, text: markup });
    }
  }

  private onCell(cell: ScannedCell, current: WorkbookCell, change: CellChange | undefined): void {
    const next = nextOf(current, change);
    const changesFormula = !sameFormula(current.formula, next.formula);
    const changesRange = !sameRange(current.formula?.range, next.formula?.range);
    const changesValue = !sameValue(current.value, next.value);
    const shared = sharedIndex(cell.formula);
    if (shared !== undefined && cell.formula?.get("ref") !== undefined) {
      if (changesFormula) this.orphans.add(shared);
      else this.orphans.delete(shared);
    }
    const isOrphan = shared !== undefined && cell.formula?.text === "" && this.orphans.has(shared);
    const style = change === undefined ? current.style : this.styleWith(current.style, change);
    const changesStyle = style !== current.style;
    const isLeft = current.isFilled === true && this.isLeft(cell);
    const changesMore = changesFormula || changesRange || isOrphan || changesStyle || isLeft;
    if (!changesMore && (!changesValue || this.replacesValue(cell, next))) return;
    this.noteFormula(current.formula, next.formula);
    this.movesFormulas ||= isLeft;

    // A text constant is kept in another way than the text that a formula gives.
    const swapsKind = isLeft || (current.formula === undefined) !== (next.formula === undefined);
    const writesValue = changesValue || (swapsKind && typeof next.value === "string");
    const attributes: Record<string, string | null> = changesStyle ? { s: String(style) } : {};
    const content: string[] = [];
    if (changesFormula) {
      attributes["cm"] = next.formula?.kind === "dynamic" ? String(this.dynamicMark()) : null;
      content.push(formulaMarkup(cell.element, cell, next.formula));
    } else if (cell.formula !== undefined && !isLeft) {
      content.push(this.keptFormula(cell, cell.formula, next, isOrphan));
    }
    if (writesValue) {
      const isResult = next.formula !== undefined || this.isInArray(cell);
      const { type, markup } = valueMarkup(cell.element, next.value, isResult);
      attributes["t"] = type;
      // Rich values such as pictures, data types and newer errors belong to the old value.
      if (changesValue) attributes["vm"] = null;
      content.push(markup);
    } else if (cell.value !== undefined) content.push(this.raw(cell.value));
    if (!writesValue && cell.inline !== undefined) content.push(this.raw(cell.inline));
    content.push(...cell.others.map((element) => this.raw(element)));
    const { start, end, name } = cell.element;
    const body = content.join("");
    const isUnset = (key: string): boolean =>
      attributes[key] === null || (attributes[key] ?? cell.element.get(key)) === undefined;
    const isBare = body === "" && ["s", "ph", "cm"].every(isUnset);
    const open = cell.element.openTag(attributes, body === "");
    this.found.push({ start, end, text: isBare ? "" : body === "" ? open : `${open}${body}</${name}>` });
  }

  /** Writes a value over one of the same type; false where more of the cell's markup has to change with it. */
  private replacesValue(cell: ScannedCell, next: NextCell): boolean {
    const { element, value, inline } = cell;
    if (value === undefined || inline !== undefined || element.get("vm") !== undefined) return false;
    const isResult = next.formula !== undefined || this.isInArray(cell);
    const { type, markup } = valueMarkup(element, next.value, isResult);
    if (markup === "" || (element.get("t") ?? "n") !== (type ?? "n")) return false;
    this.found.push({ start: value.start, end: value.end, text: markup });
    return true;
  }

  private keptFormula(cell: ScannedCell, formula: XmlElement, next: NextCell, isOrphan: boolean): string {
    if (isOrphan) return formulaMarkup(cell.element, cell, next.formula);
    const range = next.formula?.range;
    if (range === undefined || next.formula?.kind === "dataTable") return this.raw(formula);
    const text = this.xml.slice(formula.contentStart, formula.contentEnd);
    return `${formula.openTag({ ref: rangeAddress(range) })}${text}</${formula.name}>`;
  }

  /** Markup of cells that the file does not hold yet, in the order of columns. */
  private newCells(
    row: number,
    changes: ReadonlyMap<number, CellChange>,
    rowElement: XmlElement | undefined,
  ): readonly { readonly column: number; readonly markup: string }[] {
    const owner = rowElement ?? this.sheetData;
    if (owner === undefined) return [];
    const ordered = [...changes].sort(([a], [b]) => a - b);
    return ordered.flatMap(([column, change]) => {
      const next = nextOf(undefined, change);
      const isEmpty = next.value === null && next.formula === undefined;
      if (isEmpty && change.style === undefined && change.look === undefined) return [];
      const rowStyle = rowElement?.flag("customFormat") === true ? rowElement.get("s") : undefined;
      const inherited =
        rowStyle ?? this.columnStyles.find((s) => column >= s.first && column <= s.last)?.style;
      const isOther =
        change.style !== undefined || change.numberFormat !== undefined || change.look !== undefined;
      const style = isOther ? String(this.styleWith(Number(inherited ?? 0), change)) : inherited;
      // An empty cell that looks as it did needs no markup.
      if (isEmpty && change.style === undefined && style === (inherited ?? "0")) return [];
      this.noteFormula(undefined, next.formula);
      this.grow(row, column);
      const isResult = next.formula !== undefined || this.isInArray({ row, column });
      const { type, markup } = valueMarkup(owner, next.value, isResult);
      const attributes = [
        `r="${cellAddress(row, column)}"`,
        ...(style === undefined ? [] : [`s="${style}"`]),
        ...(type === null ? [] : [`t="${type}"`]),
        ...(next.formula?.kind === "dynamic" ? [`cm="${String(this.dynamicMark())}"`] : []),
      ];
      const formula = formulaMarkup(owner, { row, column }, next.formula);
      return [{ column, markup: owner.wrap("c", attributes.join(" "), formula + markup) }];
    });
  }

  /** Adds the rows that the file does not hold yet. */
  private addRows(sheetData: XmlElement): void {
    const sizes = this.layout?.leftRows() ?? new Map<number, RowSize>();
    const indexes = [...new Set([...this.changes.keys(), ...sizes.keys()])].sort((a, b) => a - b);
    const rows = indexes.flatMap((index) => {
      const cells = this.newCells(index, this.changes.get(index) ?? new Map<number, CellChange>(), undefined);
      const size = attributesText(sizes.get(index) ?? {});
      if (cells.length === 0 && size === "") return [];
      const content = cells.map((cell) => cell.markup).join("");
      return [
        { index, markup: sheetData.wrap("row", `r="${String(index + 1)}" ${size}`.trimEnd(), content) },
      ];
    });
    if (rows.length === 0) return;
    if (sheetData.isSelfClosing) {
      this.found.push(appendTo(sheetData, rows.map((row) => row.markup).join("")));
      return;
    }
    let next = 0;
    for (const { index, markup } of rows) {
      while ((this.rowStarts[next]?.index ?? Infinity) < index) next++;
      const at = this.rowStarts[next]?.start ?? sheetData.contentEnd;
      this.found.push({ start: at, end: at, text: markup });
    }
  }

  private growDimension(): void {
    const old = parseRange(this.dimension?.get("ref") ?? "");
    if (this.dimension === undefined || old === undefined || this.added === undefined) return;
    const ref = rangeAddress(widenRange(old, this.added));
    if (ref === rangeAddress(old)) return;
    const { start, contentStart, isSelfClosing } = this.dimension;
    this.found.push({ start, end: contentStart, text: this.dimension.openTag({ ref }, isSelfClosing) });
  }

  private grow(row: number, column: number): void {
    const cell = { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
    this.added = this.added === undefined ? cell : widenRange(this.added, cell);
  }

  private noteFormula(before: CellFormula | undefined, after: CellFormula | undefined): void {
    this.movesFormulas ||= before?.kind !== after?.kind;
  }

  private isInArray({ row, column }: CellPosition): boolean {
    return this.filled.has(row, column);
  }

  /** Whether an array formula filled a cell and no longer does. */
  private isLeft({ row, column }: CellPosition): boolean {
    return this.filledBefore.has(row, column) && !this.filled.has(row, column);
  }

  private raw(element: XmlElement): string {
    return this.xml.slice(element.start, element.end);
  }
}

function sharedIndex(formula: XmlElement | undefined): string | undefined {
  return formula?.get("t") === "shared" ? formula.get("si") : undefined;
}
