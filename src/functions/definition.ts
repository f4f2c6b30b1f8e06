import type { PieceDrawing } from "../core/event/drawn-piece";
import type { UnitSymbol } from "../core/units";
import type { Withheld } from "../core/withheld";
import type { ArgumentsOf, Param } from "./param";

/** A value that a cell can hold. */
export type PlainCell = number | string | boolean;

/** A cell of a result: a value, or an error with its sentence where the number cannot be known. */
export type Cell = PlainCell | Withheld;

/** The group a function stands in: part of the name of nothing, only the order of help. */
export type Category =
  | "The whole event"
  | "Counting"
  | "Air and helium"
  | "Ribbon and rolls"
  | "Palette"
  | "Stock and buying"
  | "Work and transport"
  | "Price"
  | "Care"
  | "Help for sheets";

/** What the number of a result is: it decides the unit it is converted to and the format it is shown in. */
export type Measure = UnitSymbol | "count" | "share" | "money" | "number" | "datetime" | "text" | "flag";

/** A column of a spilled table. */
export interface ResultColumn {
  readonly name: string;
  readonly measure: Measure;
  readonly text: string;
}

/** What a function gives: one value, a list that lies as one of its arguments does, or a table with a header row. */
export type ResultSpec =
  | { readonly kind: "value"; readonly measure: Measure; readonly text: string }
  | { readonly kind: "list"; readonly measure: Measure; readonly like: string; readonly text: string }
  | { readonly kind: "table"; readonly columns: readonly ResultColumn[]; readonly text: string };

/** What a definition's `compute` gives back, in SI units. */
export type Computed<Result> = Result extends { readonly kind: "value" }
  ? Cell
  : Result extends { readonly kind: "list" }
    ? readonly Cell[]
    : Result extends { readonly kind: "table"; readonly columns: infer Columns }
      ? readonly ResultRow<Columns>[]
      : never;

/** One row of a spilled table: a cell for each column, by its name. */
export type ResultRow<Columns> = Columns extends readonly ResultColumn[]
  ? { readonly [Column in Columns[number] as Column["name"]]: Cell }
  : never;

/** An argument in an example: a cell, a row or column of cells, or rows of cells; null leaves the argument out. */
export type ExampleArgument =
  PlainCell | null | readonly (PlainCell | null)[] | readonly (readonly (PlainCell | null)[])[];

/** A worked example: shown in help, evaluated by the tests. */
export interface Example {
  readonly args: readonly ExampleArgument[];
  /**
   * The value; for a table its rows without the header, where null stands for a cell that the example does not check and
   * `#N/A` for a withheld number.
   */
  readonly gives: PlainCell | readonly (readonly (PlainCell | null)[])[];
  /** Largest difference of a number from `gives`; 0 where absent. */
  readonly within?: number;
  /** The arithmetic, as a person would check it. */
  readonly working: string;
  /** Where the expected value comes from. */
  readonly source: string;
}

/** A wrong call: shown in help, evaluated by the tests. */
export interface WrongCall {
  readonly args: readonly ExampleArgument[];
  readonly gives: "#VALUE!" | "#N/A" | "#NUM!";
  readonly when: string;
  /** A part of the sentence that must be there. */
  readonly says?: string;
}

/** A ball to draw: centre and radius in metres, x to the right, y up from the base, z towards the viewer. */
export interface DrawnBalloon {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly radius: number;
  readonly row: number;
}

/** A piece to draw, in its own colours, with the lines that belong to it. */
export type DrawnPiece = PieceDrawing;

/** What a definition says beside its arguments and its model. */
export interface Common<Result> {
  readonly name: string;
  readonly category: Category;
  /** One sentence: what it answers. */
  readonly text: string;
  /** Questions in a decorator's words that this function answers, for search. */
  readonly asks: readonly string[];
  readonly result: Result;
  /** The model behind the number, and where it comes from. */
  readonly source: string;
  /** What it does not cover. */
  readonly limits?: string;
  /** What can hurt someone and what to do about it. */
  readonly caution?: string;
  /** The function that answers better: this one keeps computing in old workbooks, and lists leave it out. */
  readonly replacedBy?: string;
  readonly examples: readonly Example[];
  readonly failures: readonly WrongCall[];
}

/** A definition as its file writes it. */
export interface Definition<
  Params extends readonly Param[],
  Result extends ResultSpec,
> extends Common<Result> {
  readonly params: Params;
  /** Where the tables cannot be read the result keeps its shape: its header and one row that says why. */
  readonly keepsShape?: true;
  readonly compute: (...args: ArgumentsOf<Params>) => Computed<Result>;
  /** The piece as balloons in space, for pictures. */
  readonly draw?: (...args: ArgumentsOf<Params>) => readonly DrawnBalloon[];
  /** Several pieces, each in its own colours, for pictures of a whole job. */
  readonly drawPieces?: (...args: ArgumentsOf<Params>) => readonly DrawnPiece[];
}

/** What a call gives: never an exception, never a number that a cell cannot hold. */
export type Outcome =
  | { readonly kind: "value"; readonly value: PlainCell }
  | { readonly kind: "table"; readonly rows: readonly (readonly Cell[])[] }
  | { readonly kind: "error"; readonly code: string; readonly sentence: string };

/** A function of the catalogue, as hosts use it. */
export interface CatalogueFunction extends Common<ResultSpec> {
  readonly params: readonly Param[];
  /** Calls with the arguments as a worksheet sends them, read by position; more than the parameters are ignored. */
  readonly call: (args: readonly unknown[]) => Outcome;
  /** Balloons in space for the same arguments; undefined where the function draws nothing. */
  readonly draw?: (args: readonly unknown[]) => readonly DrawnBalloon[];
  /** The pieces of a job for the same arguments; undefined where the function draws none. */
  readonly drawPieces?: (args: readonly unknown[]) => readonly DrawnPiece[];
}
