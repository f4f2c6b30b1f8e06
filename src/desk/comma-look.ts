import { argumentsAt } from "../formula/call-arguments";
import { calledFunction } from "../formula/ours";
import { type FormulaToken, tokenize, unquoted } from "../formula/tokens";
import type { CatalogueFunction } from "../functions/definition";
import { isNumeric, isOptional, limitsOf, type Param } from "../functions/param";

/** A formula that computes, but may not be meant so. */
export interface Look {
  readonly sentence: string;
  readonly suggestion: string;
}

/** Lengths and amounts are typed with one or two decimals. */
const MOST_DECIMALS = 2;

const isDigits = (token: FormulaToken | undefined): token is FormulaToken =>
  token?.kind === "number" && /^\d+$/.test(token.text);

function withUnit(param: Param, number: string): string {
  const isPlain = param.kind === "list" || param.kind === "table" || !isNumeric(param);
  const unit = isPlain ? undefined : limitsOf(param).unit;
  return `${param.name.replaceAll("_", " ")} ${number}${unit === undefined ? "" : ` ${unit}`}`;
}

function valueOf(tokens: readonly FormulaToken[]): unknown {
  const [first, ...more] = tokens.filter(({ kind }) => kind !== "space");
  if (first === undefined || more.length > 0) return undefined;
  if (first.kind === "number") return Number(first.text);
  return first.kind === "text" ? unquoted(first.text) : undefined;
}

/** True where the arguments may be meant: those that stand in the formula make no error. */
function isAnswered(fn: CatalogueFunction, args: readonly (readonly FormulaToken[])[]): boolean {
  const required = fn.params.filter((param) => !isOptional(param)).length;
  if (args.length < required || args.length > fn.params.length) return false;
  const values = args.map(valueOf);
  return values.includes(undefined) || fn.call(values).kind !== "error";
}

function lookAt(tokens: readonly FormulaToken[], at: number): Look | undefined {
  const token = tokens[at];
  const fn = token && calledFunction(token);
  if (fn === undefined) return undefined;
  const args = argumentsAt(tokens, at + 1);
  for (const [index, param] of fn.params.entries()) {
    const [whole, ...after] = args[index] ?? [];
    const [part, ...behind] = args[index + 1] ?? [];
    const isPair =
      after.length === 0 &&
      behind.length === 0 &&
      isDigits(whole) &&
      isDigits(part) &&
      part.text.length <= MOST_DECIMALS;
    const isCounted =
      param.kind === "list" || param.kind === "table" || !isNumeric(param) || param.kind === "count";
    if (!isPair || isCounted) continue;
    const number: FormulaToken = { kind: "number", text: `${whole.text}.${part.text}` };
    const meant = [...args.slice(0, index), [number], ...args.slice(index + 2)];
    if (!isAnswered(fn, meant)) continue;
    const next = fn.params[index + 1];
    const found = `${withUnit(param, whole.text)} and ${next ? withUnit(next, part.text) : `a number ${part.text} that ${fn.name} does not take`}`;
    const comma = tokens.indexOf(whole) + 1;
    const suggested = tokens.map(({ text }, place) => (place === comma ? "." : text)).join("");
    return {
      sentence: `${found}: did you mean ${withUnit(param, number.text)}?`,
      suggestion: `=${suggested}`,
    };
  }
  return undefined;
}

/**
 * Tells where a person whose decimal mark is the comma may have typed `1,8` for a number, as in `=BLN.COUNT_COLUMN(1,8,9)`:
 * whole numbers on both sides of a comma without a space, which make another number that the function takes.
 */
export function commaLook(typed: string): Look | undefined {
  const tokens = tokenize(typed.replace(/^=/, ""));
  for (const at of tokens.keys()) {
    const look = lookAt(tokens, at);
    if (look !== undefined) return look;
  }
  return undefined;
}
