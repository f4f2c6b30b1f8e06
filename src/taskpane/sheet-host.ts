import type { CellPosition } from "../workbook/address";
import type { CellRange } from "../workbook/model";

/** What a cell holds as Excel hands it over: blank is the empty text, an error is its code. */
export type CellContent = number | string | boolean;

/** Rows of cells. */
export type CellRows = readonly (readonly CellContent[])[];

/** A rectangle on a sheet. */
export interface SheetRange {
  readonly sheet: string;
  readonly range: CellRange;
}

/** A cell on a sheet, counted from 0. */
export interface Place extends CellPosition {
  readonly sheet: string;
}

export interface SheetInfo {
  readonly name: string;
  readonly isProtected: boolean;
  /** The rectangle that holds anything; absent on an empty sheet. */
  readonly used?: CellRange;
}

export interface TableInfo extends SheetRange {
  readonly name: string;
  readonly columns: readonly string[];
  readonly headerRows: 0 | 1;
  readonly totalsRows: 0 | 1;
}

/** A defined name and what it refers to, without an equals sign. */
export interface NameInfo {
  readonly name: string;
  /** The sheet it belongs to, where it does not belong to the whole workbook. */
  readonly sheet?: string;
  readonly reference: string;
}

/** What a workbook consists of, without its cells. */
export interface Outline {
  readonly sheets: readonly SheetInfo[];
  readonly tables: readonly TableInfo[];
  readonly names: readonly NameInfo[];
}

/** Cells as they are typed and as they show. */
export interface Block {
  readonly formulas: CellRows;
  readonly values: CellRows;
}

/** A formula and the cell it belongs into; `filled` is what must be empty around it before it can spill. */
export interface FormulaEntry extends Place {
  readonly formula: string;
  readonly filled?: CellRange;
}

/** Rows of contents and where they go: text that begins with an equals sign is a formula. */
export interface Writing extends SheetRange {
  readonly contents: CellRows;
}

/** A picture that lies on a sheet. */
export interface SheetPicture {
  /** Name of the picture; one of the same name is replaced and keeps its place. */
  readonly name: string;
  /** The picture lies to the right of this cell. */
  readonly beside: Place;
  readonly png: string;
  /** Size on the sheet, points. */
  readonly width: number;
  readonly height: number;
  /** What it shows, for those who hear it. */
  readonly text: string;
}

/** Choices that travel with the workbook. */
export interface DocumentChoices {
  /** The add-in starts with this workbook, so that its functions are there at once. */
  readonly startsOnOpen: boolean;
  /** Partners without the add-in are not asked to trust it; undefined where this Excel has no such choice. */
  readonly hidesTrustPrompt: boolean | undefined;
}

/** Why the workbook could not be read or changed; `message` is a sentence for a person. */
export class HostError extends Error {
  constructor(sentence: string) {
    super(sentence);
    this.name = "HostError";
  }
}

/** What the pane needs from the workbook it stands beside, and nothing else. Every call may reject with a HostError. */
export interface SheetHost {
  outline(): Promise<Outline>;
  /** Contents of rectangles, in order; the caller keeps them small enough for one answer. */
  read(areas: readonly SheetRange[]): Promise<readonly Block[]>;
  /** The rectangle each cell's formula fills, undefined where the cell lies in the spill of another. */
  spills(cells: readonly Place[]): Promise<readonly (CellRange | undefined)[]>;
  /** The cells that a person selected, the first area where there are several. */
  selection(): Promise<SheetRange>;
  /** The filled rectangle around a cell. */
  surrounding(cell: Place): Promise<CellRange>;
  /** Fill colours of cells, `#rrggbb`, row by row. */
  fillColours(area: SheetRange): Promise<readonly string[]>;
  write(writings: readonly Writing[]): Promise<void>;
  /** Turns what stands in each area into its values. */
  freeze(areas: readonly SheetRange[]): Promise<void>;
  /** Enters formulas, each as if typed anew. */
  enter(entries: readonly FormulaEntry[]): Promise<void>;
  select(area: SheetRange): Promise<void>;
  /** Adds a sheet of text behind the others, or replaces the one of this name. */
  writeSheet(name: string, rows: readonly (readonly string[])[], widths: readonly number[]): Promise<void>;
  removeSheet(name: string): Promise<void>;
  /** The custom XML part of a namespace. */
  readPart(namespace: string): Promise<string | undefined>;
  /** Keeps a custom XML part in the workbook, in place of one of the same namespace; undefined removes it. */
  writePart(namespace: string, xml: string | undefined): Promise<void>;
  putPicture(picture: SheetPicture): Promise<void>;
  /** A hidden name that follows a cell when rows and columns move. */
  nameCell(name: string, cell: Place): Promise<void>;
  /** Tells of changed or recalculated cells and of another selection. */
  watch(events: { readonly changed: () => void; readonly selected: () => void }): Promise<void>;
  choices(): Promise<DocumentChoices>;
  setStartsOnOpen(isOn: boolean): Promise<void>;
  setHidesTrustPrompt(isOn: boolean): Promise<void>;
}
