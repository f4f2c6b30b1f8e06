import type { CellValue } from "../workbook/model";
import { CellError, isCells, type PlainArgument } from "./plain-functions";
import { codeOf } from "./trust";

function failed(value: CellValue): void {
  const code = codeOf(value);
  if (code !== undefined) throw new CellError(code);
}

/** What arguments say: texts and blanks of ranges say nothing, a typed text must spell TRUE or FALSE or be empty. */
function saidBy(argument: PlainArgument): readonly boolean[] {
  if (isCells(argument)) {
    return argument.flat().flatMap((value) => {
      failed(value);
      return typeof value === "number" || typeof value === "boolean" ? [Boolean(value)] : [];
    });
  }
  failed(argument);
  if (typeof argument !== "string") return [Boolean(argument)];
  if (argument === "") return [];
  if (!/^(?:true|false)$/i.test(argument)) throw new CellError("#VALUE!");
  return [argument.toLowerCase() === "true"];
}

function joined(join: (said: readonly boolean[]) => boolean): (...args: PlainArgument[]) => CellValue {
  return (...args) => {
    const said = args.flatMap(saidBy);
    if (said.length === 0) throw new CellError("#VALUE!");
    return join(said);
  };
}

/** AND, OR and XOR of values and ranges. */
export const LOGICAL_JOINS: ReadonlyMap<string, (...args: PlainArgument[]) => CellValue> = new Map([
  ["AND", joined((said) => said.every(Boolean))],
  ["OR", joined((said) => said.some(Boolean))],
  ["XOR", joined((said) => said.filter(Boolean).length % 2 === 1)],
]);
