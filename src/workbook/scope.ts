import type { Scope } from "../formula/scope";
import type { WorkbookModel } from "./model";

/** What the formulas of a file can name: its sheets, tables and names. */
export function scopeOf({ sheets, tables, names }: WorkbookModel): Scope {
  const nameOf = (sheet: number): string => sheets[sheet]?.name ?? "";
  return {
    sheets,
    tables: tables.map((table) => ({ ...table, sheet: nameOf(table.sheet) })),
    names: names.map(({ name, text, sheet }) => ({
      name,
      reference: text,
      ...(sheet !== undefined && { sheet: nameOf(sheet) }),
    })),
  };
}
