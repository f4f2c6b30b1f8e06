/** What a piece of a formula is. */
export type TokenKind =
  /** Text in double quotes. */
  | "text"
  /** A sheet prefix with its exclamation mark, such as `'Price list'!`. */
  | "sheet"
  /** An error value, such as `#N/A`. */
  | "error"
  /** A cell or range in A1 form, whole columns and rows included. */
  | "reference"
  | "number"
  /** A function's name; its opening bracket is the next token. */
  | "call"
  /** Any other name: defined name, table, variable, TRUE. */
  | "name"
  /** Square brackets with what stands in them, such as `[@Price]`. */
  | "structure"
  /** The sign behind a reference that means its whole spill. */
  | "spill"
  | "open"
  | "close"
  | "separator"
  | "operator"
  | "space"
  | "brace"
  /** What fits nowhere. */
  | "other";

export interface FormulaToken {
  readonly kind: TokenKind;
  readonly text: string;
}

const NAME = String.raw`[\p{L}_\\][\p{L}\p{N}_.\\?]*`;
const CELL = String.raw`\$?[A-Za-z]{1,3}\$?[0-9]{1,7}`;
const REFERENCE = String.raw`(?:${CELL}(?::${CELL})?|\$?[A-Za-z]{1,3}:\$?[A-Za-z]{1,3}|\$?[0-9]{1,7}:\$?[0-9]{1,7})`;
const PLAIN_SHEET = String.raw`(?:\[[^\]]*\])?[\p{L}\p{N}_.\\]+`;

const PATTERNS: readonly (readonly [TokenKind, RegExp])[] = (
  [
    ["text", String.raw`"(?:[^"]|"")*"`],
    ["sheet", String.raw`(?:'(?:[^']|'')+'|${PLAIN_SHEET}(?::${PLAIN_SHEET})?|\[[^\]]*\])!`],
    ["error", String.raw`#(?:[A-Za-z_]+(?:/[A-Za-z0]+)?[!?]|N/A|GETTING_DATA)`],
    ["reference", String.raw`${REFERENCE}(?![\p{L}\p{N}_.\\?(!]|\$)`],
    ["number", String.raw`(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[Ee][+-]?[0-9]+)?`],
    ["call", String.raw`${NAME}(?=\()`],
    ["name", NAME],
    ["space", String.raw`\s+`],
    ["spill", "#"],
    ["open", String.raw`\(`],
    ["close", String.raw`\)`],
    ["separator", "[,;]"],
    ["brace", "[{}]"],
    ["operator", "<=|>=|<>|[-+*/^&=<>%:@]"],
  ] as const
).map(([kind, source]) => [kind, new RegExp(source, "uy")]);

/** Cuts a formula without its equals sign into tokens; their texts in order are the formula. */
export function tokenize(formula: string): readonly FormulaToken[] {
  const tokens: FormulaToken[] = [];
  let at = 0;
  while (at < formula.length) {
    const token = tokenAt(formula, at);
    tokens.push(token);
    at += token.text.length;
  }
  return tokens;
}

function tokenAt(formula: string, at: number): FormulaToken {
  for (const [kind, pattern] of PATTERNS) {
    pattern.lastIndex = at;
    const match = pattern.exec(formula);
    if (match !== null) return { kind, text: match[0] };
  }
  if (formula.charAt(at) === "[")
    return { kind: "structure", text: formula.slice(at, endOfBrackets(formula, at)) };
  return { kind: "other", text: String.fromCodePoint(formula.codePointAt(at) ?? 32) };
}

/** Position behind the square bracket that closes the one at `start`; in one, an apostrophe escapes what follows. */
function endOfBrackets(formula: string, start: number): number {
  let depth = 0;
  for (let at = start; at < formula.length; at++) {
    const character = formula.charAt(at);
    if (character === "'") at++;
    else if (character === "[") depth++;
    else if (character === "]" && --depth === 0) return at + 1;
  }
  return formula.length;
}

/** Position of the bracket that closes the one at `open`, or the last position where none does. */
export function closingOf(tokens: readonly FormulaToken[], open: number): number {
  let depth = 0;
  for (let at = open; at < tokens.length; at++) {
    if (tokens[at]?.kind === "open") depth++;
    else if (tokens[at]?.kind === "close" && --depth === 0) return at;
  }
  return tokens.length - 1;
}

/** Excel's marks before function and variable names in a file. */
const PREFIXES = /^(?:_xlfn\.|_xlws\.|_xlpm\.|_xldudf_|_xludf\.|_xleta\.)+/i;

/** A name as a person types it: without Excel's marks. */
export function withoutPrefix(name: string): string {
  return name.replace(PREFIXES, "");
}

interface Scope {
  readonly isLet: boolean;
  readonly isLambda: boolean;
  readonly variables: Set<string>;
  argument: number;
  isArgumentStart: boolean;
}

/** Positions of the tokens that are variables of a LET or parameters of a LAMBDA, where they are made and where used. */
export function variablePositions(tokens: readonly FormulaToken[]): ReadonlySet<number> {
  const found = new Set<number>();
  if (!tokens.some(({ kind, text }) => kind === "call" && /(?:LET|LAMBDA)$/i.test(text))) return found;
  const scopes: Scope[] = [];
  let called = "";
  tokens.forEach((token, at) => {
    const scope = scopes.at(-1);
    switch (token.kind) {
      case "space":
        return;
      case "open":
        scopes.push({
          isLet: called === "LET",
          isLambda: called === "LAMBDA",
          variables: new Set(),
          argument: 0,
          isArgumentStart: true,
        });
        called = "";
        return;
      case "close":
        scopes.pop();
        break;
      case "separator":
        if (scope !== undefined) {
          scope.argument++;
          scope.isArgumentStart = true;
        }
        return;
      case "call":
      case "name": {
        const name = withoutPrefix(token.text).toUpperCase();
        const next = tokens.slice(at + 1).find(({ kind }) => kind !== "space");
        const isMade =
          scope?.isArgumentStart === true &&
          token.kind === "name" &&
          next?.kind === "separator" &&
          (scope.isLambda || (scope.isLet && scope.argument % 2 === 0));
        if (isMade) scope.variables.add(name);
        if (isMade || scopes.some(({ variables }) => variables.has(name))) found.add(at);
        if (token.kind === "call") called = name;
        break;
      }
    }
    if (scope !== undefined) scope.isArgumentStart = false;
  });
  return found;
}

/** What a text in double quotes says. */
export function unquoted(text: string): string {
  return text.slice(1, -1).replaceAll('""', '"');
}
