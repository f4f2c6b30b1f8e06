import type { CatalogueFunction, Outcome } from "../functions/definition";
import { argumentsAt } from "../formula/call-arguments";
import { calledFunction } from "../formula/ours";
import { closingOf, tokenize, type FormulaToken, unquoted } from "../formula/tokens";
import type { CellInput, CellRows } from "./sheet-host";

/** Values behind a reference; undefined where they cannot be told. */
export type ReadReference = (reference: string) => CellRows | undefined;

/** A call of a function of ours with the tokens of each argument. */
export interface OurCall {
  readonly fn: CatalogueFunction;
  readonly args: readonly (readonly FormulaToken[])[];
}

const UNKNOWN = Symbol("a value that only Excel can tell");
const REFERENCE_KINDS = new Set(["sheet", "reference", "name", "structure", "spill"]);

function callAt(
  tokens: readonly FormulaToken[],
  at: number,
): { readonly call: OurCall; readonly end: number } | undefined {
  const token = tokens[at];
  const fn = token && calledFunction(token);
  if (fn === undefined) return undefined;
  const end = closingOf(tokens, at + 1);
  return { call: { fn, args: argumentsAt(tokens, at + 1) }, end };
}

/** The calls of functions of ours in a formula, outermost first; `formula` begins with its equals sign. */
export function ourCalls(formula: string): readonly OurCall[] {
  const tokens = tokenize(formula.replace(/^=/, ""));
  return tokens.flatMap((_, at) => callAt(tokens, at)?.call ?? []);
}

function literal(token: FormulaToken): CellInput | typeof UNKNOWN {
  if (token.kind === "number") return Number(token.text);
  if (token.kind === "text") return unquoted(token.text);
  if (token.kind === "name" && /^(?:true|false)$/i.test(token.text))
    return token.text.toLowerCase() === "true";
  return UNKNOWN;
}

function signed(tokens: readonly FormulaToken[]): CellInput | typeof UNKNOWN {
  const [first, second] = tokens;
  if (first === undefined) return UNKNOWN;
  if (tokens.length === 1) return literal(first);
  const value =
    tokens.length === 2 && second !== undefined && /^[-+]$/.test(first.text) ? literal(second) : UNKNOWN;
  return typeof value === "number" ? (first.text === "-" ? -value : value) : UNKNOWN;
}

function arrayConstant(tokens: readonly FormulaToken[]): CellRows | typeof UNKNOWN {
  const rows: FormulaToken[][][] = [[[]]];
  for (const token of tokens.slice(1, -1)) {
    if (token.text === ";" && token.kind === "separator") rows.push([[]]);
    else if (token.kind === "separator") rows.at(-1)?.push([]);
    else if (token.kind !== "space") rows.at(-1)?.at(-1)?.push(token);
  }
  const values = rows.map((row) => row.map(signed));
  return values.every((row) => row.every((value) => value !== UNKNOWN)) ? values : UNKNOWN;
}

function outcomeValue(outcome: Outcome): unknown {
  if (outcome.kind === "error") return outcome.code;
  return outcome.kind === "value" ? outcome.value : outcome.rows;
}

function valueOf(tokens: readonly FormulaToken[], read: ReadReference): unknown {
  const told = tokens.filter(({ kind }) => kind !== "space");
  const [first] = told;
  if (first === undefined) return null;
  const whole = callAt(told, 0);
  if (whole?.end === told.length - 1) {
    const outcome = evaluate(whole.call, read);
    return outcome === undefined ? UNKNOWN : outcomeValue(outcome);
  }
  if (first.kind === "open" && closingOf(told, 0) === told.length - 1)
    return valueOf(told.slice(1, -1), read);
  if (first.text === "{" && told.at(-1)?.text === "}") return arrayConstant(told);
  const constant = signed(told);
  if (constant !== UNKNOWN) return constant;
  if (!told.every(({ kind }) => REFERENCE_KINDS.has(kind))) return UNKNOWN;
  const rows = read(told.map(({ text }) => text).join(""));
  if (rows === undefined) return UNKNOWN;
  return rows.length === 1 && rows[0]?.length === 1 ? rows[0][0] : rows;
}

/** The arguments of a call as the worksheet sends them; undefined where one is more than literals and references. */
export function argumentValues({ fn, args }: OurCall, read: ReadReference): readonly unknown[] | undefined {
  const values = args.map((tokens, index) => {
    const value = valueOf(tokens, read);
    const param = fn.params[index];
    const takesRange = param?.kind === "list" || param?.kind === "table";
    // Excel calls once for each cell of a range where one cell belongs; the cell with the formula shows the first.
    return Array.isArray(value) && !takesRange ? (value as CellRows)[0]?.[0] : value;
  });
  return values.includes(UNKNOWN) ? undefined : values;
}

/** What a call gives; undefined where its arguments cannot be told. */
export function evaluate(call: OurCall, read: ReadReference): Outcome | undefined {
  const values = argumentValues(call, read);
  return values === undefined ? undefined : call.fn.call(values);
}
