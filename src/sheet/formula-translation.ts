import {
  type CellRange,
  contains,
  MAX_COLUMNS,
  MAX_ROWS,
  parseRange,
  rangeAddress,
  splitSheet,
} from "../formula/address";
import { parseFormula, shiftFormula } from "../formula/shift";
import type { DefinedName, TableModel } from "../workbook/model";
import { intersectionAsCall, ourFunction, withSigns } from "../formula/names";
import { closingOf, type FormulaToken, tokenize, variablePositions, withoutPrefix } from "../formula/tokens";
import { tableRange } from "../formula/structured-reference";
import { cellCount, rangeKey, type SheetRange } from "./rectangles";

/** A formula as the engine takes it, with what it reads. */
export interface Translation {
  /** Text without equals sign; an object stands for the present spill of the cell there. */
  readonly parts: readonly (string | SheetRange)[];
  /** What it reads, as far as its text says. */
  readonly reads: readonly SheetRange[];
  /** Functions called, in capitals and without marks. */
  readonly calls: ReadonlySet<string>;
  /** Why the engine cannot compute it. */
  readonly problem?: string;
  /** Whether it cannot be computed only because something in it has a name that is not known here. */
  readonly isUnknown?: boolean;
  /** Cells that ranges lost because whole columns and rows are read up to the part in use only, by `rangeKey`. */
  readonly shortened?: ReadonlyMap<string, number>;
}

/** What formulas can name. */
export interface FormulaContext {
  readonly sheetNames: readonly string[];
  readonly names: readonly DefinedName[];
  readonly tables: readonly TableModel[];
  /** Whole columns and rows are read up to here. */
  readonly lastRow: number;
  readonly lastColumn: number;
  /** The engine's own name of a sheet. */
  engineSheet(sheet: number): string;
  knowsFunction(name: string): boolean;
}

/** Where a formula stands. */
interface Place {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** A range as the engine writes it in a formula on `sheet`. */
export function addressFor(
  context: Pick<FormulaContext, "engineSheet">,
  sheet: number,
  range: SheetRange,
): string {
  const prefix = range.sheet === sheet ? "" : `${context.engineSheet(range.sheet)}!`;
  return prefix + rangeAddress(range);
}

/** Names within names, and names written out in all: no formula of a person needs more. */
const MAX_NAME_DEPTH = 16;
const MAX_NAMES = 500;
/** Characters of a formula: Excel takes 8192 as typed, and its marks come on top. */
const MAX_FORMULA = 2 ** 15;
/** Cells that one formula may read: far more than a sheet of ours needs, far less than hangs. */
export const MAX_CELLS_READ = 2 ** 21;
export const READS_TOO_MUCH = "it reads too many cells";
/** Stands among the calls of a formula that makes a range of two results. */
export const RANGE_OPERATOR = ":";
/** The engine's name for a call of ours: `BLN.X` and its other spellings meet here. */
export function engineFunctionName(ours: string): string {
  return `BLN_${ours}`;
}
/** These must see whole columns and not only the part in use. */
const COUNTS_CELLS = new Set(["ROW", "COLUMN", "COUNTBLANK", "AREAS"]);
/** The engine counts days from 1900 only. */
const DATE_FUNCTIONS = new Set(
  `DATE DATEDIF DATEVALUE DAY DAYS360 EDATE EOMONTH ISOWEEKNUM MONTH NETWORKDAYS NETWORKDAYS.INTL NOW TODAY WEEKDAY
  WEEKNUM WORKDAY WORKDAY.INTL YEAR YEARFRAC TEXT`.split(/\s+/),
);

/** Tells why a formula of a workbook that counts days from 1904 cannot be computed; undefined where it can. */
export function dateProblem(calls: ReadonlySet<string>): string | undefined {
  const found = [...calls].find((name) => DATE_FUNCTIONS.has(name));
  return found && `${found} is not computed in a workbook whose dates count from 1904`;
}

/** Writes formulas for the engine: names and table areas become ranges, marks and signs become what it understands. */
export class FormulaTranslator {
  private readonly names = new Map<string, DefinedName>();
  private readonly tables = new Map<string, TableModel>();
  private readonly sheets = new Map<string, number>();

  constructor(private readonly context: FormulaContext) {
    for (const name of context.names) this.names.set(nameKey(name.name, name.sheet), name);
    for (const table of context.tables) this.tables.set(table.name.toLowerCase(), table);
    context.sheetNames.forEach((name, sheet) => this.sheets.set(name.toLowerCase(), sheet));
  }

