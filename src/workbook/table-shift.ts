import { type AxisShift, movedIndex, movedRange } from "../formula/axis-shift";
import { cellAddress, rangeAddress, type CellRange } from "../formula/address";
import { type CellChange, type TableModel, WorkbookError } from "./model";
import { movedFormula, type SheetShift } from "./moved-formula";
import { SheetSurroundings } from "./sheet-surroundings";
import {
  applyEdits,
  escapeAttribute,
  escapeText,
  readXml,
  scanXml,
  type XmlEdit,
  type XmlElement,
} from "./xml";
import { decodeXstring, encodeXstring } from "./xstring";

/** Elements that say what a table is filtered and sorted by. */
const FILTERING = new Set(["autoFilter", "filterColumn", "sortState", "sortCondition"]);

/** What a shift does to a table. */
export interface ShiftedTable {
  /** The table's part; undefined where the whole table is deleted. */
  readonly xml: string | undefined;
  /** Headings of new columns. */
  readonly headings: readonly CellChange[];
  /** Formulas of calculated columns for rows that were inserted, by address. */
  readonly formulas: ReadonlyMap<string, string>;
}

/** A table of the sheet whose rows or columns move. Throws WorkbookError where the table could not stay one. */
export function shiftTable(xml: string, part: string, table: TableModel, change: SheetShift): ShiftedTable {
  const { shift } = change;
  const { range } = table;
  const moved = movedRange(shift, range);
  if (moved === undefined) return { xml: undefined, headings: [], formulas: new Map() };
  const fault = shift.axis === "row" ? rowFault(table, shift) : columnFault(table, shift);
  if (fault !== undefined) throw new WorkbookError(`the table ${table.name} ${fault}`);
  const text = shiftTableFormulas(xml, part, change, change.sheet);
  const root = readXml(text, part);
  const edits: XmlEdit[] = [];
  const losesTotals =
    table.totalsRows > 0 && shift.axis === "row" && movedIndex(shift, range.lastRow) === undefined;
  const attributes = {
    ref: rangeAddress(moved),
    ...(losesTotals && { totalsRowCount: null, totalsRowShown: "0" }),
  };
  edits.push({ start: root.start, end: root.contentStart, text: root.openTag(attributes) });
  edits.push(...filterEdits(text, part, change));
  const list = root.child("tableColumns");
  const columns = list?.all("tableColumn") ?? [];
  const added =
    list && shift.axis === "column" ? changeColumns(text, list, columns, range, shift, edits) : [];
  const headed = table.headerRows > 0 ? added : [];
  const row = moved.firstRow;
  return {
    xml: applyEdits(text, edits),
    headings: headed.map(({ column, name }) => ({ sheet: table.sheet, row, column, value: name })),
    formulas: calculatedCells(columns, table, moved, shift),
  };
}

/** A table's part with its formulas moved; `home` is the sheet of the table. */
export function shiftTableFormulas(xml: string, part: string, change: SheetShift, home: string): string {
  const columns = readXml(xml, part).child("tableColumns")?.all("tableColumn") ?? [];
  const edits = columns.flatMap((column) =>
    [column.child("calculatedColumnFormula"), column.child("totalsRowFormula")].flatMap((element) => {
      if (element === undefined) return [];
      const text = movedFormula(change, decodeXstring(element.text), home);
      return [
        { start: element.contentStart, end: element.contentEnd, text: escapeText(encodeXstring(text)) },
      ];
    }),
  );
  return applyEdits(xml, edits);
}

function rowFault({ range, headerRows, totalsRows }: TableModel, shift: AxisShift): string | undefined {
  const first = range.firstRow + headerRows;
  const last = range.lastRow - totalsRows;
  const { at, count } = shift;
  const touches = (from: number, to: number): boolean => from <= to && at <= to && at + count - 1 >= from;
  if (shift.kind === "insert") return undefined;
  const isWhole = at <= range.firstRow && at + count - 1 >= range.lastRow;
  if (isWhole) return undefined;
  if (touches(range.firstRow, first - 1)) return "needs its heading row: take the whole table or none of it";
  if (at <= first && at + count - 1 >= last) return "must keep one row at least";
  if (
    shift.kind === "move" &&
    (touches(last + 1, range.lastRow) || (shift.to > range.firstRow && shift.to < first))
  )
    return "keeps its heading and its totals where they are";
  return undefined;
}

