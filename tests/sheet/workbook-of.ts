import { cellAddress, parseCell, parseRange } from "../../src/formula/address";
import type {
  CellFormula,
  CellValue,
  DefinedName,
  SheetModel,
  TableModel,
  WorkbookCell,
  WorkbookModel,
} from "../../src/workbook/model";

/** A cell as a test writes it: a constant, a formula with its equals sign, or all that a file has of it. */
export type TestCell =
  | CellValue
  | {
      readonly f: string;
      readonly v?: CellValue;
      readonly kind?: CellFormula["kind"];
      readonly range?: string;
    };

/** Cells by address, by sheet name. */
export type TestSheets = Readonly<Record<string, Readonly<Record<string, TestCell>>>>;

function cellOf(address: string, content: TestCell): WorkbookCell {
  const place = parseCell(address);
  if (place === undefined) throw new Error(`${address} is no address`);
  if (typeof content === "string" && content.startsWith("=")) {
    return { ...place, value: null, style: 0, formula: { text: content.slice(1), kind: "normal" } };
  }
  if (typeof content !== "object" || content === null || !("f" in content)) {
    return { ...place, value: content, style: 0 };
  }
  const range = content.range === undefined ? undefined : parseRange(content.range);
  return {
    ...place,
    value: content.v ?? null,
    style: 0,
    formula: {
      text: content.f,
      kind: content.kind ?? "normal",
      ...(range === undefined ? {} : { range }),
    },
  };
}

function sheetOf(name: string, cells: Readonly<Record<string, TestCell>>): SheetModel {
  return {
    name,
    part: `xl/worksheets/${name}.xml`,
    state: "visible",
    cells: Object.entries(cells).map(([address, content]) => cellOf(address, content)),
    merges: [],
    columnWidths: new Map(),
    rowHeights: new Map(),
    hiddenColumns: new Set(),
    hiddenRows: new Set(),
    frozenRows: 0,
    frozenColumns: 0,
    showGridLines: true,
    isProtected: false,
    notes: new Map(),
  };
}

export function workbookOf(
  sheets: TestSheets,
  extra: {
    readonly names?: readonly DefinedName[];
    readonly tables?: readonly TableModel[];
    readonly date1904?: boolean;
  } = {},
): WorkbookModel {
  return {
    sheets: Object.entries(sheets).map(([name, cells]) => sheetOf(name, cells)),
    names: extra.names ?? [],
    tables: extra.tables ?? [],
    styles: [],
    date1904: extra.date1904 ?? false,
  };
}

/** Reads cells by address, as what evaluates single formulas asks for them; of every sheet the same. */
export function readerOf(
  cells: Readonly<Record<string, CellValue>>,
): (sheet: number, row: number, column: number) => { readonly value: CellValue } | undefined {
  return (_, row, column) => {
    const value = cells[cellAddress(row, column)];
    return value === undefined ? undefined : { value };
  };
}

/** A cell's value, errors as their text. */
export function errorText(value: CellValue): string | number | boolean | null {
  return typeof value === "object" ? (value?.error ?? null) : value;
}
