import { parseRange, splitSheet } from "../../formula/address";
import { ourFunction } from "../../formula/names";
import { referenceEnd } from "../../formula/shift";
import { tableRange } from "../../formula/structured-reference";
import { type FormulaToken, unquoted, withoutPrefix } from "../../formula/tokens";
import type { DefinedName, TableModel } from "../../workbook/model";
import { mayCompose, operatorsIn } from "../reference-operators";
import { type Lookup, MAX_NAME_DEPTH, prepared, ReferenceReader } from "../reference-reader";
import { engineFunctionName, type FormulaContext, MAX_FORMULA, MAX_NAMES, type Place } from "../translation";
import { fixedReference, isFixed, referenceFrom, type RelativeReference } from "./references";
import { type BinaryOperator, BINDING, type ConstantValue, type PlainFormula, type Tree } from "./tree";

/** The formula is not plain: it is translated for each of its cells. */
class NotPlain extends Error {}

/** What formulas can name, and how it is found. */
export interface Names {
  readonly context: Pick<FormulaContext, "tables" | "knowsFunction">;
  readonly lookup: Lookup;
}

/** These make variables, or ask how and where a reference stands instead of what it holds. */
const NOT_PLAIN = new Set("LET LAMBDA ROW COLUMN ROWS COLUMNS AREAS COUNTBLANK".split(" "));
const ERROR = /^#(?:N\/A|DIV\/0!|VALUE!|REF!|NUM!|NULL!)$/i;

/** Brackets, calls and signs within each other: Excel takes 64 calls, and a tree far deeper would fill the stack. */
const MAX_NESTING = 200;

/** A formula as a tree; undefined where it is not plain, so that each cell needs a translation of its own. */
export function parsePlain(formula: string, place: Place, names: Names): PlainFormula | undefined {
  const parser = new Parser(place, names);
  try {
    return { tree: parser.whole(formula), references: parser.references, calls: parser.calls };
  } catch (error) {
    if (error instanceof NotPlain) return undefined;
    throw error;
  }
}

function notPlain(why: string): never {
  throw new NotPlain(why);
}

class Parser {
  readonly references: RelativeReference[] = [];
  readonly calls = new Set<string>();
  private tokens: readonly FormulaToken[] = [];
  private at = 0;
  private depth = 0;
  private namesRead = 0;
  private nesting = 0;
  private readonly reader: ReferenceReader;

  constructor(
    private readonly place: Place,
    private readonly names: Names,
  ) {
    this.reader = new ReferenceReader(names.context, place, names.lookup);
  }

  whole(formula: string): Tree {
    if (formula.length > MAX_FORMULA) notPlain("it is too long");
    return this.read(prepared(formula));
  }

  private read(all: readonly FormulaToken[]): Tree {
    if (operatorsIn(all).size > 0 || mayCompose(all)) notPlain("its references are put together");
    const outer = [this.tokens, this.at] as const;
    this.tokens = all.filter(({ kind }) => kind !== "space");
    this.at = 0;
    const tree = this.binary(0);
    if (this.at < this.tokens.length) notPlain("something stands behind it");
    [this.tokens, this.at] = outer;
    return tree;
  }

  private peek(): FormulaToken | undefined {
    return this.tokens[this.at];
  }

  private take(): FormulaToken {
    return this.tokens[this.at++] ?? { kind: "other", text: "" };
  }

  private binary(least: number): Tree {
    let left = this.unary();
    for (;;) {
      const next = this.peek();
      const binding = next?.kind === "operator" ? bindingOf(next.text) : undefined;
      if (next === undefined || binding === undefined || binding <= least) return left;
      this.at++;
      left = {
        kind: "binary",
        operator: next.text as BinaryOperator,
        left,
        right: this.binary(binding),
      };
    }
  }

  private unary(): Tree {
    if (++this.nesting > MAX_NESTING) notPlain("it is nested too deeply");
    const tree = this.signed();
    this.nesting--;
    return tree;
  }

  private signed(): Tree {
    const { kind, text } = this.peek() ?? {};
    if (kind === "operator" && (text === "-" || text === "+")) {
      this.at++;
      return { kind: "unary", operator: text, operand: this.unary() };
    }
    let tree = this.operand();
    while (this.peek()?.text === "%") {
      this.at++;
      tree = { kind: "unary", operator: "%", operand: tree };
    }
    return tree;
  }

  private operand(): Tree {
    const { kind, text } = this.take();
    switch (kind) {
      case "number":
        return { kind: "value", value: Number(text) };
      case "text":
        return { kind: "value", value: unquoted(text) };
      case "error":
        if (!ERROR.test(text)) notPlain("an error that is not common");
        return { kind: "value", value: { error: text.toUpperCase() } };
      case "open": {
        const tree = this.binary(0);
        if (this.take().kind !== "close") notPlain("a bracket is not closed");
        return tree;
      }
      case "reference":
        return this.reference(text, this.place.sheet);
      case "sheet":
        return this.onSheet(text);
      case "structure":
        return this.table(this.depth > 0 ? undefined : this.reader.tableHere(), text);
      case "name":
        return this.name(text, this.place.sheet);
      case "call":
        return this.call(text);
      case "brace":
        return this.array();
      default:
        return notPlain("a sign that is not plain");
    }
  }

