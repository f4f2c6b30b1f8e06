import { type CellRange, contains, parseRange, splitSheet } from "../formula/address";
import { intersectionAsCall, withSigns } from "../formula/names";
import { parseFormula, shiftFormula } from "../formula/shift";
import { tableRange } from "../formula/structured-reference";
import { closingOf, type FormulaToken, tokenize } from "../formula/tokens";
import type { DefinedName, TableModel } from "../workbook/model";
import type { SheetRange } from "./rectangles";
import { areasAt, namesSheets, type ReferenceAreas } from "./reference-operators";
import type { FormulaContext, Place } from "./translation";

/** Names within names: no formula of a person needs more. */
export const MAX_NAME_DEPTH = 16;

/** Finds what a formula names, in any letter case. */
export interface Lookup {
  name(name: string, sheet: number): DefinedName | undefined;
  table(name: string): TableModel | undefined;
  sheet(name: string): number | undefined;
}

/** Tokens with spills as signs, and intersections as calls of SINGLE, which the engine is given. */
export function prepared(formula: string): readonly FormulaToken[] {
  return intersectionAsCall(withSigns(tokenize(formula)));
}

function onlyArea(range: CellRange | undefined, sheet: number, next: number): ReferenceAreas | undefined {
  return range && { areas: [{ ...range, sheet }], isDeep: false, isComposed: false, next };
}

/** Reads what the references of a formula refer to, as far as its text says. */
export class ReferenceReader {
  constructor(
    private readonly context: Pick<FormulaContext, "tables">,
    private readonly place: Place,
    private readonly lookup: Lookup,
  ) {}

  /** A reference with all that meets it and, where `isWhole`, all that joins it; undefined where it is no plain one. */
  areas(
    tokens: readonly FormulaToken[],
    at: number,
    variables: ReadonlySet<number>,
    isWhole: boolean,
  ): ReferenceAreas | undefined {
    const read = (from: number): ReferenceAreas | undefined =>
      variables.has(from) ? undefined : this.operand(tokens, from, this.place.sheet, 0);
    return areasAt(tokens, at, read, isWhole);
  }

  /** What all of a text refers to, where it is a plain reference. */
  whole(tokens: readonly FormulaToken[], depth = 0): ReferenceAreas | undefined {
    const read = (from: number): ReferenceAreas | undefined =>
      this.operand(tokens, from, this.place.sheet, depth);
    const found = areasAt(tokens, 0, read, true);
    return found?.next === tokens.length ? found : undefined;
  }

  /** Whether a text needs no brackets where it stands for a name. */
  isOneOperand(tokens: readonly FormulaToken[]): boolean {
    return (
      tokens.length === 1 ||
      (tokens.length === 2 && ["sheet", "name"].includes(tokens[0]?.kind ?? "")) ||
      (tokens[0]?.kind === "call" && closingOf(tokens, 1) === tokens.length - 1) ||
      this.whole(tokens) !== undefined
    );
  }

  /** What an address, a name or a part of a table refers to. */
  private operand(
    tokens: readonly FormulaToken[],
    at: number,
    sheet: number,
    depth: number,
  ): ReferenceAreas | undefined {
    const { kind, text = "" } = tokens[at] ?? {};
    if (kind === "reference") return onlyArea(parseRange(text), sheet, at + 1);
    if (kind === "sheet") {
      const sheets = this.sheetsOf(text);
      const [first = -1] = sheets;
      const found = sheets.length === 0 ? undefined : this.operand(tokens, at + 1, first, depth);
      if (!namesSheets(text) || found === undefined) return found;
      const [area] = found.areas;
      const areas = area === undefined ? [] : sheets.map((own) => ({ ...area, sheet: own }));
      return { ...found, areas, isDeep: true, isComposed: true };
    }
    if (kind === "structure") return this.tableOperand(this.tableHere(), text, at + 1);
    if (kind !== "name") return undefined;
    const structure = tokens[at + 1];
    if (structure?.kind === "structure")
      return this.tableOperand(this.lookup.table(text), structure.text, at + 2);
    const name = this.lookup.name(text, sheet);
    if (name === undefined) return this.tableOperand(this.lookup.table(text), "[]", at + 1);
    if (depth >= MAX_NAME_DEPTH) return undefined;
    const found = this.whole(this.definition(name), depth + 1);
    return found && { ...found, next: at + 1 };
  }

  private tableOperand(
    table: TableModel | undefined,
    structure: string,
    next: number,
  ): ReferenceAreas | undefined {
    const range = table === undefined ? undefined : tableRange(table, structure, this.place.row);
    return typeof range === "string" ? undefined : onlyArea(range, table?.sheet ?? 0, next);
  }

  /** The sheets of a prefix, from the first that it names to the last. */
  sheetsOf(prefix: string): readonly number[] {
    const { sheet: name = "" } = splitSheet(prefix);
    const found = (namesSheets(prefix) ? name.split(":") : [name]).map((part) => this.lookup.sheet(part));
    const [first] = found;
    const last = found.at(-1);
    if (first === undefined || last === undefined) return [];
    const start = Math.min(first, last);
    return Array.from({ length: Math.abs(last - first) + 1 }, (_, index) => start + index);
  }

  /** What a name stands for in this cell. */
  definition({ text }: DefinedName): readonly FormulaToken[] {
    const { row, column } = this.place;
    // References without dollars count from A1 in a name.
    return prepared(shiftFormula(parseFormula(text), row, column));
  }

  /** The table that the formula stands in. */
  tableHere(): TableModel | undefined {
    const { sheet, row, column } = this.place;
    return this.context.tables.find((table) => table.sheet === sheet && contains(table.range, row, column));
  }

  /** The cells of a name that is one address. */
  cellOf(name: DefinedName): SheetRange | undefined {
    const { sheet: sheetName, rest } = splitSheet(name.text);
    const range = parseRange(rest);
    const sheet = sheetName === undefined ? this.place.sheet : this.lookup.sheet(sheetName);
    return range === undefined || sheet === undefined ? undefined : { sheet, ...range };
  }
}
