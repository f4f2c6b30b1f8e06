import type { CellRange } from "../formula/address";
import { ourFunction, fileFormula } from "../formula/names";
import { formulaWriting } from "../sheet/formula-writing";
import { tokenize, withoutPrefix } from "../formula/tokens";
import type { CellPlace, ComputedCell, SheetEngine, UncomputedCell } from "../sheet/engine";
import { functionNamed } from "../functions/catalogue";
import type { CellChange, CellFormula, CellValue, SheetModel, WorkbookModel } from "../workbook/model";
import { partnerCopy, putFormulasBack } from "../workbook/partner-copy";
import { openWorkbook, type OpenWorkbook } from "../workbook/read";
import type { Edit, Outcome, ShownCell, Spill, Writing } from "./messages";

function keyOf({ sheet, row, column }: CellPlace): string {
  return `${sheet}/${row}/${column}`;
}

function isSame(a: CellValue | undefined, b: CellValue): boolean {
  if (typeof a === "object" && typeof b === "object" && a !== null && b !== null) return a.error === b.error;
  return a === b;
}

function isMany({ firstRow, firstColumn, lastRow, lastColumn }: CellRange): boolean {
  return firstRow !== lastRow || firstColumn !== lastColumn;
}

function* placesIn(sheet: number, range: CellRange): Iterable<CellPlace> {
  for (let row = range.firstRow; row <= range.lastRow; row++) {
    for (let column = range.firstColumn; column <= range.lastColumn; column++) yield { sheet, row, column };
  }
}

/** What array and spilling formulas of a sheet fill, as the file stores it. */
function storedSpills(sheet: SheetModel, position: number): readonly Spill[] {
  const values = new Map(sheet.cells.map((cell) => [`${cell.row}/${cell.column}`, cell.value]));
  return sheet.cells.flatMap(({ row, column, formula }): readonly Spill[] => {
    if (formula?.range === undefined || formula.kind === "normal") return [];
    const { firstRow, firstColumn, lastRow, lastColumn } = formula.range;
    const rows = Array.from({ length: lastRow - firstRow + 1 }, (_, down) =>
      Array.from(
        { length: lastColumn - firstColumn + 1 },
        (_, across) => values.get(`${firstRow + down}/${firstColumn + across}`) ?? null,
      ),
    );
    return [{ sheet: position, row, column, range: formula.range, values: rows }];
  });
}

/** Excel's own functions whose result may be more than one cell, whatever they give at present. */
const FILLING = new Set(
  `ANCHORARRAY BYCOL BYROW CHOOSECOLS CHOOSEROWS DROP EXPAND FILTER HSTACK MAKEARRAY MAP RANDARRAY SCAN SEQUENCE SORT SORTBY
  TAKE TEXTSPLIT TOCOL TOROW TRANSPOSE UNIQUE VSTACK WRAPCOLS WRAPROWS XLOOKUP`.split(/\s+/),
);

/** What a typed formula shows in Excel until it is computed there: here it was not. */
const UNKNOWN_NAME = { error: "#NAME?" } as const;

/** True for a formula whose result may be more than one cell, so that Excel must not cut it to one. */
function mayFill(formula: string): boolean {
  return tokenize(formula).some(({ kind, text }) => {
    if (kind !== "call") return false;
    const ours = ourFunction(text);
    if (ours === undefined) return FILLING.has(withoutPrefix(text).toUpperCase());
    return functionNamed(ours)?.result.kind !== "value";
  });
}

/** One open workbook with what a person changed in it since: computes, and writes the file. */
export class Calculation {
  private readonly opened: OpenWorkbook;
  private readonly inputs = new Map<string, Edit>();
  private readonly shown = new Map<string, CellValue>();
  private readonly spills = new Map<string, Spill>();
  private engine: SheetEngine | undefined;
  /** The latest result of every formula that was computed. */
  private readonly computed = new Map<string, ComputedCell>();
  private uncomputed: readonly UncomputedCell[] = [];

  /**
   * Throws WorkbookError for bytes that are no readable workbook. `isResumed`: what is shown differs from the file
   * already, so that every result counts as a change.
   */
  constructor(bytes: Uint8Array, isResumed = false) {
    this.opened = openWorkbook(bytes);
    for (const [position, sheet] of this.model.sheets.entries()) {
      for (const { row, column, value, formula } of sheet.cells) {
        if (formula && !isResumed) this.shown.set(keyOf({ sheet: position, row, column }), value);
      }
      for (const spill of storedSpills(sheet, position)) this.spills.set(keyOf(spill), spill);
    }
  }

  get model(): WorkbookModel {
    return this.opened.model;
  }

  get filled(): readonly Spill[] {
    return [...this.spills.values()];
  }

  /** Gives the workbook to an engine; nothing is computed before. */
  async load(engine: SheetEngine): Promise<void> {
    this.engine = engine;
    await engine.load(this.model);
  }