  /** The array whose first brace was taken. */
  private array(): Tree {
    const rows: ConstantValue[][] = [[]];
    for (;;) {
      rows.at(-1)?.push(this.constant());
      const { kind, text } = this.take();
      if (text === "}") break;
      if (kind !== "separator") notPlain("an array without its second brace");
      if (text === ";") rows.push([]);
    }
    if (rows.some(({ length }) => length !== rows[0]?.length)) notPlain("rows of other lengths");
    return { kind: "array", rows };
  }

  /** One value of an array. */
  private constant(): ConstantValue {
    const isNegative = this.peek()?.text === "-";
    if (isNegative) this.at++;
    const { kind, text } = this.take();
    if (kind === "number") return (isNegative ? -1 : 1) * Number(text) || 0;
    if (isNegative) notPlain("a sign before no number");
    if (kind === "name" && /^(?:true|false)$/i.test(text)) return /^t/i.test(text);
    if (kind === "error" && ERROR.test(text)) return { error: text.toUpperCase() };
    // Univer takes a text such as "17:00" for a number here, and one with a comma apart; in Excel it is a text.
    return kind === "text" ? unquoted(text) : notPlain("a value that is not plain");
  }

  private onSheet(prefix: string): Tree {
    const sheet = this.names.lookup.sheet(splitSheet(prefix).sheet ?? "");
    const { kind, text } = this.take();
    if (sheet === undefined) return notPlain("it names another workbook or no sheet");
    if (kind === "reference") return this.reference(text, sheet);
    return kind === "name" ? this.name(text, sheet) : notPlain("a sheet without a cell");
  }

  private reference(text: string, sheet: number): Tree {
    if (this.peek()?.kind === "spill") notPlain("a spill");
    const ends = text.split(":").flatMap((end) => referenceEnd(end) ?? []);
    const reference = referenceFrom(ends, sheet, this.place);
    if (parseRange(text) === undefined || reference === undefined) return notPlain("no cell of a sheet");
    return this.refer(reference);
  }

  private refer(reference: RelativeReference): Tree {
    this.references.push(reference);
    return { kind: "reference", reference };
  }

  private name(text: string, sheet: number): Tree {
    const next = this.peek()?.kind;
    if (next === "spill") notPlain("a spill");
    if (/^(?:true|false)$/i.test(text)) return { kind: "value", value: /^t/i.test(text) };
    const { lookup } = this.names;
    if (next === "structure") return this.table(lookup.table(text), this.take().text);
    const name = lookup.name(text, sheet);
    return name === undefined ? this.table(lookup.table(text), "[]") : this.definition(name);
  }

  private definition(name: DefinedName): Tree {
    if (this.depth >= MAX_NAME_DEPTH || ++this.namesRead > MAX_NAMES) notPlain("names lead too far");
    const first = this.references.length;
    this.depth++;
    const tree = this.read(prepared(name.text));
    this.depth--;
    // References without dollars count from A1 in a name, and may go round the edges of the sheet.
    const isMoving = this.references.slice(first).some((reference) => !isFixed(reference));
    return isMoving ? notPlain("a name that moves with its cell") : tree;
  }

  private table(table: TableModel | undefined, structure: string): Tree {
    if (table === undefined) return notPlain("an unknown name");
    const { row } = this.place;
    const range = tableRange(table, structure, row);
    if (typeof range === "string")
      return this.depth > 0 ? notPlain("a name that fails here") : { kind: "value", value: { error: range } };
    const fixed = fixedReference({ sheet: table.sheet, ...range });
    if (!/@|#this row/i.test(structure)) return this.refer({ ...fixed, isCell: false });
    if (range.firstRow !== row || range.lastRow !== row) return notPlain("more than its row");
    const here = { at: 0, isFixed: false };
    return this.refer({ ...fixed, firstRow: here, lastRow: here });
  }

  private call(text: string): Tree {
    const ours = ourFunction(text);
    const name = ours === undefined ? withoutPrefix(text).toUpperCase() : engineFunctionName(ours);
    if (NOT_PLAIN.has(name) || !this.names.context.knowsFunction(name)) notPlain(name);
    this.calls.add(name);
    this.at++;
    const args: Tree[] = [];
    if (this.peek()?.kind === "close") {
      this.at++;
      return { kind: "call", name, args };
    }
    for (;;) {
      const next = this.peek()?.kind;
      args.push(next === "separator" || next === "close" ? { kind: "nothing" } : this.binary(0));
      const end = this.take().kind;
      if (end === "close") return { kind: "call", name, args };
      if (end !== "separator") notPlain("arguments without a comma");
    }
  }
}

function bindingOf(text: string): number | undefined {
  return Object.hasOwn(BINDING, text) ? BINDING[text as BinaryOperator] : undefined;
}
