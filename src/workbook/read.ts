import { cellAddress, type CellRange, parseCell, parseRange } from "../formula/address";
import { parseFormula, shiftFormula, type FormulaTemplate } from "../formula/shift";
import { dynamicMarks } from "./metadata";
import {
  type CellChange,
  type CellFormula,
  type CellStyle,
  type CellValue,
  type DefinedName,
  type SheetModel,
  type TableModel,
  type WorkbookCell,
  WorkbookError,
  type WorkbookModel,
} from "./model";
import { WorkbookPackage } from "./package";
import { patchWorkbook } from "./patch";
import { proveChanges, type ReadFile } from "./proof";
import { contentText, isFillMark, richTextOf, type ScannedCell, scanSheet } from "./sheet-scan";
import { readStyles } from "./styles";
import { undrawnParts } from "./undrawn";
import { findWorkbookPart, WORKSHEET_TYPE } from "./workbook-part";
import { NAMESPACES } from "./namespaces";
import { readXml, scanXml, type XmlElement } from "./xml";
import { decodeXstring } from "./xstring";
import { PACKAGE_LIMITS, type PackageLimits } from "./zip";

/** A workbook that was opened; it never changes. */
export interface OpenWorkbook {
  readonly model: WorkbookModel;
  readonly parts: WorkbookPackage;
  /** The file with some cells changed and everything else as it was. Throws WorkbookError for what a cell cannot hold. */
  patched(changes: readonly CellChange[]): Uint8Array;
}

/** Cells and merged ranges that all sheets may hold together, so that a small hostile file cannot fill the memory. */
const MAX_CELLS = 2_000_000;
/** Characters that shared formulas may grow to when written out for all their cells. */
const MAX_SHARED_CHARACTERS = 2 ** 27;
/** A stored formula is longer than the 8,192 characters that Excel shows, but never by this much. */
const MAX_STORED_FORMULA = 2 ** 16;
/** Days from 1899-12-30, day 0 of the 1900 system from March 1900 on, to 1970-01-01; and to day 0 of the 1904 system. */
const EPOCH_1970 = 25_569;
const EPOCH_1904 = 1_462;

/** Opens an .xlsx file. Throws WorkbookError for anything that is no readable workbook; `bytes` stay as they are. */
export function openWorkbook(bytes: Uint8Array, limits: PackageLimits = PACKAGE_LIMITS): OpenWorkbook {
  const parts = WorkbookPackage.open(bytes, limits);
  const model = readWorkbook(parts);
  return { model, parts, patched: (changes) => provenPatch({ model, parts }, changes, limits) };
}

/** The changed file, once it was opened again and holds what was meant. */
function provenPatch(before: ReadFile, changes: readonly CellChange[], limits: PackageLimits): Uint8Array {
  const bytes = patchWorkbook(before.parts, before.model, changes);
  const parts = WorkbookPackage.open(bytes, limits);
  const isUnchanged = (part: string): boolean => before.parts.hasSame(part, parts);
  // A sheet whose part is byte for byte the same need not be read again.
  const known = new Map(before.model.sheets.filter(({ part }) => isUnchanged(part)).map((s) => [s.part, s]));
  proveChanges(before, { parts, model: readWorkbook(parts, known) }, changes);
  return bytes;
}

