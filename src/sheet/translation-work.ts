import { type CellRange, parseRange, splitSheet } from "../formula/address";
import { ourFunction } from "../formula/names";
import { tableRange } from "../formula/structured-reference";
import { closingOf, type FormulaToken, variablePositions, withoutPrefix } from "../formula/tokens";
import type { DefinedName, TableModel } from "../workbook/model";
import { cellCount, rangeKey, type SheetRange } from "./rectangles";
import { areasRefused, JOINED, namesSheets, mayCompose, operatorsIn, takerOf } from "./reference-operators";
import { areaCountOf, positionOf } from "./reference-positions";
import { type Lookup, MAX_NAME_DEPTH, prepared, ReferenceReader } from "./reference-reader";
import { isInBraces, withLineBreaks } from "./text-constants";
import {
  addressFor,
  engineFunctionName,
  type FormulaContext,
  type FormulaPart,
  MAX_CELLS_READ,
  MAX_FORMULA,
  MAX_NAMES,
  type Place,
  RANGE_OPERATOR,
  READS_TOO_MUCH,
  type Translation,
} from "./translation";
import { isVast, mustSeeAll, usedPart } from "./vast-ranges";

/** How deep in names a text stands, and the function that takes all of it. */
interface Level {
  readonly depth: number;
  readonly taker?: string | undefined;
}

const BEGINS_OPERAND = new Set(["open", "sheet", "reference", "structure", "name"]);

/** One formula on its way to the engine. */
export class TranslationWork {
  private readonly parts: FormulaPart[] = [];
  private readonly reads: SheetRange[] = [];
  private readonly calls = new Set<string>();
  private problem: string | undefined;
  private readonly shortened = new Map<string, number>();
  private isUnknown = false;
  private namesWritten = 0;
  private readonly reader: ReferenceReader;

  constructor(
    private readonly context: FormulaContext,
    private readonly place: Place,
    private readonly lookup: Lookup,
  ) {
    this.reader = new ReferenceReader(context, place, lookup);
  }

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

  write(formula: string, level: Level): void {
    if (formula.length > MAX_FORMULA) {
      this.fail("it is longer than Excel allows");
      return;
    }
    const tokens = prepared(formula);
    const variables = variablePositions(tokens);
    const operators = operatorsIn(tokens);
    const isComposed = operators.size > 0 || mayCompose(tokens);
    for (let at = 0; at < tokens.length;) {
      const next = isComposed ? this.writeComposed(tokens, at, variables, level) : undefined;
      const fault = next === undefined ? operators.get(at) : undefined;
      if (fault !== undefined) this.fail(fault);
      at = next ?? this.writeToken(tokens, at, variables, level);
    }
  }

  /** Writes a reference that is put together from others; undefined where none begins here. */
  private writeComposed(
    tokens: readonly FormulaToken[],
    at: number,
    variables: ReadonlySet<number>,
    level: Level,
  ): number | undefined {
    const { kind = "other", text = "" } = tokens[at] ?? {};
    if (kind === "call" && withoutPrefix(text).toUpperCase() === "AREAS")
      return variables.size > 0 ? undefined : this.writeAreaCount(tokens, at);
    const isInCall = kind === "open" && ["call", "close"].includes(tokens[at - 1]?.kind ?? "");
    if (isInCall || !BEGINS_OPERAND.has(kind)) return undefined;
    const whole = at === 0 ? this.reader.areas(tokens, at, variables, true) : undefined;
    const found = whole?.next === tokens.length ? whole : this.reader.areas(tokens, at, variables, false);
    if (found?.isComposed !== true) return undefined;
    const { areas, next } = found;
    const [first] = areas;
    const taker = takerOf(tokens, at, next, level.taker);
    if (first === undefined) this.parts.push("#NULL!");
    else if (areas.length === 1 && !found.isDeep) this.writeWhole(first, taker);
    else {
      const refused = areasRefused(found, taker);
      if (refused !== undefined) this.fail(refused);
      this.writeAreas(areas, taker);
    }
    return next;
  }

  private writeAreas(areas: readonly SheetRange[], taker: string | undefined): void {
    // SUBTOTAL looks at the rows of its references.
    const isListed = taker === "SUBTOTAL";
    this.parts.push(isListed ? "" : `${JOINED}(`);
    for (const [index, area] of areas.entries()) {
      if (index > 0) this.parts.push(",");
      this.writeRange(area.sheet, area);
    }
    this.parts.push(isListed ? "" : ")");
  }

  private writeAreaCount(tokens: readonly FormulaToken[], at: number): number | undefined {
    const end = closingOf(tokens, at + 1);
    const count = areaCountOf(this.reader.whole(tokens.slice(at + 2, end)));
    if (count === undefined) return undefined;
    this.parts.push(count);
    return end + 1;
  }

