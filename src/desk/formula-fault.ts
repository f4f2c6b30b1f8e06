import { pointForm } from "../formula/comma-form";
import { ourFunction } from "../formula/names";
import { type FormulaToken, tokenize, variablePositions, withoutPrefix } from "../formula/tokens";

/** What a formula may name. */
export interface KnownNames {
  /** Functions as a person types them, ours with their namespace. */
  readonly functions: readonly string[];
  /** Defined names and tables. */
  readonly names: readonly string[];
}

/** What is wrong with a typed formula. */
export interface FormulaFault {
  readonly sentence: string;
  /** The formula as it was probably meant, with its equals sign. */
  readonly suggestion?: string;
  /** No formula at all: a file that held it would be damaged. */
  readonly isBroken: boolean;
}

/** What is wrong with a formula that begins with its equals sign; undefined where nothing is. */
export function formulaFault(typed: string, known: KnownNames): FormulaFault | undefined {
  const tokens = tokenize(typed.replace(/^=/, ""));
  const found = brokenPart(tokens) ?? unknownName(tokens, known);
  if (!found) return undefined;
  const { suggested, ...fault } = found;
  return { ...fault, ...(suggested && { suggestion: `=${suggested.map(({ text }) => text).join("")}` }) };
}

interface Finding {
  readonly sentence: string;
  readonly isBroken: boolean;
  readonly suggested?: readonly FormulaToken[];
}

const CLOSE: FormulaToken = { kind: "close", text: ")" };

function brokenPart(tokens: readonly FormulaToken[]): Finding | undefined {
  const broken = (sentence: string, suggested?: readonly FormulaToken[]): Finding => ({
    sentence,
    isBroken: true,
    ...(suggested && { suggested }),
  });
  const solid = tokens.filter(({ kind }) => kind !== "space");
  const last = solid.at(-1);
  if (last === undefined) return broken("the formula is empty");
  if (solid.some(({ kind, text }) => kind === "other" && text === '"'))
    return broken("a text has no closing quote");
  let braces = 0;
  const isList = tokens.map(({ kind, text }) => {
    if (kind === "brace") braces += text === "{" ? 1 : -1;
    return braces > 0;
  });
  const hasSemicolon = tokens.some(
    ({ kind, text }, at) => kind === "separator" && text === ";" && !isList[at],
  );
  if (hasSemicolon) {
    const meant = pointForm(tokens.map(({ text }) => text).join(""));
    return broken(
      "commas stand between the arguments of a formula, not semicolons",
      meant === undefined ? undefined : tokenize(meant),
    );
  }
  if (braces !== 0) return broken("a list in braces is not closed");
  const strange = solid.find(({ kind }) => kind === "other");
  if (strange) return broken(`the sign ${strange.text} means nothing in a formula`);
  if (last.kind === "operator" && last.text !== "%") return broken(`something is missing after ${last.text}`);
  let depth = 0;
  for (const { kind } of solid) {
    depth += kind === "open" ? 1 : kind === "close" ? -1 : 0;
    if (depth < 0) return broken("a bracket closes that was never opened");
  }
  if (last.kind === "separator" || last.kind === "open")
    return broken(`something is missing after ${last.text}`);
  if (depth > 0) {
    const closed = [...tokens, ...Array.from({ length: depth }, () => CLOSE)];
    return broken(
      depth === 1 ? "a bracket is not closed" : `${String(depth)} brackets are not closed`,
      closed,
    );
  }
  return misplaced(solid, broken);
}

const OPERANDS = new Set([
  "text",
  "error",
  "reference",
  "number",
  "call",
  "name",
  "open",
  "structure",
  "sheet",
]);
const ENDS = new Set(["text", "error", "reference", "number", "name", "close", "structure", "spill"]);

/** Two operands without anything between them, or a sign that joins nothing. */
function misplaced(
  solid: readonly FormulaToken[],
  broken: (sentence: string) => Finding,
): Finding | undefined {
  for (const [at, token] of solid.entries()) {
    const before = solid[at - 1];
    if (token.kind === "operator" && !"+-@%".includes(token.text)) {
      const joins = before !== undefined && (ENDS.has(before.kind) || before.text === "%");
      if (!joins && token.text !== ":") return broken(`something is missing before ${token.text}`);
    }
    if (before === undefined || !ENDS.has(before.kind) || !OPERANDS.has(token.kind)) continue;
    const isTable = token.kind === "structure" && (before.kind === "name" || before.kind === "close");
    // References with a space between them mean the cells that they share.
    const isShared =
      ["reference", "name", "close", "structure"].includes(before.kind) &&
      token.kind !== "number" &&
      token.kind !== "text";
    if (!isTable && !isShared) return broken(`something is missing between ${before.text} and ${token.text}`);
  }
  return undefined;
}

function unknownName(tokens: readonly FormulaToken[], { functions, names }: KnownNames): Finding | undefined {
  const known = new Map(functions.map((name) => [name.toUpperCase(), name]));
  const ours = new Map(functions.flatMap((name) => [[ourFunction(name) ?? "", name] as const]));
  const words = new Set(names.map((name) => name.toUpperCase()));
  const variables = variablePositions(tokens);
  for (const [at, { kind, text }] of tokens.entries()) {
    if (variables.has(at)) continue;
    const plain = withoutPrefix(text).toUpperCase();
    const replace = (by: string | undefined): Pick<Finding, "suggested"> =>
      by === undefined
        ? {}
        : { suggested: tokens.map((token, index) => (index === at ? { ...token, text: by } : token)) };
    if (kind === "call") {
      const own = ourFunction(text);
      if ((own !== undefined && ours.has(own)) || known.has(plain) || words.has(plain)) continue;
      const meant =
        ours.get(own ?? plain) ?? nearest(own === undefined ? plain : `BLN.${own}`, [...known.keys()], known);
      return { sentence: `no function is called ${text}`, isBroken: false, ...replace(meant) };
    }
    const isWord = kind === "name" && !["TRUE", "FALSE"].includes(plain) && !words.has(plain);
    if (!isWord || tokens[at - 1]?.kind === "sheet" || known.has(plain)) continue;
    const meant = nearest(plain, [...words], new Map(names.map((name) => [name.toUpperCase(), name])));
    return { sentence: `this workbook has no name ${text}`, isBroken: false, ...replace(meant) };
  }
  return undefined;
}

function nearest(
  word: string,
  candidates: readonly string[],
  spelling: ReadonlyMap<string, string>,
): string | undefined {
  let best: string | undefined;
  // One slip in three letters, two in longer words, are still the same word to a reader.
  let least = Math.min(3, Math.floor(word.length / 3)) + 1;
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - word.length) >= least) continue;
    const distance = slips(word, candidate);
    if (distance < least) [best, least] = [candidate, distance];
  }
  return best === undefined ? undefined : spelling.get(best);
}

/** Letters to add, drop, change or swap with their neighbour (optimal string alignment distance). */
function slips(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, index) => index)];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const above = rows[i - 1] ?? [];
      const isSame = a[i - 1] === b[j - 1];
      let cost = Math.min((above[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (above[j - 1] ?? 0) + (isSame ? 0 : 1));
      const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (isSwap) cost = Math.min(cost, (rows[i - 2]?.[j - 2] ?? 0) + 1);
      row.push(cost);
    }
    rows.push(row);
  }
  return rows[a.length]?.[b.length] ?? 0;
}
