import {
  type AstTreeBuilder,
  type BaseAstNode,
  type Interpreter,
  type Lexer,
  LexerNode,
  type LexerTreeBuilder,
} from "@univerjs/engine-formula";
import { joinedText, type WrittenFormula } from "./written-formula";

/** A parsed formula, ready for the addresses that it was asked for. */
export interface ParsedFormula {
  readonly node: BaseAstNode;
  readonly isAsync: boolean;
}

/** A parsed formula whose references may be given other addresses. */
interface SharedFormula extends ParsedFormula {
  readonly references: readonly BaseAstNode[];
}

/** What Univer needs to parse. */
export interface FormulaParser {
  readonly lexer: Lexer;
  readonly lexed: LexerTreeBuilder;
  readonly builder: AstTreeBuilder;
  readonly interpreter: Interpreter;
}

/** Parsed formulas at hand: each holds some kilobytes, and parsing costs a third of evaluating. */
const MAX_PARSED = 2 ** 14;
/** Univer's type of a node that is a reference. */
const REFERENCE = 1;
/** Stands for an address in the key of a shared formula; no formula has it. */
const ADDRESS = "\u0000";

/**
 * Formulas as Univer parsed them. Formulas that differ in their addresses only share one: a reference looks its address up
 * each time that it is evaluated, so that it can be given another.
 */
export class ParsedFormulas {
  private readonly shared = new Map<string, SharedFormula | undefined>();
  private readonly parsed = new Map<string, ParsedFormula>();

  constructor(private readonly parser: FormulaParser) {}

  /** Valid until the next call. Throws where Univer cannot read the formula. */
  of(formula: WrittenFormula): ParsedFormula {
    const key = formula.texts.join(ADDRESS);
    const known = this.shared.get(key);
    if (known !== undefined) {
      for (const [at, node] of known.references.entries()) setAddress(node, formula.addresses[at] ?? "");
      return known;
    }
    const text = joinedText(formula);
    const parsed = this.parsed.get(text) ?? this.parse(text);
    if (!this.shared.has(key)) {
      const references = referencesIn(parsed.node);
      const isShared =
        references.length === formula.addresses.length &&
        references.every((node, at) => node.getToken() === formula.addresses[at]);
      keep(this.shared, key, isShared ? { ...parsed, references } : undefined);
      if (isShared) return parsed;
    }
    keep(this.parsed, text, parsed);
    return parsed;
  }

  /** Forgets all of them, which an evaluation that was ended from outside may have left half done. */
  clear(): void {
    this.shared.clear();
    this.parsed.clear();
    this.parser.lexed.dispose();
  }

  private parse(formula: string): ParsedFormula {
    const { lexer, lexed, builder, interpreter } = this.parser;
    // Univer keeps what it read of every formula, for all engines of the process, and building the tree of a LET or
    // LAMBDA changes it: read anew, it would be another formula.
    lexed.dispose();
    const tree = lexer.treeBuilder(`=${formula}`);
    if (!(tree instanceof LexerNode)) throw new Error(`the formula cannot be read: ${String(tree)}`);
    const node = builder.parse(tree);
    if (!node) throw new Error("the formula cannot be read");
    return { node, isAsync: interpreter.checkAsyncNode(node) };
  }
}

function keep<Item>(items: Map<string, Item>, key: string, item: Item): void {
  if (items.size >= MAX_PARSED) items.clear();
  items.set(key, item);
}

/** A reference reads its address anew at each evaluation. */
function setAddress(node: BaseAstNode, address: string): void {
  node.getToken = () => address;
}

/** The references of a tree from left to right; what stands in a LAMBDA is no part of the tree. */
function referencesIn(node: BaseAstNode): readonly BaseAstNode[] {
  const own = (node.nodeType as number) === REFERENCE ? [node] : [];
  return [...own, ...node.getChildren().flatMap(referencesIn)];
}
