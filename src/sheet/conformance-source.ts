import type { FunctionConformance } from "./conformance";

/** The file `conformance-table.ts` for a table by function. */
export function conformanceSource(
  table: ReadonlyMap<string, Readonly<FunctionConformance>>,
  share: number,
  files: number,
): string {
  const rows = [...table].map(
    ([name, { equal, different, left }]) => `  ["${name}", ${equal}, ${different}, ${left}],\n`,
  );
  return `// Made by \`npm run conformance -- FOLDER --write\` from ${files} files that Excel wrote: do not edit.

/** Share of formulas that give what Excel stored, as the mean over files. */
export const CONFORMANCE_BY_FILE = ${(Math.floor(share * 1e4) / 1e4).toString()};

/** Formulas with a function that give what Excel stored, that give something else, and that are not computed. */
export const CONFORMANCE: readonly (readonly [name: string, equal: number, different: number, left: number])[] = [
${rows.join("")}];
`;
}
