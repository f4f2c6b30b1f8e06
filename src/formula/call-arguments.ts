import { closingOf, type FormulaToken } from "./tokens";

/** The tokens of each argument of the call whose bracket stands at `open`; commas of inner calls and of arrays part nothing. */
export function argumentsAt(
  tokens: readonly FormulaToken[],
  open: number,
): readonly (readonly FormulaToken[])[] {
  const found: FormulaToken[][] = [[]];
  let depth = 0;
  for (const token of tokens.slice(open + 1, closingOf(tokens, open))) {
    if (token.kind === "open" || token.text === "{") depth += 1;
    if (token.kind === "close" || token.text === "}") depth -= 1;
    if (token.kind === "separator" && depth === 0) found.push([]);
    else found.at(-1)?.push(token);
  }
  return found;
}
