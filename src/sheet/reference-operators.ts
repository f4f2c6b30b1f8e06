import { closingOf, type FormulaToken, withoutPrefix } from "../formula/tokens";
import { intersects, type SheetRange } from "./rectangles";

/** The engine's function that makes one list of the cells of several areas. */
export const JOINED = "JOINED.AREAS";

/**
 * Functions that take the same cells of several sheets: Microsoft support, Create a reference to the same cell range on
 * multiple worksheets. RANK, which the page names too, takes nothing but a range here.
 */
const TAKES_SHEETS = new Set(
  `AVERAGE AVERAGEA COUNT COUNTA HARMEAN KURT LARGE MAX MAXA MEDIAN MIN MINA PERCENTILE PERCENTILE.EXC PERCENTILE.INC
  PRODUCT QUARTILE QUARTILE.EXC QUARTILE.INC SKEW SMALL STDEV STDEV.P STDEV.S STDEVA STDEVP STDEVPA
  SUM TRIMMEAN VAR VAR.P VAR.S VARA VARP VARPA`.split(/\s+/),
);

/** Functions that take several areas of one sheet as one argument; most others give `#VALUE!` in Excel. */
const TAKES_AREAS = new Set([
  ...TAKES_SHEETS,
  ..."AND AVEDEV DEVSQ FREQUENCY GEOMEAN IRR NPV OR SUBTOTAL SUMSQ".split(" "),
]);

/** What a reference that is put together from others refers to. */
export interface ReferenceAreas {
  readonly areas: readonly SheetRange[];
  /** Whether it means the same cells of several sheets. */
  readonly isDeep: boolean;
  /** Whether it was put together, and is not one plain reference. */
  readonly isComposed: boolean;
  /** Position behind it. */
  readonly next: number;
}

/** The areas of one operand, such as an address, a name or a part of a table; undefined where it is none. */
export type ReadOperand = (at: number) => ReferenceAreas | undefined;

const ENDS_OPERAND = new Set(["reference", "name", "structure", "close", "spill"]);
const BEGINS_REFERENCE = new Set(["reference", "sheet", "name", "call", "open"]);

/** Positions of the commas that join references and of the spaces that meet them, with what to say where that fails. */
export function operatorsIn(tokens: readonly FormulaToken[]): ReadonlyMap<number, string> {
  const found = new Map<number, string>();
  const opened: ("call" | "group")[] = [];
  let braces = 0;
  for (const [at, token] of tokens.entries()) {
    if (token.kind === "open") opened.push(opensCall(tokens, at) ? "call" : "group");
    else if (token.kind === "close") opened.pop();
    else if (token.kind === "brace") braces += token.text === "{" ? 1 : -1;
    else if (token.kind === "separator" && braces === 0 && opened.at(-1) !== "call")
      found.set(at, "it joins references that are no plain ones");
    else if (token.kind === "space" && ENDS_OPERAND.has(tokens[at - 1]?.kind ?? "")) {
      if (BEGINS_REFERENCE.has(tokens[at + 1]?.kind ?? ""))
        found.set(at, "it meets references that are no plain ones");
    }
  }
  return found;
}

/** Whether a formula without such signs may hold a reference that is put together: over several sheets, or a name. */
export function mayCompose(tokens: readonly FormulaToken[]): boolean {
  return tokens.some(
    ({ kind, text }, at) =>
      (kind === "sheet" && namesSheets(text)) ||
      (kind === "name" && tokens[at - 1]?.kind === "open" && !opensCall(tokens, at - 1)),
  );
}

function opensCall(tokens: readonly FormulaToken[], at: number): boolean {
  return ["call", "close"].includes(tokens[at - 1]?.kind ?? "");
}

/** Whether a sheet prefix names a first and a last sheet. */
export function namesSheets(prefix: string): boolean {
  return prefix.includes(":") && !prefix.includes("[");
}

/**
 * What the operand at a position refers to, with all that a space meets. In brackets, and where `isWhole`, a comma joins.
 * Undefined where something in it is no plain reference.
 */
export function areasAt(
  tokens: readonly FormulaToken[],
  at: number,
  operand: ReadOperand,
  isWhole = false,
): ReferenceAreas | undefined {
  if (tokens[at - 1]?.text === ":") return undefined;
  return isWhole ? joined(tokens, at, operand) : met(tokens, at, operand);
}

