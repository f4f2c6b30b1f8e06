import type { AxisShift } from "../formula/axis-shift";
import { moveReferences } from "../formula/move-references";
import { tokenize } from "../formula/tokens";

/** A shift of rows or columns of one sheet, as the other parts of the workbook see it. */
export interface SheetShift {
  /** Name of the sheet whose rows or columns move. */
  readonly sheet: string;
  readonly shift: AxisShift;
  /** Columns of tables that are deleted; all of a table's where the table goes. */
  readonly lost: readonly LostColumns[];
}

export interface LostColumns {
  readonly table: string;
  readonly columns: readonly string[];
  readonly isWhole: boolean;
}

/** A formula after the shift; `home` is the sheet that holds it. What is deleted becomes `#REF!`. */
export function movedFormula({ sheet, shift, lost }: SheetShift, formula: string, home: string): string {
  return lost.reduce(dropColumns, moveReferences(formula, home, sheet, shift));
}

function dropColumns(formula: string, { table, columns, isWhole }: LostColumns): string {
  const tokens = tokenize(formula);
  const isTable = (at: number): boolean =>
    tokens[at]?.kind === "name" && tokens[at].text.toLowerCase() === table.toLowerCase();
  const isGone = (structure: string): boolean =>
    isWhole ||
    columns.some((name) => structure.toLowerCase().includes(`[${escapeColumn(name).toLowerCase()}]`));
  return tokens
    .map(({ kind, text }, at) => {
      const next = tokens[at + 1];
      if (isTable(at) && (next?.kind === "structure" ? isGone(next.text) : isWhole)) return "#REF!";
      return kind === "structure" && isTable(at - 1) && isGone(text) ? "" : text;
    })
    .join("");
}

/** A column's name as square brackets hold it. */
function escapeColumn(name: string): string {
  return name.replace(/['[\]#]/g, "'$&");
}
