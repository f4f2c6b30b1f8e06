import type { UnitSymbol } from "../core/units";
import { isWithheld, withheld } from "../core/withheld";
import type { Cell, Measure, ResultColumn, ResultRow } from "./definition";

/** A cell of a result that holds nothing: an empty text, since hosts show a missing one as 0. */
export const BLANK = "";

/** A row of blank cells, to spread into rows that fill only some columns. */
export function blankRow<const Columns extends readonly ResultColumn[]>(
  columns: Columns,
): { readonly [Column in Columns[number] as Column["name"]]: typeof BLANK } {
  return Object.fromEntries(columns.map(({ name }) => [name, BLANK])) as ReturnType<typeof blankRow<Columns>>;
}

/** The row of a plan that cannot be made: every number withheld, the reason in its status. */
export function withheldRow<const Columns extends readonly ResultColumn[]>(
  columns: Columns,
  sentence: string,
): ResultRow<Columns> {
  const cells = columns.map(({ name, measure }) => {
    if (name === "status") return [name, `stop: ${sentence}`];
    return [name, measure === "text" || measure === "flag" ? BLANK : withheld(sentence)];
  });
  return Object.fromEntries(cells) as ResultRow<Columns>;
}

/** The first word of a status, with what parts it from the sentences behind it. */
const FIRST_WORD = /^(?:stop|unsafe|no go|check|ok)(?:[:;] |$)/;

/**
 * A row whose status says why its numbers are withheld: whoever looks only at statuses must not find an "ok" beside an error.
 *
 * @param row cells by column; one without a status is left as it is
 * @returns the row; the sentences that its status lacks stand first, behind `stop`
 */
export function statedRow(row: Readonly<Record<string, Cell>>): Readonly<Record<string, Cell>> {
  const { status } = row;
  if (typeof status !== "string") return row;
  const sentences = Object.values(row).flatMap((cell) => (isWithheld(cell) ? cell.sentence : []));
  const unsaid = [...new Set(sentences)].filter((sentence) => !status.includes(sentence));
  if (unsaid.length === 0) return row;
  const said = status.replace(FIRST_WORD, "");
  return { ...row, status: `stop: ${[...unsaid, ...(said === "" ? [] : [said])].join("; ")}` };
}

/** Whether a measure is a unit that numbers are converted to. */
export function isSymbol(measure: Measure): measure is UnitSymbol {
  return !["count", "share", "money", "number", "datetime", "text", "flag"].includes(measure);
}

/** The header text of a result column: its name and, where there is one, its unit. */
export function headerOf(column: ResultColumn): string {
  return isSymbol(column.measure) ? `${column.name} ${column.measure}` : column.name;
}