function columnFault({ range }: TableModel, shift: AxisShift): string | undefined {
  if (shift.kind !== "move") return undefined;
  const { at, count, to } = shift;
  const isInside = at >= range.firstColumn && at + count - 1 <= range.lastColumn;
  const goesInside = to > range.firstColumn && to <= range.lastColumn;
  const staysInside = to >= range.firstColumn && to <= range.lastColumn + 1;
  const isOutside = at > range.lastColumn || at + count - 1 < range.firstColumn;
  const isWhole = at <= range.firstColumn && at + count - 1 >= range.lastColumn;
  const isFine = isWhole || (isInside && staysInside) || (isOutside && !goesInside);
  return isFine ? undefined : "keeps its columns together: move them inside the table only";
}

/** What a table is filtered and sorted by moves as it does where a sheet has it without a table. */
function filterEdits(xml: string, part: string, change: SheetShift): readonly XmlEdit[] {
  const moved = new SheetSurroundings(change.sheet, change, true);
  scanXml(xml, part, {
    open(element) {
      moved.open(element);
    },
    close(element) {
      if (FILTERING.has(element.local)) moved.close(element);
    },
  });
  return moved.edits(xml);
}

interface AddedColumn {
  readonly column: number;
  readonly name: string;
}

function changeColumns(
  xml: string,
  list: XmlElement,
  columns: readonly XmlElement[],
  range: CellRange,
  shift: AxisShift,
  edits: XmlEdit[],
): readonly AddedColumn[] {
  const added: AddedColumn[] = [];
  const placed = columns.flatMap((element, index) => {
    const column = movedIndex(shift, range.firstColumn + index);
    return column === undefined ? [] : [{ column, markup: xml.slice(element.start, element.end) }];
  });
  if (shift.kind === "insert" && shift.at > range.firstColumn && shift.at <= range.lastColumn) {
    const names = new Set(columns.map((element) => decodeXstring(element.get("name") ?? "").toLowerCase()));
    let id = Math.max(0, ...columns.map((element) => element.number("id") ?? 0));
    for (let column = shift.at; column < shift.at + shift.count; column++) {
      let number = 1;
      while (names.has(`column${String(number)}`)) number++;
      const name = `Column${String(number)}`;
      names.add(name.toLowerCase());
      added.push({ column, name });
      placed.push({
        column,
        markup: list.wrap(
          "tableColumn",
          `id="${String(++id)}" name="${escapeAttribute(encodeXstring(name))}"`,
          "",
        ),
      });
    }
  }
  placed.sort((a, b) => a.column - b.column);
  const text = `${list.openTag({ count: String(placed.length) })}${placed.map(({ markup }) => markup).join("")}</${list.name}>`;
  edits.push({ start: list.start, end: list.end, text });
  return added;
}

function calculatedCells(
  columns: readonly XmlElement[],
  table: TableModel,
  moved: CellRange,
  shift: AxisShift,
): ReadonlyMap<string, string> {
  const formulas = new Map<string, string>();
  const first = moved.firstRow + table.headerRows;
  const last = moved.lastRow - table.totalsRows;
  if (shift.kind !== "insert" || shift.axis !== "row") return formulas;
  for (const [index, column] of columns.entries()) {
    const element = column.child("calculatedColumnFormula");
    if (element === undefined || element.flag("array")) continue;
    const text = decodeXstring(element.text);
    for (let row = Math.max(first, shift.at); row <= Math.min(last, shift.at + shift.count - 1); row++)
      formulas.set(cellAddress(row, moved.firstColumn + index), text);
  }
  return formulas;
}