function readWorkbook(
  parts: WorkbookPackage,
  known: ReadonlyMap<string, SheetModel> = new Map(),
): WorkbookModel {
  const workbookPart = findWorkbookPart(parts);
  const root = readXml(parts.readText(workbookPart), workbookPart);
  if (!root.is("workbook"))
    throw new WorkbookError("the file is damaged: its workbook part holds something else");
  const date1904 = root.child("workbookPr")?.flag("date1904") === true;
  const styles = readStyles(parts, workbookPart);
  const reader = new CellReader(
    readSharedStrings(parts, workbookPart),
    dynamicMarks(parts, workbookPart),
    date1904,
    styles,
  );
  const links = new Map(parts.relationships(workbookPart).map((link) => [link.id, link]));
  const sheets: SheetModel[] = [];
  const claimed = new Set<string>();
  const tables: TableModel[] = [];
  /** Position among worksheets by position among all sheets. */
  const positions: (number | undefined)[] = [];
  for (const entry of root.child("sheets")?.all("sheet") ?? []) {
    const name = decodeXstring(entry.get("name") ?? "");
    const link = links.get(entry.getQualified(NAMESPACES.relationships, "id") ?? "");
    if (link === undefined) throw new WorkbookError(`the file is damaged: sheet "${name}" has no part`);
    if (link.kind !== "worksheet") {
      positions.push(undefined);
      continue;
    }
    const type = parts.contentType(link.target);
    if (type !== WORKSHEET_TYPE) {
      throw new WorkbookError(`the file is damaged: sheet "${name}" is ${type ?? "of no known type"}`);
    }
    const state =
      (["hidden", "veryHidden"] as const).find((word) => word === entry.get("state")) ?? "visible";
    positions.push(sheets.length);
    // A part read once for each of many sheets could make the opening endless.
    for (const part of [
      link.target,
      ...["comments", "table"].flatMap((kind) => parts.linked(link.target, kind)),
    ]) {
      if (claimed.has(part.toLowerCase()))
        throw new WorkbookError(`the file is damaged: two sheets share ${part}`);
      claimed.add(part.toLowerCase());
    }
    tables.push(...readTables(parts, link.target, sheets.length));
    sheets.push(known.get(link.target) ?? readSheet(parts, link.target, name, state, reader));
  }
  if (sheets.length === 0) throw new WorkbookError("the file has no worksheet");
  const names = (root.child("definedNames")?.all("definedName") ?? []).flatMap((element): DefinedName[] => {
    const scope = element.number("localSheetId");
    const sheet = scope === undefined ? undefined : positions[scope];
    if (scope !== undefined && sheet === undefined) return [];
    return [
      {
        name: decodeXstring(element.get("name") ?? ""),
        text: decodeXstring(element.text),
        isHidden: element.flag("hidden"),
        ...(sheet === undefined ? {} : { sheet }),
      },
    ];
  });
  const undrawn = undrawnParts(parts, workbookPart, sheets);
  return { sheets, names, tables, styles, date1904, ...(undrawn.length > 0 && { undrawn }) };
}

function readSheet(
  parts: WorkbookPackage,
  part: string,
  name: string,
  state: SheetModel["state"],
  reader: CellReader,
): SheetModel {
  const cells: WorkbookCell[] = [];
  const merges: CellRange[] = [];
  const columnWidths = new Map<number, number>();
  const hiddenColumns = new Set<number>();
  const rowHeights = new Map<number, number>();
  const hiddenRows = new Set<number>();
  let frozenRows = 0;
  let frozenColumns = 0;
  let showGridLines = true;
  let isProtected = false;
  let filter: CellRange | undefined;
  let isFirstView = true;
  let lastColumn = 0;

  const onColumns = (element: XmlElement): void => {
    const first = element.number("min") ?? 0;
    const last = Math.min(element.number("max") ?? 0, 16_384);
    // Columns in order and apart, as the standard asks, keep the loop short whatever the file says.
    if (first <= lastColumn)
      throw new WorkbookError(`the file is damaged: sheet "${name}" lists a column twice`);
    lastColumn = Math.max(first, last);
    const width = element.number("width");
    for (let column = first - 1; column < last; column++) {
      if (width !== undefined) columnWidths.set(column, width);
      if (element.flag("hidden")) hiddenColumns.add(column);
    }
  };
  const onPane = (element: XmlElement): void => {
    if (!["frozen", "frozenSplit"].includes(element.get("state") ?? "")) return;
    frozenRows = element.number("ySplit") ?? 0;
    frozenColumns = element.number("xSplit") ?? 0;
  };
  let root: XmlElement | undefined;
  reader.begin(name);
  scanSheet(parts.readText(part), part, name, {
    row(row) {
      const height = row.element.number("ht");
      if (height !== undefined) rowHeights.set(row.index, height);
      if (row.element.flag("hidden")) hiddenRows.add(row.index);
      for (const cell of row.cells) cells.push(reader.read(cell));
    },
    open(element) {
      root ??= element;
      if (element.is("col") && element.parent?.is("cols") === true) onColumns(element);
      else if (element.is("sheetView")) {
        if (isFirstView) showGridLines = element.flag("showGridLines", true);
      } else if (element.is("pane") && element.parent?.is("sheetView") === true) {
        if (isFirstView) onPane(element);
      } else if (element.is("mergeCell")) {
        reader.spend();
        merges.push(rangeOf(element, name));
      } else if (element.is("filterColumn") && element.parent?.is("autoFilter") === true) {
        filter = parseRange(element.parent.get("ref") ?? "");
      } else if (element.is("sheetProtection")) isProtected = element.flag("sheet");
    },
    close(element) {
      if (element.is("sheetView")) isFirstView = false;
    },
  });
  if (root?.is("worksheet") !== true) {
    throw new WorkbookError(`the file is damaged: the part of sheet "${name}" holds something else`);
  }
  return {
    name,
    part,
    state,
    cells,
    merges,
    columnWidths,
    rowHeights,
    hiddenColumns,
    hiddenRows,
    frozenRows,
    frozenColumns,
    showGridLines,
    isProtected,
    ...(filter === undefined ? {} : { filter }),
    notes: readNotes(parts, part),
  };
}

