import type { CellRange } from "../formula/address";
import { fileFormula } from "../formula/names";
import { mayFill } from "../formula/ours";
import { labelOf } from "../formula/scope";
import { changesOf } from "../sheet/changes";
import { mapRange, type SheetRange } from "../sheet/rectangles";
import {
  type CellPlace,
  type ComputedCell,
  isTypedFormula,
  type SheetEngine,
  type UncomputedCell,
} from "../sheet/engine";
import type { CellChange, CellFormula, CellValue, WorkbookModel } from "../workbook/model";
import { partnerCopy, putFormulasBack } from "../partner/file-copy";
import { type CellFinder, cellFinder } from "../workbook/cell-finder";
import { healWorkbook } from "../workbook/heal";
import { openWorkbook, type OpenWorkbook } from "../workbook/read";
import { readFeatures } from "../workbook/sheet-features";
import type {
  Dressing,
  Edit,
  FormattedCell,
  CalculationOutcome,
  ShownCell,
  Spill,
  Writing,
} from "./messages";
import { KnownResults } from "./known-results";
import { placeNumber } from "../sheet/place-number";
import { storedSpills } from "./stored-spills";
import { spillFormat } from "./result-format";

function isSame(a: CellValue | undefined, b: CellValue): boolean {
  if (typeof a === "object" && typeof b === "object" && a !== null && b !== null) return a.error === b.error;
  return a === b;
}

function isMany({ firstRow, firstColumn, lastRow, lastColumn }: CellRange): boolean {
  return firstRow !== lastRow || firstColumn !== lastColumn;
}

const UNDRESSED: Dressing = { looks: [], layouts: [] };

/** What a typed formula shows in Excel until it is computed there: here it was not. */
const UNKNOWN_NAME = { error: "#NAME?" } as const;

/** One open workbook with what a person changed in it since: computes, and writes the file. */
export class Calculation {
  private readonly opened: OpenWorkbook;
  /** The workbook with what other programs did to our formulas mended, and what that changes in the file. */
  readonly model: WorkbookModel;
  private readonly healing: readonly CellChange[];
  private readonly inputs = new Map<number, Edit>();
  private readonly shown = new Map<number, CellValue>();
  private readonly spills = new Map<number, Spill>();
  private readonly stored: CellFinder;
  private engine: SheetEngine | undefined;
  private readonly computed = new KnownResults();
  private uncomputed: readonly UncomputedCell[] = [];

  /**
   * Throws WorkbookError for bytes that are no readable workbook. `isResumed`: what is shown differs from the file
   * already, so that every result counts as a change.
   */
  constructor(bytes: Uint8Array, isResumed = false, onProgress?: (share: number) => void) {
    this.opened = openWorkbook(bytes, { onProgress });
    const { model, changes } = healWorkbook(this.opened.model);
    this.model = { ...model, features: readFeatures(this.opened.parts, model.sheets) };
    this.healing = changes;
    this.stored = cellFinder(model);
    for (const [position, sheet] of this.model.sheets.entries()) {
      for (const { row, column, value, formula } of sheet.cells) {
        if (formula && !isResumed) this.shown.set(placeNumber({ sheet: position, row, column }), value);
      }
      for (const spill of storedSpills(sheet, position, this.stored))
        this.spills.set(placeNumber(spill), spill);
    }
  }

  get filled(): readonly Spill[] {
    return [...this.spills.values()];
  }

  /** Gives the workbook to an engine; nothing is computed before. */
  async load(engine: SheetEngine): Promise<void> {
    this.engine = engine;
    await engine.load(this.model);
  }

  /** Takes a formula out of computing that would never end; it keeps its value and is named with the reason. */
  hold(place: CellPlace, why: string): void {
    this.engine?.hold(place, why);
  }

  /** What a cell shows, and what a formula would give in it, once all is computed. */
  get cells(): Pick<SheetEngine, "value" | "evaluate"> | undefined {
    return this.engine;
  }

  async edit(edits: readonly Edit[]): Promise<void> {
    for (const edit of edits) {
      const key = placeNumber(edit);
      const numberFormat = edit.numberFormat ?? this.inputs.get(key)?.numberFormat;
      this.inputs.set(key, { ...edit, ...(numberFormat !== undefined && { numberFormat }) });
      this.shown.delete(key);
      this.spills.delete(key);
      this.computed.delete(edit);
      await this.engine?.setCell(edit, edit.input);
    }
  }

  /** Gets ready for the first edit while nobody waits. */
  prepare(): void {
    this.engine?.prepare();
  }

  /**
   * Computes what an edit touched; the first time everything. `glance`: cells that are computed first, and who is told
   * their new values at once. Throws the signal's reason where it is stopped.
   */
  async recalculate(
    onProgress: (share: number) => void,
    signal: AbortSignal,
    glance?: { readonly ranges: readonly SheetRange[]; told(cells: readonly ShownCell[]): void },
  ): Promise<CalculationOutcome> {
    if (!this.engine) throw new Error("no engine was given to the workbook");
    const { computed, uncomputed, differing } = await this.engine.recalculate({
      onProgress,
      signal,
      ...(glance && {
        first: {
          ranges: glance.ranges,
          done: () => {
            glance.told(this.news(glance.ranges));
          },
        },
      }),
    });
    this.uncomputed = [
      ...uncomputed,
      ...differing.map(({ sheet, row, column, formula, ours, why }) => ({
        sheet,
        row,
        column,
        formula,
        why: `it keeps its stored value, we compute ${typeof ours === "object" ? (ours?.error ?? "nothing") : String(ours)}; ${why}`,
      })),
    ];
    const changed: ShownCell[] = [];
    for (const cell of computed) {
      const { sheet, row, column, value } = cell;
      const key = placeNumber(cell);
      this.computed.set(cell);
      if (!isSame(this.shown.get(key), value)) {
        this.shown.set(key, value);
        changed.push({ sheet, row, column, value });
      }
      if (cell.spill && cell.spilled && isMany(cell.spill)) {
        this.spills.set(key, { sheet, row, column, range: cell.spill, values: cell.spilled });
      } else this.spills.delete(key);
    }
    for (const cell of this.uncomputed) this.computed.delete(cell);
    return {
      changed,
      spills: this.filled,
      formats: this.formats(),
      failing: this.computed.failing,
      statuses: this.computed.statuses,
      uncomputed: this.uncomputed,
    };
  }

