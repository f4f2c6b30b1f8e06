import type { CatalogueFunction, PlainCell, ExampleArgument } from "../functions/definition";
import { EXCEL_STYLE, type FormulaStyle } from "../functions/formula-style";
import { zeroMeans, type Param, type ScalarParam } from "../functions/param";
import { readScalar } from "../functions/read-scalar";
import { comparable, readAmount, readNumber } from "../functions/read-text";
import { argumentText } from "../functions/reference";

/** What a field of a form says. */
export type Argument =
  | { readonly kind: "omitted" }
  | { readonly kind: "literal"; readonly value: ExampleArgument }
  /** Cells, a named range or an expression; `otherwise` is what it says as text, where it may as well be that. */
  | { readonly kind: "reference"; readonly text: string; readonly otherwise?: ExampleArgument };

const CELL = String.raw`\$?[A-Za-z]{1,3}\$?[1-9]\d{0,6}`;
const SHEET = String.raw`(?:(?:'(?:[^']|'')+'|[\p{L}_][\p{L}\d_.]*)!)?`;
const NAME = String.raw`[\p{L}_\\][\p{L}\d_.]*`;
const CELLS = new RegExp(`^${SHEET}(?:${CELL}(?::${CELL}|#)?|\\$?[A-Za-z]{1,3}:\\$?[A-Za-z]{1,3})$`, "u");
const TABLE_PART = new RegExp(String.raw`^${NAME}\[(?:[^[\]]|\[[^[\]]*\])*\]$`, "u");
const SHEET_NAME = new RegExp(`^${SHEET}${NAME}$`, "u");

const SEPARATORS = ",;\t\n";
const CLOSED = "end of a quoted text";
const QUOTED = /^"((?:[^"]|"")*)"$/;
const PLAIN_NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,3})?$/i;

function unquoted(text: string): string | undefined {
  return QUOTED.exec(text)?.[1]?.replaceAll('""', '"');
}

function isReadable(param: ScalarParam, value: PlainCell): boolean {
  try {
    readScalar(param.name, param, value);
    return true;
  } catch {
    return false;
  }
}

function scalarLiteral(param: ScalarParam, text: string): PlainCell {
  const inside = unquoted(text);
  if (inside !== undefined) return inside;
  if (param.kind === "text") return text;
  if (param.kind === "flag")
    return isReadable(param, text) ? Boolean(readScalar(param.name, param, text)) : text;
  if (param.kind === "choice") {
    return param.options.find((option) => comparable(option) === comparable(text)) ?? text;
  }
  const isAmount = param.kind === "money" || param.kind === "number";
  const reading = isAmount ? readAmount(text) : readNumber(text);
  if (reading.kind !== "number") return text;
  return reading.value === 0 && zeroMeans(param) !== "zero" ? "0" : reading.value;
}

function readScalarField(param: ScalarParam, text: string): Argument {
  const value = scalarLiteral(param, text);
  const literal: Argument = { kind: "literal", value };
  const isWord = param.kind === "text" || param.kind === "choice";
  if (unquoted(text) !== undefined || (param.kind !== "text" && isReadable(param, value))) return literal;
  if (CELLS.test(text) || TABLE_PART.test(text)) return { kind: "reference", text };
  return SHEET_NAME.test(text) && !isWord ? { kind: "reference", text, otherwise: value } : literal;
}

function rangeCell(text: string): PlainCell | null {
  const trimmed = text.trim();
  const inside = unquoted(trimmed);
  if (inside !== undefined) return inside;
  if (trimmed === "") return null;
  if (PLAIN_NUMBER.test(trimmed)) return Number.isFinite(Number(trimmed)) ? Number(trimmed) : trimmed;
  if (/^(?:true|false)$/i.test(trimmed)) return trimmed.toLowerCase() === "true";
  return trimmed;
}

/** Parts a text at `separator`, except inside quotes that open at the start of a cell. */
function split(text: string, separator: string): readonly string[] {
  const parts: string[] = [];
  let part = "";
  let before = "";
  let isQuoted = false;
  for (const sign of text) {
    const startsCell = before === "" || SEPARATORS.includes(before);
    // A doubled quote closes and opens again.
    const isDoubled = before === CLOSED && part.endsWith('"');
    if (sign === '"' && !isQuoted && (startsCell || isDoubled)) isQuoted = true;
    else if (sign === '"' && isQuoted) {
      isQuoted = false;
      before = CLOSED;
      part += sign;
      continue;
    }
    if (sign === separator && !isQuoted) {
      parts.push(part);
      part = "";
    } else part += sign;
    if (sign !== " ") before = sign;
  }
  return [...parts, part];
}

