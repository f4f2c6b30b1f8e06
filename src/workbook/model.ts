import type { CellRange } from "../formula/address";
import type { TableArea } from "../formula/structured-reference";
import type { SheetFeatures } from "./sheet-features";

/** What a cell holds. Errors keep Excel's own text, such as `#N/A` or `#SPILL!`. */
export type CellValue = null | number | string | boolean | CellErrorValue;

/** An error in a cell. */
export interface CellErrorValue {
  readonly error: string;
}

/** A formula as the file stores it: no equals sign, Excel's prefixes (`_xlfn.`, `_xldudf_` ...) kept. */
export interface CellFormula {
  readonly text: string;
  /** `array`: entered with Ctrl+Shift+Enter; `dynamic`: spills (cell metadata); `dataTable`: a what-if table. */
  readonly kind: "normal" | "array" | "dynamic" | "dataTable";
  /** The rectangle that an array or dynamic formula fills. */
  readonly range?: CellRange;
}

/** One stored cell; `row` and `column` count from 0. Shared formulas are already written out for their own cell. */
export interface WorkbookCell {
  readonly row: number;
  readonly column: number;
  readonly value: CellValue;
  readonly formula?: CellFormula;
  /** Set where the file marks the cell as filled by another cell's array formula. */
  readonly isFilled?: true;
  /** Index into `WorkbookModel.styles`. */
  readonly style: number;
}

/** One edge of a cell's border. */
export interface BorderEdge {
  readonly style: string;
  readonly color?: string;
}

/** The look of a cell, as far as the desk page shows it. Colours are `#rrggbb`. */
export interface CellStyle {
  readonly numberFormat: string;
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly underline?: boolean;
  readonly strike?: boolean;
  readonly fontName?: string;
  readonly fontSize?: number;
  readonly fontColor?: string;
  readonly fill?: string;
  readonly horizontal?: "left" | "center" | "right" | "justify";
  readonly vertical?: "top" | "center" | "bottom";
  readonly wrap?: boolean;
  readonly borders?: {
    readonly top?: BorderEdge;
    readonly right?: BorderEdge;
    readonly bottom?: BorderEdge;
    readonly left?: BorderEdge;
  };
}

/** One worksheet. Chart sheets and dialogs are not worksheets and stay untouched in the package. */
export interface SheetModel {
  readonly name: string;
  /** The part inside the package, such as `xl/worksheets/sheet1.xml`. */
  readonly part: string;
  readonly state: "visible" | "hidden" | "veryHidden";
  readonly cells: readonly WorkbookCell[];
  readonly merges: readonly CellRange[];
  /** Widths in Excel's character units by zero-based column; absent columns have the default width. */
  readonly columnWidths: ReadonlyMap<number, number>;
  /** Heights in points by zero-based row. */
  readonly rowHeights: ReadonlyMap<number, number>;
  readonly hiddenColumns: ReadonlySet<number>;
  readonly hiddenRows: ReadonlySet<number>;
  /** The range of a filter that shows some of its rows only; rows of it that are hidden are filtered out. */
  readonly filter?: CellRange;
  readonly frozenRows: number;
  readonly frozenColumns: number;
  readonly showGridLines: boolean;
  readonly isProtected: boolean;
  /** Notes by address such as `B3`. */
  readonly notes: ReadonlyMap<string, string>;
  /** What lies around the cells beyond this model, such as `links`, in words for a person; absent where nothing does. */
  readonly undrawn?: ReadonlySet<string>;
}

/** A defined name; `sheet` is set where it belongs to one sheet only. */
export interface DefinedName {
  readonly name: string;
  readonly text: string;
  readonly sheet?: number;
  readonly isHidden: boolean;
}

/** A table (list object). */
export interface TableModel extends TableArea {
  readonly name: string;
  readonly sheet: number;
  /** Whether its filter shows some of its rows only. */
  readonly isFiltered?: boolean;
}

/** A workbook as read; never changed in place. */
export interface WorkbookModel {
  readonly sheets: readonly SheetModel[];
  readonly names: readonly DefinedName[];
  readonly tables: readonly TableModel[];
  readonly styles: readonly CellStyle[];
  /** True where day 0 is 1904-01-01. */
  readonly date1904: boolean;
  /** What the sheets hold beside their cells, where it was asked for. */
  readonly features?: readonly (SheetFeatures | undefined)[];
  /** What the file holds beyond this model, such as `charts`, in words for a person. */
  readonly undrawn?: readonly string[];
}

/** A change to one cell. What is left out stays as it is; `formula: null` turns a formula into its value. */
export interface CellChange {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly value?: CellValue;
  readonly formula?: CellFormula | null;
  /** New extent of the array or dynamic formula that begins in this cell. */
  readonly range?: CellRange;
  /** New number format such as `0.00`; all else about the cell's look stays. */
  readonly numberFormat?: string;
  /** New look as a whole: an index into `WorkbookModel.styles`. */
  readonly style?: number;
  /** New look apart from the number format; what is left out of it is Excel's plain look. */
  readonly look?: Omit<CellStyle, "numberFormat">;
}

/** Why a file cannot be read or written; `message` is a sentence for a person. */
export class WorkbookError extends Error {
  constructor(sentence: string) {
    super(sentence);
    this.name = "WorkbookError";
  }
}
