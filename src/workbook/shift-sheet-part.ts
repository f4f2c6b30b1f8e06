import { movedIndex, movedRange } from "../formula/axis-shift";
import { cellAddress, parseCell, parseRange, rangeAddress, type CellRange } from "../formula/address";
import { formulaMarkup } from "./cell-markup";
import { FilledRanges } from "./filled-ranges";
import { type CellFormula, type SheetModel, WorkbookError } from "./model";
import { movedFormula, type SheetShift } from "./moved-formula";
import { type ScannedCell, type ScannedRow, scanSheet } from "./sheet-scan";
import { SheetSurroundings } from "./sheet-surroundings";
import { applyEdits, escapeText, type XmlEdit, type XmlElement } from "./xml";
import { encodeXstring } from "./xstring";

/** Formulas that new cells hold, by their row and column after the shift. */
export type NewFormulas = ReadonlyMap<string, string>;

/** A sheet's part after rows or columns of this or another sheet moved. */
export function shiftSheetPart(
  xml: string,
  sheet: SheetModel,
  change: SheetShift,
  newFormulas: NewFormulas = new Map(),
): string {
  return new SheetPartShift(xml, sheet, change, newFormulas).shifted();
}

/** A row's or cell's markup at its new place. */
interface Placed {
  readonly index: number;
  readonly markup: string;
}

class SheetPartShift {
  private readonly isHere: boolean;
  /** Shared formulas that are written out, since their cells no longer follow from the first one. */
  private readonly loosened: ReadonlySet<string>;
  private readonly rows: Placed[] = [];
  private readonly edits: XmlEdit[] = [];
  private readonly surroundings: SheetSurroundings;
  private readonly spills: FilledRanges;
  private sheetData: XmlElement | undefined;
  private scanned = 0;
  /** Row above the inserted ones, whose looks they take. */
  private pattern: ScannedRow | undefined;

  constructor(
    private readonly xml: string,
    private readonly sheet: SheetModel,
    private readonly change: SheetShift,
    private readonly newFormulas: NewFormulas,
  ) {
    this.isHere = sheet.name === change.sheet;
    this.loosened = this.sharedToLoosen();
    this.spills = new FilledRanges(
      sheet.cells.flatMap(({ formula }) => {
        return formula?.kind === "dynamic" && formula.range ? [formula.range] : [];
      }),
    );
    this.surroundings = new SheetSurroundings(sheet.name, change, this.isHere);
  }

  shifted(): string {
    scanSheet(this.xml, this.sheet.part, this.sheet.name, {
      row: (row) => {
        this.onRow(row);
      },
      open: (element) => {
        this.surroundings.open(element);
      },
      close: (element) => {
        if (element.is("sheetData")) this.sheetData ??= element;
        else this.surroundings.close(element);
      },
    });
    this.addRows();
    const { sheetData } = this;
    if (sheetData !== undefined && this.isHere) {
      const content = [...this.rows]
        .sort((a, b) => a.index - b.index)
        .map((row) => row.markup)
        .join("");
      const { start, end, name } = sheetData;
      this.edits.push({ start, end, text: `${sheetData.openTag({})}${content}</${name}>` });
    }
    return applyEdits(this.xml, [...this.edits, ...this.surroundings.edits(this.xml)]);
  }

  private sharedToLoosen(): ReadonlySet<string> {
    const loosened = new Set<string>();
    let scanned = 0;
    if (!this.xml.includes("shared")) return loosened;
    scanSheet(this.xml, this.sheet.part, this.sheet.name, {
      row: ({ cells }) => {
        for (const cell of cells) {
          const text = this.sheet.cells[scanned++]?.formula?.text;
          const group = cell.formula?.get("t") === "shared" ? cell.formula.get("si") : undefined;
          if (group !== undefined && text !== undefined && (this.isHere || this.moved(text) !== text))
            loosened.add(group);
        }
      },
    });
    return loosened;
  }

  private moved(formula: string): string {
    return movedFormula(this.change, formula, this.sheet.name);
  }