interface SharedFormula {
  readonly row: number;
  readonly column: number;
  readonly text: string;
  template?: FormulaTemplate;
}

/** Turns scanned cells into cells of the model. */
class CellReader {
  private sheet = "";
  private shared = new Map<string, SharedFormula>();
  private sharedCharacters = 0;
  private count = 0;

  constructor(
    private readonly strings: readonly string[],
    private readonly marks: ReadonlySet<number>,
    private readonly date1904: boolean,
    private readonly styles: readonly CellStyle[],
  ) {}

  begin(sheet: string): void {
    this.sheet = sheet;
    this.shared = new Map();
  }

  /** Counts something that stays in memory. */
  spend(): void {
    if (++this.count > MAX_CELLS)
      throw new WorkbookError("the file is too large to open: it has too many cells");
  }

  read(cell: ScannedCell): WorkbookCell {
    this.spend();
    const style = cell.element.number("s") ?? 0;
    const formula = cell.formula === undefined ? undefined : this.readFormula(cell, cell.formula);
    return {
      row: cell.row,
      column: cell.column,
      value: this.readValue(cell),
      style: this.styles[style] === undefined ? 0 : style,
      ...(formula === undefined ? {} : { formula }),
      ...(isFillMark(cell) ? { isFilled: true } : {}),
    };
  }

  private readValue(cell: ScannedCell): CellValue {
    const type = cell.element.get("t") ?? "n";
    if (type === "inlineStr") return cell.inline === undefined ? null : decodeXstring(cell.inlineText);
    if (cell.value === undefined) return null;
    const text = contentText(cell.value);
    if (type === "str") return decodeXstring(text);
    const word = text.trim();
    if (word === "") return null;
    switch (type) {
      case "s": {
        const string = this.strings[Number(word)];
        if (string === undefined) throw this.damaged(cell, "refers to a text that is missing");
        return string;
      }
      case "b":
        return word === "1" || word === "true";
      case "e":
        return { error: word };
      case "d":
        return this.readDate(cell, word);
      case "n": {
        const number = Number(word);
        if (!Number.isFinite(number)) throw this.damaged(cell, "holds a number that cannot be read");
        return number === 0 ? 0 : number;
      }
      default:
        throw this.damaged(cell, "is of a kind that is unknown");
    }
  }

  private readDate(cell: ScannedCell, text: string): number {
    const time = Date.parse(/[Tt]/.test(text) && !/(?:[Zz]|[+-]\d\d:\d\d)$/.test(text) ? `${text}Z` : text);
    if (!Number.isFinite(time)) throw this.damaged(cell, "holds a date that cannot be read");
    return time / 86_400_000 + EPOCH_1970 - (this.date1904 ? EPOCH_1904 : 0);
  }