function has(text: string, separator: string): boolean {
  return split(text, separator).length > 1;
}

function separatorsOf(text: string, kind: "list" | "table"): readonly [row: string, cell: string] {
  if (has(text, "\t")) return ["\n", "\t"];
  if (has(text, "\n")) return kind === "list" ? ["\n", "\n"] : ["\n", has(text, ";") ? ";" : ","];
  if (kind === "table") return [";", ","];
  return has(text, ";") ? ["\n", ";"] : ["\n", ","];
}

/** Rows of cells as a person types or pastes them: lines, tabs, commas or semicolons, or an array constant in braces. */
function typedRows(text: string, kind: "list" | "table"): readonly (readonly (PlainCell | null)[])[] {
  const braced = /^\{([\s\S]*)\}$/.exec(text)?.[1];
  const [row, cell] = braced === undefined ? separatorsOf(text, kind) : [";", ","];
  const rows = split((braced ?? text).replaceAll("\r\n", "\n"), row).map((line) =>
    split(line, cell).map(rangeCell),
  );
  const width = Math.max(...rows.map((cells) => cells.length));
  return rows.map((cells) => [...cells, ...Array.from({ length: width - cells.length }, () => null)]);
}

/**
 * Reads what a person typed into the field of a parameter. An equals sign in front makes any text a part of a formula,
 * quotes around it make it text.
 */
export function readField(param: Param, typed: string): Argument {
  const text = typed.trim();
  if (text === "" || text === "=") return { kind: "omitted" };
  if (text.startsWith("=")) return { kind: "reference", text: text.slice(1).trim() };
  if (param.kind !== "list" && param.kind !== "table") return readScalarField(param, text);
  if (CELLS.test(text) || TABLE_PART.test(text)) return { kind: "reference", text };
  const value = typedRows(text, param.kind);
  return SHEET_NAME.test(text) ? { kind: "reference", text, otherwise: value } : { kind: "literal", value };
}

function cellField(cell: PlainCell | null): string {
  if (cell === null) return "";
  if (typeof cell === "string") {
    const isPlain = rangeCell(cell) === cell && !/[",;\t\n{}]/.test(cell);
    return isPlain ? cell : `"${cell.replaceAll('"', '""')}"`;
  }
  return typeof cell === "boolean" ? String(cell).toUpperCase() : String(cell);
}

function isSaid(param: Param, text: string, value: ExampleArgument): boolean {
  const argument = readField(param, text);
  return argument.kind === "literal" && JSON.stringify(argument.value) === JSON.stringify(value);
}

/** The text that makes a field say `value`; the inverse of `readField`. */
export function fieldText(param: Param, value: ExampleArgument): string {
  if (value === null) return "";
  if (param.kind !== "list" && param.kind !== "table") {
    if (typeof value === "object") return argumentText(value);
    const text = typeof value === "string" ? value : cellField(value);
    return typeof value === "string" && !isSaid(param, text, value) ? argumentText(value) : text;
  }
  const cells = typeof value === "object" ? value : [value];
  const rows = (Array.isArray(cells[0]) ? cells : [cells]) as readonly (readonly (PlainCell | null)[])[];
  const isColumn = rows.length > 1 && rows.every((row) => row.length === 1);
  const text = rows.map((row) => row.map(cellField).join(", ")).join("\n");
  const isPlain = (param.kind === "table" || isColumn || rows.length === 1) && isSaid(param, text, rows);
  return isPlain ? text : argumentText(rows);
}

/** The call as a person types it into a cell; closing arguments and tables in any order that are left out are not written. */
export function formulaOf(
  fn: CatalogueFunction,
  args: readonly Argument[],
  style: FormulaStyle = EXCEL_STYLE,
): string {
  const written = args.flatMap((argument, index) => {
    const param = fn.params[index];
    const isAnywhere = param?.kind === "table" && param.anyPlace === true;
    if (argument.kind === "omitted") return isAnywhere ? [] : [""];
    return [argument.kind === "reference" ? argument.text : argumentText(argument.value, style)];
  });
  while (written.at(-1) === "") written.pop();
  return `=${style.prefix}${fn.name}(${written.join(style.separator)})`;
}
