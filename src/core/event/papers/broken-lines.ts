import type { PaperRow } from "./paper";

/** Longest text of a line and of a note, in characters: what fits on one row of a page across. Source: ours. */
export const MOST_CHARACTERS = { line: 68, note: 48 } as const;

/** A text in parts of at most so many characters, broken between words; a longer word stays whole. */
function parts(text: string, most: number): readonly string[] {
  if (text.length <= most) return [text];
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const last = lines.at(-1);
    if (last === undefined || last.length + 1 + word.length > most) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines;
}

/**
 * Rows of a paper whose sentences go on in the rows below, so that every word is seen whatever height a row has.
 *
 * @param rows as a paper says them
 * @returns the same rows; where a line or a note is too long, the first part with everything else, then the rest
 */
export function brokenLines(rows: readonly PaperRow[]): readonly PaperRow[] {
  return rows.flatMap((row) => {
    const lines = parts(row.line, MOST_CHARACTERS.line);
    const notes = parts(row.note, MOST_CHARACTERS.note);
    const count = Math.max(lines.length, notes.length);
    return Array.from({ length: count }, (_, index): PaperRow => {
      const texts = { line: lines[index] ?? "", note: notes[index] ?? "" };
      return index === 0
        ? { ...row, ...texts }
        : { section: row.section, amount: "", unit: "", status: "", ...texts };
    });
  });
}