  private readFormula(cell: ScannedCell, element: XmlElement): CellFormula | undefined {
    const text = decodeXstring(element.text);
    const reference = element.get("ref");
    switch (element.get("t")) {
      case "array": {
        const isDynamic = this.marks.has(cell.element.number("cm") ?? 0);
        const range = reference === undefined ? undefined : rangeOf(element, this.sheet);
        return { text, kind: isDynamic ? "dynamic" : "array", ...(range === undefined ? {} : { range }) };
      }
      case "dataTable": {
        const [first = "", second = ""] = [element.get("r1"), element.get("r2")];
        const inputs = element.flag("dt2D")
          ? [first, second]
          : element.flag("dtr")
            ? [first, ""]
            : ["", first];
        const range = reference === undefined ? {} : { range: rangeOf(element, this.sheet) };
        return { text: `TABLE(${inputs.join(",")})`, kind: "dataTable", ...range };
      }
      case "shared":
        return { text: this.readShared(cell, element, text), kind: "normal" };
      default:
        return text === "" ? undefined : { text, kind: "normal" };
    }
  }

  private readShared(cell: ScannedCell, element: XmlElement, text: string): string {
    const index = element.get("si") ?? "";
    if (text !== "") {
      if (element.get("ref") !== undefined)
        this.shared.set(index, { row: cell.row, column: cell.column, text });
      return text;
    }
    const master = this.shared.get(index);
    if (master === undefined) throw this.damaged(cell, "shares a formula that is missing");
    if (master.text.length > MAX_STORED_FORMULA)
      throw this.damaged(cell, "shares a formula that is too long");
    master.template ??= parseFormula(master.text);
    const own = shiftFormula(master.template, cell.row - master.row, cell.column - master.column);
    this.sharedCharacters += own.length;
    if (this.sharedCharacters > MAX_SHARED_CHARACTERS) {
      throw new WorkbookError("the file is too large to open: its formulas unpack to more than the limit");
    }
    return own;
  }

  private damaged(cell: ScannedCell, what: string): WorkbookError {
    const address = cellAddress(cell.row, cell.column);
    return new WorkbookError(`the file is damaged: cell ${address} of sheet "${this.sheet}" ${what}`);
  }
}

function readSharedStrings(parts: WorkbookPackage, workbookPart: string): readonly string[] {
  const [part] = parts.linked(workbookPart, "sharedStrings");
  if (part === undefined || !parts.has(part)) return [];
  const strings: string[] = [];
  let current = "";
  scanXml(parts.readText(part), part, {
    close(element) {
      if (element.is("si")) {
        strings.push(decodeXstring(current));
        current = "";
      } else current += richTextOf(element) ?? "";
    },
  });
  return strings;
}

function readNotes(parts: WorkbookPackage, sheetPart: string): ReadonlyMap<string, string> {
  const notes = new Map<string, string>();
  for (const part of parts.linked(sheetPart, "comments")) {
    if (!parts.has(part)) continue;
    let current = "";
    scanXml(parts.readText(part), part, {
      close(element) {
        if (element.is("comment")) {
          const place = parseCell(element.get("ref") ?? "");
          if (place !== undefined) notes.set(cellAddress(place.row, place.column), decodeXstring(current));
          current = "";
        } else current += richTextOf(element) ?? "";
      },
    });
  }
  return notes;
}

function readTables(parts: WorkbookPackage, sheetPart: string, sheet: number): readonly TableModel[] {
  return parts
    .linked(sheetPart, "table")
    .filter((part) => parts.has(part))
    .map((part) => {
      const root = readXml(parts.readText(part), part);
      return {
        name: decodeXstring(root.get("displayName") ?? root.get("name") ?? ""),
        sheet,
        range: rangeOf(root, part),
        columns: (root.child("tableColumns")?.all("tableColumn") ?? []).map((column) => {
          return decodeXstring(column.get("name") ?? "");
        }),
        headerRows: root.number("headerRowCount") ?? 1,
        totalsRows: root.number("totalsRowCount") ?? 0,
        ...(root.child("autoFilter")?.child("filterColumn") === undefined ? {} : { isFiltered: true }),
      };
    });
}

function rangeOf(element: XmlElement, where: string): CellRange {
  const range = parseRange(element.get("ref") ?? "");
  if (range === undefined)
    throw new WorkbookError(`the file is damaged: a range in "${where}" cannot be read`);
  return range;
}
