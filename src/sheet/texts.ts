import type { CellValue } from "../workbook/model";
import { expressionOf } from "./lookups";
import { CellError, cellsOf, isCells, numberOf, type PlainArgument, textOf } from "./plain-functions";
import { codeOf } from "./trust";
import { isPattern, wildcardSearch } from "./wildcards";

/** Every run of letters with a capital first. */
export function proper(value: CellValue = null): CellValue {
  return textOf(value)
    .toLowerCase()
    .replace(/\p{L}+/gu, (word) => word.charAt(0).toUpperCase() + word.slice(1));
}

/** VALUETOTEXT: format 1 puts texts in quotation marks. */
export function valueToText(value: CellValue = null, format: CellValue = null): CellValue {
  const kind = Math.trunc(numberOf(format));
  if (kind !== 0 && kind !== 1) throw new CellError("#VALUE!");
  const code = codeOf(value);
  if (code !== undefined) return code;
  return typeof value === "string" && kind === 1 ? `"${value.replaceAll('"', '""')}"` : textOf(value);
}

/** SEARCH: position of a text with wildcards in another, in any letter case. */
export function search(wanted: CellValue = null, within: CellValue = null, start: CellValue = 1): CellValue {
  // A ~ takes its meaning from the sign behind it, and where that needs none, or none is there, it is nothing.
  const pattern = textOf(wanted)
    .toLowerCase()
    .replace(/~([*?~])?/g, (_, sign?: string) => (sign === undefined ? "" : `~${sign}`));
  const text = textOf(within).toLowerCase();
  const from = Math.trunc(numberOf(start, 1)) - 1;
  if (from < 0 || from > text.length || (from === text.length && text !== "")) throw new CellError("#VALUE!");
  const at = isPattern(pattern) ? wildcardSearch(pattern, text, from) : text.indexOf(pattern, from);
  if (at < 0) throw new CellError("#VALUE!");
  return at + 1;
}

function pieces(text: string, delimiters: readonly string[], isAnyCase: boolean): readonly string[] {
  if (delimiters.length === 0) return [text];
  if (delimiters.includes("")) throw new CellError("#VALUE!");
  const escaped = [...delimiters]
    .sort((a, b) => b.length - a.length)
    .map((delimiter) => delimiter.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
  return text.split(new RegExp(escaped.join("|"), isAnyCase ? "giu" : "gu"));
}

/** TEXTSPLIT: always texts, in as many columns as the longest row has. */
export function textSplit(
  text: PlainArgument = null,
  columnMarks?: PlainArgument,
  rowMarks?: PlainArgument,
  ignoresEmpty?: PlainArgument,
  matchMode?: PlainArgument,
  padding?: PlainArgument,
): readonly (readonly CellValue[])[] {
  const marks = (argument: PlainArgument | undefined): readonly string[] =>
    argument === undefined || argument === null ? [] : cellsOf(argument).map(textOf);
  const flag = (argument: PlainArgument | undefined): boolean =>
    argument !== undefined && numberOf(cellsOf(argument)[0]) !== 0;
  const [columns, lines] = [marks(columnMarks), marks(rowMarks)];
  if (columns.length + lines.length === 0) throw new CellError("#VALUE!");
  const [isShort, isAnyCase] = [flag(ignoresEmpty), flag(matchMode)];
  const pad = padding === undefined || padding === null ? { error: "#N/A" } : (cellsOf(padding)[0] ?? null);
  const kept = (found: readonly string[]): readonly string[] =>
    found.filter((piece) => !isShort || piece !== "");
  const split = (whole: CellValue): readonly (readonly CellValue[])[] => {
    const rows = kept(pieces(textOf(whole), lines, isAnyCase)).map((line) =>
      kept(pieces(line, columns, isAnyCase)),
    );
    const width = Math.max(...rows.map((row) => row.length));
    return rows.map((row) => Array.from({ length: width }, (_, at) => row[at] ?? pad));
  };
  // Of several texts each gives its first piece.
  if (isCells(text) && text.flat().length > 1)
    return text.map((row) => row.map((item) => split(item)[0]?.[0] ?? null));
  return split(cellsOf(text)[0] ?? null);
}

function caseFlag(isAnyCase: CellValue): string {
  return numberOf(isAnyCase) === 1 ? "i" : "";
}

/** REGEXTEST. */
export function regexTest(
  text: CellValue = null,
  pattern: CellValue = null,
  isAnyCase: CellValue = null,
): CellValue {
  return expressionOf(textOf(pattern), caseFlag(isAnyCase)).test(textOf(text));
}

/** REGEXEXTRACT: the first match, all of them, or the groups of the first, in a row. */
export function regexExtract(
  text: PlainArgument = null,
  pattern: PlainArgument = null,
  mode: PlainArgument = null,
  isAnyCase: PlainArgument = null,
): readonly (readonly CellValue[])[] {
  const one = (argument: PlainArgument): CellValue => cellsOf(argument)[0] ?? null;
  const expression = expressionOf(textOf(one(pattern)), `g${caseFlag(one(isAnyCase))}`);
  const matches = [...textOf(one(text)).matchAll(expression)];
  const [first] = matches;
  if (first === undefined) throw new CellError("#N/A");
  switch (Math.trunc(numberOf(one(mode)))) {
    case 0:
      return [[first[0]]];
    case 1:
      return [matches.map(([match]) => match)];
    case 2:
      return [first.slice(1).map((group) => group)];
    default:
      throw new CellError("#VALUE!");
  }
}

/** REGEXREPLACE: all matches, or the one counted from the front or, where negative, from the end. */
export function regexReplace(
  text: CellValue = null,
  pattern: CellValue = null,
  replacement: CellValue = null,
  occurrence: CellValue = null,
  isAnyCase: CellValue = null,
): CellValue {
  const expression = expressionOf(textOf(pattern), `g${caseFlag(isAnyCase)}`);
  const whole = textOf(text);
  const wanted = Math.trunc(numberOf(occurrence));
  if (wanted === 0) return whole.replace(expression, textOf(replacement));
  const matches = [...whole.matchAll(expression)];
  const match = matches.at(wanted > 0 ? wanted - 1 : wanted);
  if (match === undefined) return whole;
  const made = match[0].replace(
    new RegExp(expression.source, expression.flags.replace("g", "")),
    textOf(replacement),
  );
  return whole.slice(0, match.index) + made + whole.slice(match.index + match[0].length);
}

/** Whether a number format writes a date or a time. */
export function isDateFormat(format: string): boolean {
  return /[dmyhs]/i.test(format.replace(/"[^"]*"|\\.|\[[^\]]*\]|general/gi, ""));
}

/** Whether a text is a date that is another one where the day stands before the month. */
export function isTwoDates(text: string): boolean {
  const [, first, second] = /^\s*(\d{1,2})[-/.](\d{1,2})[-/.]\d{2,4}\s*$/.exec(text) ?? [];
  return first !== second && Number(first) <= 12 && Number(second) <= 12;
}
