import { comparable } from "./read-text";

/** The headers of the tables that functions of ours give, so that a result is not taken for a table of the user's own. */
const functionsByHeader = new Map<string, string>();

const headerKey = (header: readonly unknown[]): string =>
  header
    .map((cell) => comparable(String(cell ?? "")))
    .filter((text) => text !== "")
    .join("\n");

/** Notes the header row of a function's result. */
export function noteResult(name: string, header: readonly string[]): void {
  functionsByHeader.set(headerKey(header), name);
}

/** The function whose result has exactly this header row. */
export function resultWith(header: readonly unknown[]): string | undefined {
  return functionsByHeader.get(headerKey(header));
}