  private writeToken(
    tokens: readonly FormulaToken[],
    at: number,
    variables: ReadonlySet<number>,
    level: Level,
  ): number {
    const token = tokens[at];
    if (token === undefined) return at + 1;
    switch (token.kind) {
      case "sheet":
        return this.writeSheetReference(tokens, at, level);
      case "reference":
        return this.writeReference(tokens, at, token.text, this.place.sheet);
      case "structure":
        this.writeTable(this.reader.tableHere(), token.text);
        return at + 1;
      case "call": {
        const position = variables.has(at) ? undefined : positionOf(tokens, at);
        if (position !== undefined) this.parts.push(String(position));
        else this.writeCall(tokens, at, variables.has(at), level);
        return position === undefined ? at + 1 : closingOf(tokens, at + 1) + 1;
      }
      case "name": {
        const structure = tokens[at + 1];
        if (variables.has(at)) this.parts.push(withoutPrefix(token.text));
        else if (structure?.kind === "structure") {
          this.writeTable(this.lookup.table(token.text), structure.text);
          return at + 2;
        } else return this.writeName(tokens, at, this.place.sheet, level);
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

  private writeSheetReference(tokens: readonly FormulaToken[], at: number, level: Level): number {
    const prefix = tokens[at]?.text ?? "";
    const target = tokens[at + 1];
    const name = splitSheet(prefix).sheet ?? "";
    const sheet = this.lookup.sheet(name);
    if (sheet === undefined) {
      if (prefix.includes("[")) this.fail("it refers to another workbook");
      else if (namesSheets(prefix) && this.reader.sheetsOf(prefix).length > 0)
        this.fail("it refers to the same cells of several sheets");
      else this.parts.push("#REF!");
      return at + 2;
    }
    if (target?.kind === "reference") return this.writeReference(tokens, at + 1, target.text, sheet);
    if (target?.kind === "name") return this.writeName(tokens, at + 1, sheet, level);
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
    this.writeWhole({ sheet, ...range }, called);
    return at + 1;
  }

  /** Writes a range that a function may ask for cells that are not in use. */
  private writeWhole(range: SheetRange, called: string | undefined): void {
    if (mustSeeAll(range, called)) this.fail("it looks at all cells of whole columns or rows");
    this.writeRange(range.sheet, range);
  }

  private writeRange(sheet: number, range: CellRange): void {
    const used = usedPart(range, this.context);
    const written = isVast(range) ? used : range;
    const cells = cellCount(used);
    if (cells > MAX_CELLS_READ) this.fail(READS_TOO_MUCH);
    this.reads.push({ sheet, ...used });
    if (isVast(range)) this.shortened.set(rangeKey({ sheet, ...used }), cellCount(range) - cells);
    this.parts.push({ address: addressFor(this.place.sheet, { sheet, ...written }) });
  }

  private writeSpill(range: SheetRange): void {
    this.reads.push(range);
    this.parts.push({ spillOf: range });
  }

  private writeTable(table: TableModel | undefined, structure: string): void {
    const range = table === undefined ? "#REF!" : tableRange(table, structure, this.place.row);
    if (typeof range === "string") this.parts.push(range);
    else this.writeRange(table?.sheet ?? this.place.sheet, range);
  }

  private writeCall(tokens: readonly FormulaToken[], at: number, isVariable: boolean, level: Level): void {
    const text = tokens[at]?.text ?? "";
    const ours = ourFunction(text);
    const name = ours === undefined ? withoutPrefix(text).toUpperCase() : engineFunctionName(ours);
    const named = isVariable || ours !== undefined ? undefined : this.lookup.name(text, this.place.sheet);
    if (named !== undefined && !this.context.knowsFunction(name)) {
      this.writeDefinition(named, level);
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

  private writeName(tokens: readonly FormulaToken[], at: number, sheet: number, level: Level): number {
    const text = tokens[at]?.text ?? "";
    if (/^(?:true|false)$/i.test(text)) {
      this.parts.push(text.toUpperCase());
      return at + 1;
    }
    const name = this.lookup.name(text, sheet);
    const table = name === undefined ? this.lookup.table(text) : undefined;
    if (tokens[at + 1]?.kind === "spill") {
      const target = name === undefined ? undefined : this.reader.cellOf(name);
      if (target === undefined) this.fail(`${text}# is no spill`);
      else this.writeSpill(target);
      return at + 2;
    }
    const start = tokens[at - 1]?.kind === "sheet" ? at - 1 : at;
    if (name !== undefined)
      this.writeDefinition(name, { ...level, taker: takerOf(tokens, start, at + 1, level.taker) });
    else if (table !== undefined) this.writeTable(table, "[]");
    else {
      this.isUnknown ||= this.problem === undefined;
      this.fail(`the name ${text} is not defined`);
      this.parts.push("#NAME?");
    }
    return at + 1;
  }

  private writeDefinition(name: DefinedName, { depth, taker }: Level): void {
    if (depth >= MAX_NAME_DEPTH || ++this.namesWritten > MAX_NAMES) {
      this.fail(`the name ${name.name} leads to too many others`);
      return;
    }
    const tokens = this.reader.definition(name);
    const text = tokens.map((token) => token.text).join("");
    if (text.includes("#REF!") && !name.text.includes("#REF!"))
      this.fail(`the name ${name.name} leaves the sheet`);
    const isOneOperand = this.reader.isOneOperand(tokens);
    if (!isOneOperand) this.parts.push("(");
    this.write(text, { depth: depth + 1, taker });
    if (!isOneOperand) this.parts.push(")");
  }

  private fail(problem: string): void {
    this.problem ??= problem;
  }
}