  translate(formula: string, place: Place): Translation {
    const work = new TranslationWork(this.context, place, {
      name: (name, sheet) => this.names.get(nameKey(name, sheet)) ?? this.names.get(nameKey(name, undefined)),
      table: (name) => this.tables.get(name.toLowerCase()),
      sheet: (name) => this.sheets.get(name.toLowerCase()),
    });
    work.write(formula, 0);
    return work.result();
  }
}

interface Lookup {
  name(name: string, sheet: number): DefinedName | undefined;
  table(name: string): TableModel | undefined;
  sheet(name: string): number | undefined;
}

/** One formula on its way to the engine. */
class TranslationWork {
  private readonly parts: (string | SheetRange)[] = [];
  private readonly reads: SheetRange[] = [];
  private readonly calls = new Set<string>();
  private problem: string | undefined;
  private readonly shortened = new Map<string, number>();
  private isUnknown = false;
  private namesWritten = 0;

  constructor(
    private readonly context: FormulaContext,
    private readonly place: Place,
    private readonly lookup: Lookup,
  ) {}

  result(): Translation {
    const { parts, reads, calls, problem, shortened } = this;
    return {
      parts,
      reads,
      calls,
      ...(problem === undefined ? {} : { problem }),
      ...(this.isUnknown ? { isUnknown: true } : {}),
      ...(shortened.size === 0 ? {} : { shortened }),
    };
  }

  write(formula: string, depth: number): void {
    if (formula.length > MAX_FORMULA) {
      this.fail("it is longer than Excel allows");
      return;
    }
    const tokens = prepared(formula);
    const variables = variablePositions(tokens);
    const unions = unionAt(tokens);
    if (unions !== undefined) this.fail(unions);
    for (let at = 0; at < tokens.length;) at = this.writeToken(tokens, at, variables, depth);
  }

  private writeToken(
    tokens: readonly FormulaToken[],
    at: number,
    variables: ReadonlySet<number>,
    depth: number,
  ): number {
    const token = tokens[at];
    if (token === undefined) return at + 1;
    switch (token.kind) {
      case "sheet":
        return this.writeSheetReference(tokens, at, depth);
      case "reference":
        return this.writeReference(tokens, at, token.text, this.place.sheet);
      case "structure":
        this.writeTable(this.tableHere(), token.text);
        return at + 1;
      case "call": {
        const position = variables.has(at) ? undefined : positionOf(tokens, at);
        if (position !== undefined) this.parts.push(String(position));
        else this.writeCall(tokens, at, variables.has(at), depth);
        return position === undefined ? at + 1 : closingOf(tokens, at + 1) + 1;
      }
      case "name": {
        const structure = tokens[at + 1];
        if (variables.has(at)) this.parts.push(withoutPrefix(token.text));
        else if (structure?.kind === "structure") {
          this.writeTable(this.lookup.table(token.text), structure.text);
          return at + 2;
        } else return this.writeName(tokens, at, this.place.sheet, depth);
        return at + 1;
      }
      case "text":
        this.parts.push(isInBraces(tokens, at) ? token.text : withLineBreaks(token.text));
        return at + 1;
      case "spill":
        this.fail("# stands behind something that is no cell");
        return at + 1;
      case "space":
        this.parts.push(" ");
        return at + 1;
      default:
        if (token.text === ":") this.calls.add(RANGE_OPERATOR);
        this.parts.push(token.text);
        return at + 1;
    }
  }

  private writeSheetReference(tokens: readonly FormulaToken[], at: number, depth: number): number {
    const prefix = tokens[at]?.text ?? "";
    const target = tokens[at + 1];
    const name = splitSheet(prefix).sheet ?? "";
    const sheet = this.lookup.sheet(name);
    if (sheet === undefined) {
      if (prefix.includes("[")) this.fail("it refers to another workbook");
      else if (prefix.includes(":")) this.fail("it refers to the same cells of several sheets");
      else this.parts.push("#REF!");
      return at + 2;
    }
    if (target?.kind === "reference") return this.writeReference(tokens, at + 1, target.text, sheet);
    if (target?.kind === "name") return this.writeName(tokens, at + 1, sheet, depth);
    this.parts.push("#REF!");
    return at + 2;
  }