  async edit(edits: readonly Edit[]): Promise<void> {
    for (const edit of edits) {
      const key = keyOf(edit);
      const numberFormat = edit.numberFormat ?? this.inputs.get(key)?.numberFormat;
      this.inputs.set(key, { ...edit, ...(numberFormat !== undefined && { numberFormat }) });
      this.shown.delete(key);
      this.spills.delete(key);
      this.computed.delete(key);
      await this.engine?.setCell(edit, edit.input);
    }
  }

  /** Computes what an edit touched; the first time everything. Throws the signal's reason where it is stopped. */
  async recalculate(onProgress: (share: number) => void, signal: AbortSignal): Promise<Outcome> {
    if (!this.engine) throw new Error("no engine was given to the workbook");
    const { computed, uncomputed } = await this.engine.recalculate({ onProgress, signal });
    this.uncomputed = uncomputed;
    const changed: ShownCell[] = [];
    for (const cell of computed) {
      const { sheet, row, column, value } = cell;
      const key = keyOf(cell);
      this.computed.set(key, cell);
      if (!isSame(this.shown.get(key), value)) {
        this.shown.set(key, value);
        changed.push({ sheet, row, column, value });
      }
      if (cell.spill && cell.spilled && isMany(cell.spill)) {
        this.spills.set(key, { sheet, row, column, range: cell.spill, values: cell.spilled });
      } else this.spills.delete(key);
    }
    for (const cell of this.uncomputed) this.computed.delete(keyOf(cell));
    return {
      changed,
      spills: this.filled,
      failing: [...this.computed.values()].flatMap(({ sheet, row, column, value, sentence }) =>
        typeof value === "object" && value !== null
          ? [{ sheet, row, column, error: value.error, ...(sentence !== undefined && { sentence }) }]
          : [],
      ),
      uncomputed: this.uncomputed,
    };
  }

  /** The file asked for, with a sentence about it. */
  written(writing: Writing): { readonly bytes: Uint8Array; readonly note: string } {
    const bytes = this.bytes();
    if (writing === "workbook") return { bytes, note: "" };
    if (writing === "partner copy") {
      const copy = partnerCopy(bytes, formulaWriting, new Date().toISOString());
      return {
        bytes: copy.bytes,
        note:
          copy.formulas === 0 ? "no formula uses our functions" : `${copy.formulas} formulas are values now`,
      };
    }
    const back = putFormulasBack(bytes, formulaWriting);
    const left =
      back.left.length === 0 ? "" : `, ${back.left.length} stay values because their cells were changed`;
    return { bytes: back.bytes, note: `${back.formulas} formulas were put back${left}` };
  }

  /** The file with every input and every computed value, and everything else as it was. */
  bytes(): Uint8Array {
    return this.opened.patched([...this.changes().values()]);
  }

  private changes(): ReadonlyMap<string, CellChange> {
    const changes = new Map<string, CellChange>();
    const filled = new Map<string, CellValue>();
    for (const spill of this.spills.values()) {
      for (const place of placesIn(spill.sheet, spill.range)) {
        const value =
          spill.values[place.row - spill.range.firstRow]?.[place.column - spill.range.firstColumn];
        filled.set(keyOf(place), value ?? null);
      }
    }
    for (const place of this.placesOnceFilled()) {
      const key = keyOf(place);
      if (!filled.has(key)) changes.set(key, { ...place, value: null });
    }
    for (const spill of this.spills.values()) {
      for (const place of placesIn(spill.sheet, spill.range)) {
        changes.set(keyOf(place), { ...place, value: filled.get(keyOf(place)) ?? null });
      }
    }
    for (const [key, { sheet, row, column, input, numberFormat }] of this.inputs) {
      const isFormula = typeof input === "object" && input !== null && "formula" in input;
      changes.set(key, {
        sheet,
        row,
        column,
        ...(numberFormat !== undefined && { numberFormat }),
        ...(isFormula
          ? { value: UNKNOWN_NAME, formula: this.writtenFormula(input.formula, this.computed.get(key)) }
          : { value: input, formula: null }),
      });
    }
    for (const [key, cell] of this.computed) {
      const { sheet, row, column, value } = cell;
      const single = { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
      const range = this.spills.get(key)?.range ?? single;
      changes.set(key, { ...changes.get(key), sheet, row, column, value, range });
    }
    return changes;
  }

  /** Cells that an array or spilling formula fills in the file as it was opened, the formula's own cell left out. */
  private *placesOnceFilled(): Iterable<CellPlace> {
    for (const [position, sheet] of this.model.sheets.entries()) {
      for (const { row, column, formula } of sheet.cells) {
        if (formula?.range === undefined || formula.kind === "normal" || formula.kind === "dataTable")
          continue;
        for (const place of placesIn(position, formula.range)) {
          if (place.row !== row || place.column !== column) yield place;
        }
      }
    }
  }

  private writtenFormula(typed: string, cell: ComputedCell | undefined): CellFormula {
    const text = fileFormula(typed.replace(/^=/, ""));
    const isDynamic = mayFill(text) || (cell?.spill !== undefined && isMany(cell.spill));
    return isDynamic
      ? { text, kind: "dynamic", ...(cell?.spill && { range: cell.spill }) }
      : { text, kind: "normal" };
  }
}
