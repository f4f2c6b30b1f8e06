import type { CellValue } from "../workbook/model";
import { codeOf } from "./trust";
import { isPattern, wildcardTest } from "./wildcards";

/** A condition on a cell, as COUNTIF and SUMIFS take it. */
export type Criterion = (cell: CellValue) => boolean;

/** The number that a text spells, such as `5`, `50%` or a date; undefined where it spells none. */
export type ReadNumber = (text: string) => number | undefined;

const OPERATORS = ["<=", ">=", "<>", "=", "<", ">"] as const;
type Operator = (typeof OPERATORS)[number];

const ERROR = /^#(?:N\/A|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|NULL!|CALC!|SPILL!)$/i;

/** Reads a condition: a value that cells must equal, or a text such as `>5`, `<>red` or `*foil*`. */
export function criterionOf(value: CellValue, readNumber: ReadNumber): Criterion {
  if (value === null) return equalTo(0, readNumber);
  if (typeof value !== "string") return equalTo(value, readNumber);
  const operator = OPERATORS.find((sign) => value.startsWith(sign));
  const operand = value.slice(operator?.length ?? 0);
  if (operand === "") return onBlanks(operator);
  const content = contentOf(operand, readNumber);
  switch (operator) {
    case undefined:
    case "=":
      return equalTo(content, readNumber);
    case "<>": {
      // A text that spells the number is another value than the number here, though "=" finds both.
      if (typeof content === "number") return (cell) => cell !== content;
      const isEqual = equalTo(content, readNumber);
      return (cell) => !isEqual(cell);
    }
    default:
      return comparedBy(operator, content);
  }
}

function onBlanks(operator: Operator | undefined): Criterion {
  switch (operator) {
    case undefined:
      return (cell) => cell === null || cell === "";
    case "=":
      return (cell) => cell === null;
    case "<>":
      return (cell) => cell !== null;
    default:
      return () => false;
  }
}

function contentOf(operand: string, readNumber: ReadNumber): CellValue {
  if (ERROR.test(operand)) return { error: operand.toUpperCase() };
  if (/^(?:true|false)$/i.test(operand)) return operand.toLowerCase() === "true";
  return readNumber(operand) ?? operand;
}

function equalTo(content: CellValue, readNumber: ReadNumber): Criterion {
  const code = codeOf(content);
  if (code !== undefined) return (cell) => codeOf(cell) === code;
  if (typeof content === "number") {
    return (cell) => cell === content || (typeof cell === "string" && readNumber(cell) === content);
  }
  if (typeof content !== "string") return (cell) => cell === content;
  const folded = content.toLowerCase();
  if (!isPattern(folded)) return (cell) => typeof cell === "string" && cell.toLowerCase() === folded;
  const matches = wildcardTest(folded);
  return (cell) => typeof cell === "string" && matches(cell.toLowerCase());
}

function comparedBy(operator: Operator, content: CellValue): Criterion {
  const isTrue = (order: number): boolean =>
    operator === "<" ? order < 0 : operator === "<=" ? order <= 0 : operator === ">" ? order > 0 : order >= 0;
  if (typeof content === "string") {
    const folded = content.toLowerCase();
    return (cell) => typeof cell === "string" && isTrue(orderOf(cell.toLowerCase(), folded));
  }
  const bound = Number(content);
  const kind = typeof content;
  return (cell) => typeof cell === kind && kind !== "object" && isTrue(Number(cell) - bound);
}

function orderOf(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