  private writeReference(tokens: readonly FormulaToken[], at: number, text: string, sheet: number): number {
    const range = parseRange(text);
    if (range === undefined) {
      this.parts.push("#REF!");
      return at + 1;
    }
    if (tokens[at + 1]?.kind === "spill") {
      this.writeSpill({ sheet, ...range });
      return at + 2;
    }
    const called = tokens[at - 1]?.kind === "open" ? tokens[at - 2]?.text.toUpperCase() : undefined;
    if (isVast(range) && COUNTS_CELLS.has(called ?? ""))
      this.fail("it looks at all cells of whole columns or rows");
    this.writeRange(sheet, range);
    return at + 1;
  }

  private writeRange(sheet: number, range: CellRange): void {
    const { lastRow, lastColumn } = this.context;
    const used = {
      ...range,
      lastRow: Math.min(range.lastRow, Math.max(range.firstRow, lastRow)),
      lastColumn: Math.min(range.lastColumn, Math.max(range.firstColumn, lastColumn)),
    };
    // What lies beyond the cells in use is blank: without it, whole columns cost no more than their content.
    const written = isVast(range) ? used : range;
    const cells = (used.lastRow - used.firstRow + 1) * (used.lastColumn - used.firstColumn + 1);
    if (cells > MAX_CELLS_READ) this.fail(READS_TOO_MUCH);
    this.reads.push({ sheet, ...used });
    if (isVast(range)) this.shortened.set(rangeKey({ sheet, ...used }), cellCount(range) - cells);
    this.parts.push(addressFor(this.context, this.place.sheet, { sheet, ...written }));
  }

  private writeSpill(range: SheetRange): void {
    this.reads.push(range);
    this.parts.push(range);
  }

  private writeTable(table: TableModel | undefined, structure: string): void {
    const range = table === undefined ? "#REF!" : tableRange(table, structure, this.place.row);
    if (typeof range === "string") this.parts.push(range);
    else this.writeRange(table?.sheet ?? this.place.sheet, range);
  }

  private tableHere(): TableModel | undefined {
    const { sheet, row, column } = this.place;
    return this.context.tables.find((table) => table.sheet === sheet && contains(table.range, row, column));
  }

  private writeCall(tokens: readonly FormulaToken[], at: number, isVariable: boolean, depth: number): void {
    const text = tokens[at]?.text ?? "";
    const ours = ourFunction(text);
    const name = ours === undefined ? withoutPrefix(text).toUpperCase() : engineFunctionName(ours);
    const named = isVariable || ours !== undefined ? undefined : this.lookup.name(text, this.place.sheet);
    if (named !== undefined && !this.context.knowsFunction(name)) {
      this.writeDefinition(named, depth);
      return;
    }
    if (!isVariable) {
      this.calls.add(name);
      if (!this.context.knowsFunction(name)) {
        this.isUnknown ||= this.problem === undefined;
        this.fail(`the function ${name} is not known here`);
      }
    }
    this.parts.push(isVariable ? withoutPrefix(text) : name);
  }

  private writeName(tokens: readonly FormulaToken[], at: number, sheet: number, depth: number): number {
    const text = tokens[at]?.text ?? "";
    if (/^(?:true|false)$/i.test(text)) {
      this.parts.push(text.toUpperCase());
      return at + 1;
    }
    const name = this.lookup.name(text, sheet);
    const table = name === undefined ? this.lookup.table(text) : undefined;
    if (tokens[at + 1]?.kind === "spill") {
      const target = name === undefined ? undefined : this.cellOf(name);
      if (target === undefined) this.fail(`${text}# is no spill`);
      else this.writeSpill(target);
      return at + 2;
    }
    if (name !== undefined) this.writeDefinition(name, depth);
    else if (table !== undefined) this.writeTable(table, "[]");
    else {
      this.isUnknown ||= this.problem === undefined;
      this.fail(`the name ${text} is not defined`);
      this.parts.push("#NAME?");
    }
    return at + 1;
  }

  private writeDefinition(name: DefinedName, depth: number): void {
    if (depth >= MAX_NAME_DEPTH || ++this.namesWritten > MAX_NAMES) {
      this.fail(`the name ${name.name} leads to too many others`);
      return;
    }
    const { row, column } = this.place;
    // References without dollars count from A1 in a name.
    const text = shiftFormula(parseFormula(name.text), row, column);
    if (text.includes("#REF!") && !name.text.includes("#REF!"))
      this.fail(`the name ${name.name} leaves the sheet`);
    const tokens = prepared(text);
    const isOneOperand =
      tokens.length === 1 ||
      (tokens.length === 2 && ["sheet", "name"].includes(tokens[0]?.kind ?? "")) ||
      (tokens[0]?.kind === "call" && closingOf(tokens, 1) === tokens.length - 1);
    if (!isOneOperand) this.parts.push("(");
    this.write(text, depth + 1);
    if (!isOneOperand) this.parts.push(")");
  }

