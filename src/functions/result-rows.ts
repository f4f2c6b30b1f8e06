import type { UnitSymbol } from "../core/units";
import { withheld } from "../core/withheld";
import type { Measure, ResultColumn, ResultRow } from "./definition";

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

/** Whether a measure is a unit that numbers are converted to. */
export function isSymbol(measure: Measure): measure is UnitSymbol {
  return !["count", "share", "money", "number", "datetime", "text", "flag"].includes(measure);
}

/** The header text of a result column: its name and, where there is one, its unit. */
export function headerOf(column: ResultColumn): string {
  return isSymbol(column.measure) ? `${column.name} ${column.measure}` : column.name;
}
