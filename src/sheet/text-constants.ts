import type { FormulaToken } from "../formula/tokens";

/** Univer takes a line break in a text for a space, depending on what stands behind. */
export function withLineBreaks(text: string): string {
  if (!/[\r\n]/.test(text)) return text;
  const pieces = text.slice(1, -1).split(/(\r\n?|\n)/);
  const written = pieces.map((piece, at) => {
    if (at % 2 === 0) return `"${piece}"`;
    return [...piece].map((sign) => `CHAR(${sign.charCodeAt(0).toString()})`).join("&");
  });
  return `(${written.join("&")})`;
}

/** Whether a token stands in an array constant. */
export function isInBraces(tokens: readonly FormulaToken[], at: number): boolean {
  let depth = 0;
  for (const { kind, text } of tokens.slice(0, at)) if (kind === "brace") depth += text === "{" ? 1 : -1;
  return depth > 0;
}