  /** What formulas of one cell each show that they did not show before. */
  private news(ranges: readonly SheetRange[]): readonly ShownCell[] {
    const newsAt = (place: CellPlace): readonly ShownCell[] => {
      const key = placeNumber(place);
      if (!this.shown.has(key) || this.spills.has(key)) return [];
      const value = this.engine?.value(place) ?? null;
      if (isSame(this.shown.get(key), value)) return [];
      this.shown.set(key, value);
      return [{ ...place, value }];
    };
    return ranges.flatMap(({ sheet, ...range }) =>
      mapRange(range, (row, column) => newsAt({ sheet, row, column })).flat(2),
    );
  }

  /** The file asked for, dressed as it is now, with a sentence about it. */
  written(
    writing: Writing,
    dressing?: Dressing,
    onProgress?: (share: number) => void,
  ): { readonly bytes: Uint8Array; readonly note: string } {
    const bytes = this.bytes(dressing, onProgress);
    if (writing === "workbook") return { bytes, note: "" };
    if (writing === "partner copy") {
      const copy = partnerCopy(bytes, new Date().toISOString());
      return {
        bytes: copy.bytes,
        note:
          copy.formulas === 0 ? "no formula uses our functions" : `${copy.formulas} formulas are values now`,
      };
    }
    const back = putFormulasBack(bytes);
    const [first] = back.left;
    const left =
      first === undefined ? "" : `, ${back.left.length} stay values, such as ${labelOf(first)}: ${first.why}`;
    return { bytes: back.bytes, note: `${back.formulas} formulas were put back${left}` };
  }

  /** The file with every input, look and width and every value that a recalculation changes, and everything else as it was. */
  bytes({ looks, layouts }: Dressing = UNDRESSED, onProgress?: (share: number) => void): Uint8Array {
    const inputs = [...this.inputs.values()].map((edit) => this.inputChange(edit));
    // An input stays whatever a spill left in its cell.
    const results = this.results().filter(
      (change) => change.value !== null || !this.inputs.has(placeNumber(change)),
    );
    const changes = [...this.healing, ...inputs, ...results];
    const formats = new Map(this.formats().map((cell) => [placeNumber(cell), cell]));
    const dressed = changes.map((change) => {
      const format = formats.get(placeNumber(change));
      formats.delete(placeNumber(change));
      return format === undefined ? change : { ...change, numberFormat: format.numberFormat };
    });
    return this.opened.patched([...dressed, ...formats.values(), ...looks], layouts, { onProgress });
  }

  /** The formats of unformatted cells that a formula fills which was typed since the file was opened. */
  private formats(): readonly FormattedCell[] {
    const { stored } = this;
    const isPlain = (place: CellPlace): boolean => {
      const style = stored(place.sheet, place.row, place.column)?.style ?? 0;
      return !this.inputs.has(placeNumber(place)) && this.model.styles[style]?.numberFormat === "General";
    };
    return [...this.inputs.values()].flatMap(({ sheet, row, column, input }): readonly FormattedCell[] => {
      const spill = this.spills.get(placeNumber({ sheet, row, column }));
      if (!isTypedFormula(input) || !spill) return [];
      const formatAt = spillFormat(input.formula);
      return spill.values.flatMap((values, down) =>
        values.flatMap((_, across): readonly FormattedCell[] => {
          const numberFormat = formatAt(down, across);
          const place = { sheet, row: row + down, column: column + across };
          return numberFormat !== undefined && isPlain(place) ? [{ ...place, numberFormat }] : [];
        }),
      );
    });
  }

  private inputChange({ sheet, row, column, input, numberFormat }: Edit): CellChange {
    const place = { sheet, row, column, ...(numberFormat !== undefined && { numberFormat }) };
    if (!isTypedFormula(input)) return { ...place, value: input, formula: null };
    const result = this.computed.get(place);
    return {
      ...place,
      value: result === undefined ? UNKNOWN_NAME : result.value,
      formula: this.writtenFormula(input.formula, result),
    };
  }

  /** What the computed cells change beside the inputs. */
  private results(): readonly CellChange[] {
    const { stored } = this;
    const cellAt: CellFinder = (sheet, row, column) => {
      const edit = this.inputs.get(placeNumber({ sheet, row, column }));
      if (edit === undefined) return stored(sheet, row, column);
      const { value = null, formula } = this.inputChange(edit);
      return { row, column, style: 0, value, ...(formula && { formula }) };
    };
    const left = [...this.inputs.values()].flatMap(({ sheet, row, column }) => {
      const range = stored(sheet, row, column)?.formula?.range;
      return range === undefined ? [] : [{ sheet, row, column, range }];
    });
    return changesOf(cellAt, this.computed.all, left);
  }

  private writtenFormula(typed: string, cell: ComputedCell | undefined): CellFormula {
    const text = fileFormula(typed.replace(/^=/, ""));
    const isDynamic = mayFill(text) || (cell?.spill !== undefined && isMany(cell.spill));
    return isDynamic
      ? { text, kind: "dynamic", ...(cell?.spill && { range: cell.spill }) }
      : { text, kind: "normal" };
  }
}
