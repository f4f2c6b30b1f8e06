import type { CellRange } from "./address";

/** Where a table lies and what its columns are called; `range` holds its header and totals rows too. */
export interface TableArea {
  readonly range: CellRange;
  readonly columns: readonly string[];
  readonly headerRows: number;
  readonly totalsRows: number;
}

type Area = "#all" | "#data" | "#headers" | "#totals" | "#this row";
const AREAS: readonly string[] = ["#all", "#data", "#headers", "#totals", "#this row"] satisfies Area[];

interface Specification {
  readonly areas: readonly Area[];
  /** First and last column; absent for all. */
  readonly columns?: readonly [string, string];
}

/**
 * The rectangle that `[...]` means behind a table's name, for a formula in row `row`.
 * An error text where there is none: `#REF!` for a column or area that the table lacks, `#VALUE!` for
 * "this row" outside the table's rows.
 */
export function tableRange(
  table: TableArea,
  structure: string,
  row: number,
): CellRange | "#REF!" | "#VALUE!" {
  const { areas, columns } = parseStructure(structure);
  const rows = areas.map((area) => rowsOf(table, area, row));
  const fault = rows.find((part) => typeof part === "string");
  if (fault !== undefined) return fault;
  const spans = rows.filter((part) => typeof part !== "string");
  const [first, last] = columns ?? [table.columns[0] ?? "", table.columns.at(-1) ?? ""];
  const ends = [columnOf(table, first), columnOf(table, last)];
  if (ends.includes(-1)) return "#REF!";
  return {
    firstRow: Math.min(...spans.map((span) => span[0])),
    lastRow: Math.max(...spans.map((span) => span[1])),
    firstColumn: table.range.firstColumn + Math.min(...ends),
    lastColumn: table.range.firstColumn + Math.max(...ends),
  };
}

function rowsOf(table: TableArea, area: Area, row: number): readonly [number, number] | "#REF!" | "#VALUE!" {
  const { firstRow, lastRow } = table.range;
  const data = [firstRow + table.headerRows, lastRow - table.totalsRows] as const;
  switch (area) {
    case "#all":
      return [firstRow, lastRow];
    case "#data":
      return data;
    case "#headers":
      return table.headerRows > 0 ? [firstRow, data[0] - 1] : "#REF!";
    case "#totals":
      return table.totalsRows > 0 ? [data[1] + 1, lastRow] : "#REF!";
    case "#this row":
      return row >= data[0] && row <= data[1] ? [row, row] : "#VALUE!";
  }
}

function columnOf(table: TableArea, name: string): number {
  const wanted = name.toLowerCase();
  const exact = table.columns.findIndex((column) => column.toLowerCase() === wanted);
  // A header may have outer spaces, which a formula may leave out, as Excel lets it.
  return exact >= 0
    ? exact
    : table.columns.findIndex((column) => column.trim().toLowerCase() === wanted.trim());
}

function parseStructure(structure: string): Specification {
  let content = structure.slice(1, -1).trim();
  const isThisRow = content.startsWith("@");
  if (isThisRow) content = content.slice(1).trim();
  const items = content.startsWith("[") ? bracketed(content) : content === "" ? [] : [content];
  const areas = items.map((item) => item.toLowerCase()).filter((item): item is Area => AREAS.includes(item));
  const columns = items.filter((item) => !AREAS.includes(item.toLowerCase())).map(unescapeColumn);
  const [first] = columns;
  return {
    areas: isThisRow ? ["#this row"] : areas.length > 0 ? areas : ["#data"],
    ...(first === undefined ? {} : { columns: [first, columns.at(-1) ?? first] }),
  };
}

/** The parts of `[a],[b]:[c]`, without their brackets. */
function bracketed(content: string): readonly string[] {
  return [...content.matchAll(/\[((?:[^\]']|'.)*)\]/gs)].map((match) => (match[1] ?? "").trim());
}

function unescapeColumn(name: string): string {
  return name.replace(/'(.)/gs, "$1");
}