  private onRow(row: ScannedRow): void {
    const { shift } = this.change;
    const index = this.isHere && shift.axis === "row" ? movedIndex(shift, row.index) : row.index;
    const cells: Placed[] = [];
    let isSame = index === row.index;
    for (const cell of row.cells) {
      const current = this.sheet.cells[this.scanned++];
      const column = this.isHere && shift.axis === "column" ? movedIndex(shift, cell.column) : cell.column;
      if (index === undefined || column === undefined) {
        isSame = false;
        continue;
      }
      if (this.holdsSpillOnly(cell, current?.formula)) {
        isSame = false;
        continue;
      }
      const raw = this.xml.slice(cell.element.start, cell.element.end);
      const markup = this.cellMarkup(cell, current?.formula, index, column, raw);
      if (markup !== raw && !this.isHere)
        this.edits.push({ start: cell.element.start, end: cell.element.end, text: markup });
      isSame &&= markup === raw;
      cells.push({ index: column, markup });
    }
    if (!this.isHere || index === undefined) return;
    if (shift.kind === "insert" && shift.axis === "row" && row.index === shift.at - 1) this.pattern = row;
    const added = this.addedCells(row, index);
    if (isSame && added.length === 0) {
      this.rows.push({ index, markup: this.xml.slice(row.element.start, row.element.end) });
      return;
    }
    const content = [...cells, ...added]
      .sort((a, b) => a.index - b.index)
      .map((cell) => cell.markup)
      .join("");
    const spans = shift.axis === "column" && row.element.get("spans") !== undefined ? { spans: null } : {};
    const open = row.element.openTag({ r: String(index + 1), ...spans });
    this.rows.push({ index, markup: `${open}${content}</${row.element.name}>` });
  }

  /** Cells of inserted columns: they look like their neighbour on the left. */
  private addedCells(row: ScannedRow, index: number): readonly Placed[] {
    const { shift } = this.change;
    if (shift.kind !== "insert" || shift.axis !== "column") return [];
    const style = row.cells.find((cell) => cell.column === shift.at - 1)?.element.get("s");
    return Array.from({ length: shift.count }, (_, step) => shift.at + step).flatMap((column) =>
      this.newCell(row.element, index, column, style),
    );
  }

  private addRows(): void {
    const { shift } = this.change;
    if (!this.isHere || shift.kind !== "insert" || shift.axis !== "row") return;
    const owner = this.pattern?.element ?? this.sheetData;
    if (owner === undefined) return;
    for (let index = shift.at; index < shift.at + shift.count; index++) {
      const styles = new Map(this.pattern?.cells.map((cell) => [cell.column, cell.element.get("s")]));
      const columns = new Set([...styles.keys(), ...this.newColumns(index)]);
      const cells = [...columns]
        .sort((a, b) => a - b)
        .flatMap((column) => this.newCell(owner, index, column, styles.get(column)))
        .map((cell) => cell.markup)
        .join("");
      const kept = ["s", "customFormat", "ht", "customHeight"].flatMap((name) => {
        const value = this.pattern?.element.get(name);
        return value === undefined ? [] : [`${name}="${value}"`];
      });
      if (cells === "" && kept.length === 0) continue;
      const name = owner === this.sheetData ? owner.named("row") : owner.name;
      const open = [name, `r="${String(index + 1)}"`, ...kept].join(" ");
      this.rows.push({ index, markup: `<${open}>${cells}</${name}>` });
    }
  }

  private newColumns(row: number): readonly number[] {
    return [...this.newFormulas.keys()].flatMap((address) => {
      const place = parseCell(address);
      return place?.row === row ? [place.column] : [];
    });
  }

  private newCell(
    owner: XmlElement,
    row: number,
    column: number,
    style: string | undefined,
  ): readonly Placed[] {
    const address = cellAddress(row, column);
    const text = this.newFormulas.get(address);
    if (style === undefined && text === undefined) return [];
    const formula = text === undefined ? "" : owner.wrap("f", "", escapeText(encodeXstring(text)));
    const attributes = `r="${address}"${style === undefined ? "" : ` s="${style}"`}`;
    return [{ index: column, markup: owner.wrap("c", attributes, formula) }];
  }

