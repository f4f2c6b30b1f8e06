/** A pattern with `*` for any characters, `?` for one and `~` before a sign that stands for itself. */
interface Pattern {
  /** Code units; ANY_ONE for `?`. */
  readonly pieces: readonly (readonly number[])[];
}

const ANY_ONE = -1;

/** Whether a text has a `*` or `?` that stands for other characters, or a `~` that takes that away. */
export function isPattern(text: string): boolean {
  return /[*?~]/.test(text);
}

function parsed(pattern: string): Pattern {
  const pieces: number[][] = [[]];
  for (let at = 0; at < pattern.length; at++) {
    const sign = pattern[at];
    const isEscape = sign === "~" && /[*?~]/.test(pattern[at + 1] ?? "");
    if (isEscape) at++;
    if (!isEscape && sign === "*") pieces.push([]);
    else pieces.at(-1)?.push(!isEscape && sign === "?" ? ANY_ONE : pattern.charCodeAt(at));
  }
  return { pieces };
}

function fitsAt(text: string, piece: readonly number[], from: number): boolean {
  for (let at = 0; at < piece.length; at++) {
    if (piece[at] !== ANY_ONE && piece[at] !== text.charCodeAt(from + at)) return false;
  }
  return true;
}

/** Where a piece fits first; -1 where it does not. */
function find(text: string, piece: readonly number[], from: number, to: number): number {
  const last = to - piece.length;
  if (!piece.includes(ANY_ONE)) {
    const at = text.indexOf(String.fromCharCode(...piece), from);
    return at > last ? -1 : at;
  }
  for (let at = from; at <= last; at++) if (fitsAt(text, piece, at)) return at;
  return -1;
}

/**
 * A test of whole texts against a pattern. What stands between two `*` is looked for once, from left to right, so that the
 * time grows with the length of text and pattern and never with their combinations.
 */
export function wildcardTest(pattern: string): (text: string) => boolean {
  const { pieces } = parsed(pattern);
  const [first = [], ...rest] = pieces;
  const last = rest.pop();
  return (text) => {
    if (last === undefined) return text.length === first.length && fitsAt(text, first, 0);
    const end = text.length - last.length;
    if (end < first.length || !fitsAt(text, first, 0) || !fitsAt(text, last, end)) return false;
    let from = first.length;
    for (const piece of rest) {
      const at = find(text, piece, from, end);
      if (at < 0) return false;
      from = at + piece.length;
    }
    return true;
  };
}

/** The position at which a pattern begins in a text, from `from` on; -1 where it does not. */
export function wildcardSearch(pattern: string, text: string, from: number): number {
  const { pieces } = parsed(pattern);
  const [first = [], ...rest] = pieces;
  let start = -1;
  let next = from;
  for (const [index, piece] of [first, ...rest].entries()) {
    const at = find(text, piece, next, text.length);
    if (at < 0) return -1;
    if (index === 0) start = at;
    next = at + piece.length;
  }
  return start;
}
