import { type CellRange, parseRange } from "../formula/address";
import type { ColumnFilter } from "./filter-rows";
import type { WorkbookPackage } from "./package";
import { readXml, type XmlElement } from "./xml";
import { decodeXstring } from "./xstring";

/** A list with a filter (ECMA-376 part 1, 18.3.1.2); the first row of `range` holds its headings. */
export interface ListFilter {
  readonly range: CellRange;
  /** The columns that filter by what they show. */
  readonly columns: readonly ColumnFilter[];
  /** Whether some column filters otherwise: by a comparison, a rank, a date or a colour. */
  readonly hasOthers: boolean;
}

/** The lists of a sheet that have a filter: its own, and those of its tables. */
export function readFilters(
  root: XmlElement,
  parts: WorkbookPackage,
  sheetPart: string,
): readonly ListFilter[] {
  const tables = parts
    .linked(sheetPart, "table")
    .filter((part) => parts.has(part))
    .map((part) => readXml(parts.readText(part), part));
  return [root, ...tables].flatMap((owner) => filterOf(owner.child("autoFilter")) ?? []);
}

function filterOf(element: XmlElement | undefined): ListFilter | undefined {
  const range = parseRange(element?.get("ref") ?? "");
  if (!element || !range) return undefined;
  const found = element.all("filterColumn").map((column): ColumnFilter | undefined => {
    const filters = column.child("filters");
    const values = (filters?.all("filter") ?? []).map((filter) => decodeXstring(filter.get("val") ?? ""));
    const isOther = filters === undefined || filters.children.length > values.length;
    const shown = filters?.flag("blank") === true ? [...values, ""] : values;
    return isOther ? undefined : { column: range.firstColumn + (column.number("colId") ?? 0), shown };
  });
  const columns = found.filter((column) => column !== undefined);
  return { range, columns, hasOthers: columns.length < found.length };
}