function joined(
  tokens: readonly FormulaToken[],
  at: number,
  operand: ReadOperand,
): ReferenceAreas | undefined {
  let found = met(tokens, afterSpace(tokens, at), operand);
  while (found !== undefined) {
    const comma = afterSpace(tokens, found.next);
    if (tokens[comma]?.kind !== "separator") return { ...found, next: comma };
    const other = met(tokens, afterSpace(tokens, comma + 1), operand);
    if (other === undefined || found.isDeep || other.isDeep) return undefined;
    const { next } = other;
    found = { areas: [...found.areas, ...other.areas], isDeep: false, isComposed: true, next };
  }
  return undefined;
}

function met(tokens: readonly FormulaToken[], at: number, operand: ReadOperand): ReferenceAreas | undefined {
  let found = single(tokens, at, operand);
  while (found !== undefined && tokens[found.next]?.kind === "space") {
    const other = single(tokens, found.next + 1, operand);
    if (other === undefined) return found;
    const sheets = new Set([...found.areas, ...other.areas].map(({ sheet }) => sheet));
    if (found.isDeep || other.isDeep || sheets.size > 1) return undefined;
    const { areas: right, next } = other;
    const areas = found.areas.flatMap((a) => right.filter((b) => intersects(a, b)).map((b) => common(a, b)));
    found = { areas, isDeep: false, isComposed: true, next };
  }
  return found;
}

function single(
  tokens: readonly FormulaToken[],
  at: number,
  operand: ReadOperand,
): ReferenceAreas | undefined {
  let found: ReferenceAreas | undefined;
  if (tokens[at]?.kind === "open") {
    const inner = joined(tokens, at + 1, operand);
    if (inner !== undefined && tokens[inner.next]?.kind === "close")
      found = { ...inner, next: inner.next + 1 };
  } else found = operand(at);
  const behind = found === undefined ? undefined : tokens[found.next];
  return behind?.text === ":" || behind?.kind === "spill" ? undefined : found;
}

function common(a: SheetRange, b: SheetRange): SheetRange {
  return {
    sheet: a.sheet,
    firstRow: Math.max(a.firstRow, b.firstRow),
    firstColumn: Math.max(a.firstColumn, b.firstColumn),
    lastRow: Math.min(a.lastRow, b.lastRow),
    lastColumn: Math.min(a.lastColumn, b.lastColumn),
  };
}

function afterSpace(tokens: readonly FormulaToken[], at: number): number {
  return tokens[at]?.kind === "space" ? at + 1 : at;
}

/** Why a function, or none, cannot take several areas; undefined where it can. */
export function areasRefused(
  { areas, isDeep }: Pick<ReferenceAreas, "areas" | "isDeep">,
  taker: string | undefined,
): string | undefined {
  const what = isDeep ? "the same cells of several sheets" : "references joined by a comma";
  if (taker === undefined) return `${what} are no whole argument of a function`;
  if (isDeep) return TAKES_SHEETS.has(taker) ? undefined : `${taker} is not computed for ${what}`;
  if (!TAKES_AREAS.has(taker)) return `${taker} is not computed for ${what}`;
  return new Set(areas.map(({ sheet }) => sheet)).size > 1 ? "it joins cells of several sheets" : undefined;
}

/**
 * The function that takes the tokens from `start` to before `end` as one whole argument, brackets around them left aside.
 * `outer` takes what is the whole formula, where that stands for a name.
 */
export function takerOf(
  tokens: readonly FormulaToken[],
  start: number,
  end: number,
  outer: string | undefined,
): string | undefined {
  let before = start - 1;
  let behind = end;
  for (;;) {
    if (tokens[before]?.kind === "space") before--;
    behind = afterSpace(tokens, behind);
    if (before < 0 && behind >= tokens.length) return outer;
    const isGroup = tokens[before]?.kind === "open" && !opensCall(tokens, before);
    if (!isGroup || closingOf(tokens, before) !== behind) break;
    before--;
    behind++;
  }
  const isWhole =
    ["open", "separator"].includes(tokens[before]?.kind ?? "") &&
    ["close", "separator"].includes(tokens[behind]?.kind ?? "");
  if (!isWhole) return undefined;
  let depth = 0;
  for (let at = before; at > 0; at--) {
    const { kind } = tokens[at] ?? {};
    if (kind === "close") depth++;
    if (kind === "open" && depth-- === 0) {
      const caller = tokens[at - 1];
      return caller?.kind === "call" ? withoutPrefix(caller.text).toUpperCase() : undefined;
    }
  }
  return undefined;
}
