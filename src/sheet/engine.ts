import type { CellRange } from "../formula/address";
import type { CellValue, WorkbookModel } from "../workbook/model";
import type { SheetRange } from "./rectangles";

/** A function the engine offers to formulas. Arguments are cells or rectangles of cells, in order; `null` is blank. */
export interface EngineFunction {
  /** Name without namespace, such as `COUNT_SPHERE`; formulas may say `BLN.NAME`, `BLN_NAME` or `_xldudf_BLN_NAME`. */
  readonly name: string;
  readonly text: string;
  readonly parameters: readonly {
    readonly name: string;
    readonly text: string;
    readonly isOptional: boolean;
    /** True where a whole range goes in; else a range makes one call for each of its cells, as Excel does. */
    readonly takesRange: boolean;
  }[];
  /** Never throws for bad input: gives the error's code and sentence. */
  call(args: readonly EngineArgument[]): EngineResult;
}

/** One argument: a single cell's value, or a rectangle (rows of cells). */
export type EngineArgument = CellValue | readonly (readonly CellValue[])[];

/** A cell of a table that a function gives: a value, or an error of that cell alone with its sentence. */
export type EngineTableCell =
  number | string | boolean | { readonly error: string; readonly sentence: string };

/** What a function gives back. */
export type EngineResult =
  | { readonly kind: "value"; readonly value: number | string | boolean }
  | { readonly kind: "table"; readonly rows: readonly (readonly EngineTableCell[])[] }
  | { readonly kind: "error"; readonly code: string; readonly sentence: string };

/** Where a cell is. */
export interface CellPlace {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** What is put into a cell: a constant, or a formula as it is typed. */
export type TypedInput = CellValue | { readonly formula: string };

/** Whether a formula is put into a cell. */
export function isTypedFormula(input: TypedInput): input is { readonly formula: string } {
  return typeof input === "object" && input !== null && "formula" in input;
}

/** A formula cell after recalculation. */
export interface ComputedCell extends CellPlace {
  readonly value: CellValue;
  /** The rectangle filled, where the formula spilled. */
  readonly spill?: CellRange;
  /** Values of the whole spill, rows of cells. */
  readonly spilled?: readonly (readonly CellValue[])[];
  /** The sentence of a failing function of ours in this cell. */
  readonly sentence?: string;
  /** Sentences of all cells that show an error of a function of ours, this cell and those it fills, on its sheet. */
  readonly sentences?: readonly CellSentence[];
}

/** Why a cell shows an error of a function of ours. */
export interface CellSentence {
  readonly row: number;
  readonly column: number;
  readonly sentence: string;
}

/** A formula cell whose stored value stands although the engine gives another one. */
export interface DifferingCell extends CellPlace {
  readonly formula: string;
  readonly stored: CellValue;
  readonly ours: CellValue;
  /** Why the engine's value is not taken. */
  readonly why: string;
}

/** A formula cell that the engine does not know how to compute; its stored value stands. */
export interface UncomputedCell extends CellPlace {
  readonly formula: string;
  readonly why: string;
}

/** The outcome of one recalculation. */
export interface Recalculation {
  /** The formula cells that were computed in this run: all after loading, later those that a change reached. */
  readonly computed: readonly ComputedCell[];
  /** All formula cells of the workbook that keep their stored value. */
  readonly uncomputed: readonly UncomputedCell[];
  /** All formula cells that keep their stored value because the engine's own is less to be trusted. */
  readonly differing: readonly DifferingCell[];
}

export interface RecalculateOptions {
  /** Told the share of formulas done, from 0 to 1, a few times a second. */
  readonly onProgress?: (share: number) => void;
  /** Stops the run, which then throws the signal's reason; the next run takes up the rest and reports all. */
  readonly signal?: AbortSignal;
  /**
   * Whether formulas with NOW, TODAY or random numbers get fresh values, as Excel does when it opens a file,
   * or keep the stored ones. Fresh where absent.
   */
  readonly volatile?: "recalculate" | "keep";
  /**
   * Whether a stored value stands where the engine gives another one by a function that is not known to agree with
   * Excel, or gives an error that neither an input nor a function of ours explains. Kept where absent.
   */
  readonly differences?: "keep" | "accept";
  /** Milliseconds that one formula may take; beyond them it keeps its value and is named. 2,000 where absent. */
  readonly budget?: number;
  /**
   * Runs `work` and throws where it has not ended after some milliseconds, whatever it is doing. Where absent a formula
   * is ended between two steps of its evaluation only.
   */
  readonly interrupt?: (work: () => void, milliseconds: number) => void;
  /** Where formulas are computed before all others, such as the cells in sight, and who is told once they are. */
  readonly first?: { readonly ranges: readonly SheetRange[]; done(): void };
  /** Told each formula before it is evaluated, so that whoever has to end the whole engine knows what it was doing. */
  readonly onFormula?: (place: CellPlace) => void;
}

/** The spreadsheet engine as the hosts see it. One instance holds one workbook. */
export interface SheetEngine {
  /** Replaces whatever was loaded. */
  load(workbook: WorkbookModel): Promise<void>;
  /** Sets a constant, or a formula in file or typed form (with its equals sign), which may spill. */
  setCell(place: CellPlace, input: TypedInput): Promise<void>;
  /** Takes a formula out of computing: it keeps its value and is named with this reason, until it is set anew. */
  hold(place: CellPlace, why: string): void;
  recalculate(options?: RecalculateOptions): Promise<Recalculation>;
  /** Finds out who reads which cell, so that the first change is as quick as those after it. */
  prepare(): void;
  value(place: CellPlace): CellValue;
  /** What a formula in file form gives where it stands in a cell, whose own content stays; null before that can be told. */
  evaluate(place: CellPlace, formula: string): Promise<CellValue>;
  dispose(): void;
}
