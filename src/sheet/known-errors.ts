const KNOWN_ERRORS: ReadonlySet<string> = new Set(
  "#DIV/0! #NAME? #VALUE! #NUM! #N/A #CYCLE! #REF! #SPILL! #CALC! #ERROR! #GETTING_DATA #NULL!".split(" "),
);

/** The error that a cell shows for a code; `#VALUE!` for one that the engine does not know. */
export function knownError(code: string): string {
  return KNOWN_ERRORS.has(code) ? code : "#VALUE!";
}
