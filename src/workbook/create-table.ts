import { cellAddress, rangeAddress } from "../formula/address";
import { type NewTable, rangeOnSheet, type SheetDescription } from "./create-sheet";
import { WorkbookError } from "./model";
import { NAMESPACES } from "./namespaces";
import { escapeAttribute, PLAIN, XML_DECLARATION } from "./xml";
import { encodeXstring } from "./xstring";

/** The part of a table. Throws WorkbookError where a column has no name of its own. */
export function tableMarkup(sheet: SheetDescription, table: NewTable, id: number): string {
  const range = rangeOnSheet(sheet, table.range);
  const names: string[] = [];
  for (let column = range.firstColumn; column <= range.lastColumn; column++) {
    const value = sheet.cells[cellAddress(range.firstRow, column)]?.value;
    const isTaken = names.some((name) => name.toLowerCase() === String(value).toLowerCase());
    if (typeof value !== "string" || value === "" || isTaken) {
      throw new WorkbookError(`table "${table.name}" needs a different text above each of its columns`);
    }
    names.push(value);
  }
  const columns = names.map((name, i) => {
    // Line ends in a column's name are escaped, unlike in cells.
    const stored = escapeAttribute(encodeXstring(name).replaceAll("\n", "_x000a_"));
    return PLAIN.wrap("tableColumn", `id="${String(i + 1)}" name="${stored}"`, "");
  });
  const ref = rangeAddress(range);
  const look = `name="${table.style ?? "TableStyleLight9"}" showFirstColumn="0" showLastColumn="0" showRowStripes="1" showColumnStripes="0"`;
  const content = [
    PLAIN.wrap("autoFilter", `ref="${ref}"`, ""),
    PLAIN.wrap("tableColumns", `count="${String(columns.length)}"`, columns.join("")),
    PLAIN.wrap("tableStyleInfo", look, ""),
  ];
  const name = escapeAttribute(table.name);
  const attributes = `xmlns="${NAMESPACES.main}" id="${String(id)}" name="${name}" displayName="${name}" ref="${ref}" totalsRowShown="0"`;
  return XML_DECLARATION + PLAIN.wrap("table", attributes, content.join(""));
}