  private cellOf(name: DefinedName): SheetRange | undefined {
    const { sheet: sheetName, rest } = splitSheet(name.text);
    const range = parseRange(rest);
    const sheet = sheetName === undefined ? this.place.sheet : this.lookup.sheet(sheetName);
    return range === undefined || sheet === undefined ? undefined : { sheet, ...range };
  }

  private fail(problem: string): void {
    this.problem ??= problem;
  }
}

/** Univer takes a line break in a text for a space, depending on what stands behind. */
function withLineBreaks(text: string): string {
  if (!/[\r\n]/.test(text)) return text;
  const pieces = text.slice(1, -1).split(/(\r\n?|\n)/);
  const written = pieces.map((piece, at) => {
    if (at % 2 === 0) return `"${piece}"`;
    return [...piece].map((sign) => `CHAR(${sign.charCodeAt(0).toString()})`).join("&");
  });
  return `(${written.join("&")})`;
}

function isInBraces(tokens: readonly FormulaToken[], at: number): boolean {
  let depth = 0;
  for (const { kind, text } of tokens.slice(0, at)) if (kind === "brace") depth += text === "{" ? 1 : -1;
  return depth > 0;
}

/** Tokens with spills as signs, and intersections as calls of SINGLE, which the engine is given. */
function prepared(formula: string): readonly FormulaToken[] {
  return intersectionAsCall(withSigns(tokenize(formula)));
}

/** Whether a range reaches the end of the sheet or has more cells than a person fills. */
function isVast({ firstRow, firstColumn, lastRow, lastColumn }: CellRange): boolean {
  const cells = (lastRow - firstRow + 1) * (lastColumn - firstColumn + 1);
  return lastRow === MAX_ROWS - 1 || lastColumn === MAX_COLUMNS - 1 || cells > 2 ** 20;
}

function nameKey(name: string, sheet: number | undefined): string {
  return `${sheet === undefined ? "" : String(sheet)}!${withoutPrefix(name).toLowerCase()}`;
}

/**
 * What ROW, COLUMN, ROWS or COLUMNS gives for a reference that the formula spells out; undefined for all else.
 * They ask where cells are, not what they hold, so that a formula may ask it of its own cell.
 */
function positionOf(tokens: readonly FormulaToken[], at: number): number | undefined {
  const inner = tokens.slice(at + 2, closingOf(tokens, at + 1));
  const reference = inner.at(-1);
  const isPlain = inner.length === 1 || (inner.length === 2 && inner[0]?.kind === "sheet");
  const range = isPlain && reference?.kind === "reference" ? parseRange(reference.text) : undefined;
  if (range === undefined || inner[0]?.text.includes("[") === true) return undefined;
  const isOneRow = range.firstRow === range.lastRow;
  const isOneColumn = range.firstColumn === range.lastColumn;
  switch (tokens[at]?.text.toUpperCase()) {
    case "ROW":
      return isOneRow ? range.firstRow + 1 : undefined;
    case "COLUMN":
      return isOneColumn ? range.firstColumn + 1 : undefined;
    case "ROWS":
      return range.lastRow - range.firstRow + 1;
    case "COLUMNS":
      return range.lastColumn - range.firstColumn + 1;
    default:
      return undefined;
  }
}

const OPERANDS = new Set(["reference", "name", "structure", "close", "spill"]);

/** Why a formula cannot be computed that joins references with a comma or meets them with a space. */
function unionAt(tokens: readonly FormulaToken[]): string | undefined {
  const opened: ("call" | "group")[] = [];
  let braces = 0;
  for (const [at, token] of tokens.entries()) {
    if (token.kind === "open")
      opened.push(tokens[at - 1]?.kind === "call" || tokens[at - 1]?.kind === "close" ? "call" : "group");
    else if (token.kind === "close") opened.pop();
    else if (token.kind === "brace") braces += token.text === "{" ? 1 : -1;
    else if (token.kind === "separator" && braces === 0 && opened.at(-1) !== "call")
      return "it joins references";
    else if (token.kind === "space") {
      const isBefore = OPERANDS.has(tokens[at - 1]?.kind ?? "");
      const next = tokens[at + 1]?.kind ?? "";
      if (isBefore && ["reference", "sheet", "name", "call", "open"].includes(next))
        return "it meets references";
    }
  }
  return undefined;
}
