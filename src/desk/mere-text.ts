/** A word; a single letter may be an hour's A or P, or the E of a large number. */
const WORD = /\p{L}{2,}/gu;
/** Words that a date or a time may hold, by their beginnings. */
const DATE_WORD = /^(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|am$|pm$)/i;

/** Whether a text surely means no number, date or time, so that nobody has to try to read it as one. */
export function isMereText(text: string): boolean {
  return text.match(WORD)?.some((word) => !DATE_WORD.test(word)) === true;
}
