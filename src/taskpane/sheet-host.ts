import type { CellRange } from "../formula/address";
import type { NameInfo, SheetArea, SheetCell, TableInfo } from "../formula/scope";

/** What a cell holds as Excel hands it over: blank is the empty text, an error is its code. */
export type CellInput = number | string | boolean;

/** Rows of cells. */
export type CellRows = readonly (readonly CellInput[])[];

export interface SheetInfo {
  readonly name: string;
  readonly isProtected: boolean;
  /** The rectangle that holds anything; absent on an empty sheet. */
  readonly used?: CellRange;
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
export interface FormulaEntry extends SheetCell {
  readonly formula: string;
  readonly filled?: CellRange;
}

/** Rows of contents and where they go: text that begins with an equals sign is a formula. */
export interface AreaContents extends SheetArea {
  readonly contents: CellRows;
}

/** A picture that lies on a sheet. */
export interface PlacedPicture {
  /** Name of the picture; one of the same name is replaced and keeps its place. */
  readonly name: string;
  /** The picture lies to the right of this cell. */
  readonly beside: SheetCell;
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

/** A requirement set of Excel's interface for add-ins, ExcelApi. */
export type ApiVersion = `1.${number}`;

/** Why the workbook could not be read or changed; `message` is a sentence for a person. */
export class HostError extends Error {
  constructor(sentence: string) {
    super(sentence);
    this.name = "HostError";
  }
}

/** What the pane needs from the workbook it stands beside, and nothing else. Every call may reject with a HostError. */
export interface SheetHost {
  /** True where this Excel has a version of its interface for add-ins, such as `1.12`. */
  supports(version: ApiVersion): boolean;
  /** The decimal mark with which formulas are typed here; undefined where this Excel does not say. */
  decimalMark(): Promise<string | undefined>;
  /** Why an area cannot be filled cell by cell, each as a sentence: merged cells take one content, filtered rows are not in sight. */
  obstacles(area: SheetArea): Promise<readonly string[]>;
  outline(): Promise<Outline>;
  /** Contents of rectangles, in order; the caller keeps them small enough for one answer. */
  read(areas: readonly SheetArea[]): Promise<readonly Block[]>;
  /** The rectangle each cell's formula fills, undefined where the cell lies in the spill of another. */
  spills(cells: readonly SheetCell[]): Promise<readonly (CellRange | undefined)[]>;
  /** The cells that a person selected, the first area where there are several. */
  selection(): Promise<SheetArea>;
  /** The filled rectangle around a cell. */
  surrounding(cell: SheetCell): Promise<CellRange>;
  /** Fill colours of cells, `#rrggbb`, row by row. */
  fillColours(area: SheetArea): Promise<readonly string[]>;
  write(writings: readonly AreaContents[]): Promise<void>;
  /** Turns what stands in each area into its values. */
  freeze(areas: readonly SheetArea[]): Promise<void>;
  /** Enters formulas, each as if typed anew. */
  enter(entries: readonly FormulaEntry[]): Promise<void>;
  select(area: SheetArea): Promise<void>;
  /** Adds a sheet of text behind the others, or replaces the one of this name. */
  writeSheet(name: string, rows: readonly (readonly string[])[], widths: readonly number[]): Promise<void>;
  removeSheet(name: string): Promise<void>;
  /** The custom XML part of a namespace. */
  readPart(namespace: string): Promise<string | undefined>;
  /** Keeps a custom XML part in the workbook, in place of one of the same namespace; undefined removes it. */
  writePart(namespace: string, xml: string | undefined): Promise<void>;
  putPicture(picture: PlacedPicture): Promise<void>;
  /** A hidden name that follows a cell when rows and columns move. */
  nameCell(name: string, cell: SheetCell): Promise<void>;
  /** Tells of changed or recalculated cells and of another selection. */
  watch(events: { readonly changed: () => void; readonly selected: () => void }): Promise<void>;
  choices(): Promise<DocumentChoices>;
  setStartsOnOpen(isOn: boolean): Promise<void>;
  setHidesTrustPrompt(isOn: boolean): Promise<void>;
}
