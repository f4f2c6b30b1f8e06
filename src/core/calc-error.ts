/** Characters of a sentence that a cell shows and a person reads. */
const MOST_CHARACTERS = 300;

/** The error codes a worksheet cell can show for a reason of ours. */
export type CalcErrorCode = "#VALUE!" | "#N/A" | "#NUM!";

/**
 * A calculation that cannot give a number. `code` is what the cell shows; `message` is the sentence a person reads:
 * lower case, no full stop, naming the argument and what it must be, at most 300 characters.
 */
export class CalcError extends Error {
  readonly code: CalcErrorCode;

  constructor(code: CalcErrorCode, sentence: string) {
    super(sentence.length > MOST_CHARACTERS ? `${sentence.slice(0, MOST_CHARACTERS - 1)}…` : sentence);
    this.name = "CalcError";
    this.code = code;
  }
}

/** A refusal of a whole answer: where a plan would keep its shape and say why in a row, this leaves one cell. */
export class Refusal extends CalcError {}

/**
 * Shows a value inside an error sentence: text in quotes, blank as `nothing`, an error by its code, a range as its shape.
 *
 * @param value anything that arrived in an argument
 * @returns a short text, at most 60 characters of a long value
 */
export function shown(value: unknown): string {
  if (value === null || value === undefined || value === "") return "nothing";
  if (typeof value === "string") return `"${value.length > 40 ? `${value.slice(0, 40)}…` : value}"`;
  if (typeof value === "number") {
    if (Number.isNaN(value)) return "a value that is not a number";
    if (!Number.isFinite(value)) return "a number without end";
    return Object.is(value, -0) ? "0" : String(Number(value.toPrecision(12)));
  }
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (Array.isArray(value)) {
    const columns = Array.isArray(value[0]) ? value[0].length : 1;
    return `a range of ${value.length} x ${columns} cells`;
  }
  if (typeof value === "object" && "error" in value) return String(value.error);
  return typeof value === "object" ? "an object" : `a ${typeof value}`;
}

/** Text that `invalid` puts after "found" as it stands, for values already written with their unit. */
export interface Written {
  readonly written: string;
}

/**
 * The one maker of bad-input sentences: `<argument> must <expectation>, found <value>`.
 *
 * @param argument the worksheet parameter, with its row where it is a table (`price_list row 7: price`)
 * @param expectation what it must do, beginning with a verb (`be from 1 to 120 in`)
 * @param found the value that arrived, or `{ written }` for a text that already carries its unit
 * @param hint what to type instead, added after a semicolon
 * @returns a `#VALUE!` error to throw
 */
export function invalid(argument: string, expectation: string, found: unknown, hint?: string): CalcError {
  const isWritten = typeof found === "object" && found !== null && "written" in found;
  const text = isWritten ? (found as Written).written : shown(found);
  return new CalcError("#VALUE!", `${argument} must ${expectation}, found ${text}${hint ? `; ${hint}` : ""}`);
}

/**
 * For questions that have no answer: the input is well formed, but nothing satisfies it.
 *
 * @param sentence why, lower case, no full stop
 * @returns a `#N/A` error to throw
 */
export function unavailable(sentence: string): CalcError {
  return new CalcError("#N/A", sentence);
}

/**
 * For results beyond what a cell can hold or a function is built for.
 *
 * @param sentence why, lower case, no full stop
 * @returns a `#NUM!` error to throw
 */
export function overflow(sentence: string): CalcError {
  return new CalcError("#NUM!", sentence);
}
