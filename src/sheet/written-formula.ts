/** A formula in pieces: texts, and between each two of them the address of a cell; a range is two of them. */
export interface WrittenFormula {
  readonly texts: readonly string[];
  readonly addresses: readonly string[];
}

/** The formula as one text. */
export function joinedText({ texts, addresses }: WrittenFormula): string {
  return texts.map((text, at) => text + (addresses[at] ?? "")).join("");
}