  private cellMarkup(
    cell: ScannedCell,
    formula: CellFormula | undefined,
    row: number,
    column: number,
    raw: string,
  ): string {
    const isMoved = row !== cell.row || column !== cell.column;
    const nextFormula = this.formulaMarkup(cell, formula, row, column);
    const isEmptied = this.isHere && formula === undefined && this.isSpilled(cell);
    if (!isMoved && nextFormula === undefined && !isEmptied) return raw;
    const { element } = cell;
    const attributes: Record<string, string | null> =
      isMoved || element.get("r") !== undefined ? { r: cellAddress(row, column) } : {};
    // Values of a spill belong to its first cell and are written anew at their places.
    if (isEmptied) Object.assign(attributes, { t: null, vm: null });
    const pieces: XmlEdit[] = [];
    const { end, contentStart, contentEnd, isSelfClosing } = element;
    if (cell.formula !== undefined && nextFormula !== undefined)
      pieces.push({
        start: cell.formula.start - contentStart,
        end: cell.formula.end - contentStart,
        text: nextFormula,
      });
    for (const inner of isEmptied ? [cell.value, cell.inline] : []) {
      if (inner) pieces.push({ start: inner.start - contentStart, end: inner.end - contentStart, text: "" });
    }
    if (isSelfClosing) return element.openTag(attributes, true);
    const content = applyEdits(this.xml.slice(contentStart, contentEnd), pieces);
    return element.openTag(attributes) + content + this.xml.slice(contentEnd, end);
  }

  /** Markup of a formula after the shift; undefined where it stays as it is. */
  private formulaMarkup(
    cell: ScannedCell,
    formula: CellFormula | undefined,
    row: number,
    column: number,
  ): string | undefined {
    const { formula: element } = cell;
    if (formula === undefined || element === undefined) return undefined;
    const text = formula.kind === "dataTable" ? "" : this.moved(formula.text);
    if (element.get("t") === "shared") {
      return this.loosened.has(element.get("si") ?? "")
        ? formulaMarkup(cell.element, { row, column }, { text, kind: "normal" })
        : undefined;
    }
    const attributes: Record<string, string> = {};
    if (this.isHere && formula.range !== undefined) {
      const range = this.movedFormulaRange(formula, formula.range, row, column);
      attributes["ref"] = rangeAddress(range);
      for (const name of formula.kind === "dataTable" ? ["r1", "r2"] : []) {
        const input = parseRange(element.get(name) ?? "");
        if (input === undefined) continue;
        const moved = movedRange(this.change.shift, input);
        if (moved === undefined) throw this.refusal(row, column, "its input cell would be deleted");
        attributes[name] = rangeAddress(moved);
      }
    }
    const isSame =
      (formula.kind === "dataTable" || text === formula.text) &&
      Object.entries(attributes).every(([name, value]) => element.get(name) === value);
    if (isSame) return undefined;
    if (element.isSelfClosing) return element.openTag(attributes, true);
    return `${element.openTag(attributes)}${escapeText(encodeXstring(text))}</${element.name}>`;
  }

  private movedFormulaRange(formula: CellFormula, range: CellRange, row: number, column: number): CellRange {
    const rows = range.lastRow - range.firstRow;
    const columns = range.lastColumn - range.firstColumn;
    const moved = { firstRow: row, firstColumn: column, lastRow: row + rows, lastColumn: column + columns };
    // A spill keeps its size whatever is inserted below its first cell; an array or what-if table is one block.
    if (formula.kind === "dynamic") return moved;
    const block = movedRange(this.change.shift, range);
    if (block === undefined || rangeAddress(block) !== rangeAddress(moved)) {
      throw this.refusal(row, column, "it fills several cells that must stay together");
    }
    return moved;
  }

  /** A cell that is there only for the value of a spill. */
  private holdsSpillOnly(cell: ScannedCell, formula: CellFormula | undefined): boolean {
    return (
      this.isHere && formula === undefined && cell.element.get("s") === undefined && this.isSpilled(cell)
    );
  }

  private isSpilled({ row, column }: ScannedCell): boolean {
    return this.spills.has(row, column);
  }

  private refusal(row: number, column: number, why: string): WorkbookError {
    return new WorkbookError(`the formula in ${cellAddress(row, column)} does not allow it: ${why}`);
  }
}
