import type { NameInfo, SheetArea, SheetCell, TableInfo } from "../../src/formula/scope";
import { type CellRange, parseCell, parseRange } from "../../src/formula/address";
import { evaluate, ourCalls } from "../../src/taskpane/formula-calls";
import { resolveReference } from "../../src/formula/resolve";
import { withinUsed } from "../../src/taskpane/contents";
import {
  HostError,
  type ApiVersion,
  type Block,
  type CellInput,
  type CellRows,
  type DocumentChoices,
  type FormulaEntry,
  type Outline,
  type SheetHost,
  type SheetInfo,
  type PlacedPicture,
  type AreaContents,
} from "../../src/taskpane/sheet-host";

interface FakeCell {
  readonly content: CellInput;
  value: CellInput;
  /** The formula cell that fills this one. */
  readonly from?: string;
}

interface FakeSheet {
  readonly name: string;
  isProtected: boolean;
  readonly isHidden: boolean;
  readonly cells: Map<string, FakeCell>;
}

const key = (row: number, column: number): string => `${row},${column}`;

function* cellsIn({
  firstRow,
  lastRow,
  firstColumn,
  lastColumn,
}: CellRange): Iterable<readonly [number, number]> {
  for (let row = firstRow; row <= lastRow; row++) {
    for (let column = firstColumn; column <= lastColumn; column++) yield [row, column];
  }
}

/** A place as tests write it: `Plan!B3`. */
export function at(address: string): SheetCell {
  const [sheet = "", cell = ""] = address.split("!");
  const place = parseCell(cell);
  if (place === undefined) throw new Error(`no cell ${address}`);
  return { sheet, ...place };
}

/** An area as tests write it: `Plan!B3:D9`. */
export function area(address: string): SheetArea {
  const [sheet = "", text = ""] = address.split("!");
  const range = parseRange(text);
  if (range === undefined) throw new Error(`no range ${address}`);
  return { sheet, range };
}

/**
 * A workbook in memory behind the pane's interface to Excel. It computes functions of ours through the catalogue, spills
 * tables, and knows protected sheets; other formulas show the value they are set with.
 */
export class FakeHost implements SheetHost {
  private readonly sheets: FakeSheet[] = [];
  readonly tables: TableInfo[] = [];
  readonly names: NameInfo[] = [];
  readonly parts = new Map<string, string>();
  readonly pictures = new Map<string, PlacedPicture>();
  selected: SheetArea = area("Plan!A1");
  settings: DocumentChoices = { startsOnOpen: false, hidesTrustPrompt: false };
  fills = new Map<string, string>();
  /** Version 1.x of the interface that this Excel has. */
  version = 17;
  mark: string | undefined = ".";
  /** Why cells cannot be filled. */
  blocked: readonly string[] = [];
  /** Names of the calls made, in order. */
  readonly calls: string[] = [];
  /** Called before each call; throws to let it fail, after `afterCall` what it did stays done. */
  beforeCall: (name: string, count: number) => void = () => undefined;
  afterCall: (name: string, count: number) => void = () => undefined;
  events: { readonly changed: () => void; readonly selected: () => void } | undefined;

  supports(version: ApiVersion): boolean {
    return Number(version.slice(2)) <= this.version;
  }

  decimalMark(): Promise<string | undefined> {
    return Promise.resolve(this.mark);
  }

  obstacles(): Promise<readonly string[]> {
    return Promise.resolve(this.blocked);
  }

  addSheet(
    name: string,
    options: { readonly isProtected?: boolean; readonly isHidden?: boolean } = {},
  ): this {
    const { isProtected = false, isHidden = false } = options;
    this.sheets.push({ name, isProtected, isHidden, cells: new Map() });
    return this;
  }

  /** Sets cells from `corner` on as a person would; blank cells are left as they are. */
  fill(corner: string, rows: CellRows): this {
    const { sheet, row, column } = at(corner);
    rows.forEach((cells, down) => {
      cells.forEach((content, across) => {
        if (content !== "") this.put(sheet, row + down, column + across, content);
      });
    });
    return this;
  }

  /** A formula with the value it shows, whatever the formula says. */
  show(cell: string, formula: string, value: CellInput): this {
    const { sheet, row, column } = at(cell);
    this.sheet(sheet).cells.set(key(row, column), { content: formula, value });
    return this;
  }

  table(name: string, address: string, totalsRows: 0 | 1 = 0): this {
    const { sheet, range } = area(address);
    const columns = Array.from({ length: range.lastColumn - range.firstColumn + 1 }, (_, index) =>
      String(this.cell(sheet, range.firstRow, range.firstColumn + index)?.value ?? ""),
    );
    this.tables.push({ name, sheet, range, columns, headerRows: 1, totalsRows });
    return this;
  }

  protect(sheet: string): this {
    this.sheet(sheet).isProtected = true;
    return this;
  }

  /** Everything there is, to compare before and after. */
  snapshot(): unknown {
    return {
      sheets: this.sheets.map(({ name, isProtected, isHidden, cells }) => ({
        name,
        isProtected,
        isHidden,
        cells: [...cells].sort(([a], [b]) => (a < b ? -1 : 1)),
      })),
      tables: [...this.tables],
      names: [...this.names],
      parts: [...this.parts],
    };
  }

  contentOf(cell: string): CellInput {
    const { sheet, row, column } = at(cell);
    return this.cell(sheet, row, column)?.content ?? "";
  }

  valueOf(cell: string): CellInput {
    const { sheet, row, column } = at(cell);
    return this.cell(sheet, row, column)?.value ?? "";
  }

  sheetNames(): readonly string[] {
    return this.sheets.map(({ name }) => name);
  }

  private sheet(name: string): FakeSheet {
    const found = this.sheets.find((sheet) => sheet.name === name);
    if (found === undefined) throw new HostError("it is no longer in the workbook");
    return found;
  }

  private cell(sheet: string, row: number, column: number): FakeCell | undefined {
    return this.sheet(sheet).cells.get(key(row, column));
  }

  private value(place: SheetCell): CellInput {
    return this.cell(place.sheet, place.row, place.column)?.value ?? "";
  }

  private rows({ sheet, range }: SheetArea): CellRows {
    return Array.from({ length: range.lastRow - range.firstRow + 1 }, (_, down) =>
      Array.from({ length: range.lastColumn - range.firstColumn + 1 }, (__, across) =>
        this.value({ sheet, row: range.firstRow + down, column: range.firstColumn + across }),
      ),
    );
  }

  private put(sheet: string, row: number, column: number, content: CellInput): void {
    const { cells } = this.sheet(sheet);
    for (const [other, cell] of cells) if (cell.from === key(row, column)) cells.delete(other);
    if (content === "") cells.delete(key(row, column));
    else if (typeof content === "string" && content.startsWith("="))
      this.compute(sheet, row, column, content);
    else if (typeof content === "string" && content.startsWith("'")) {
      cells.set(key(row, column), { content: content.slice(1), value: content.slice(1) });
    } else cells.set(key(row, column), { content, value: content });
  }

  private compute(sheet: string, row: number, column: number, formula: string): void {
    const { cells } = this.sheet(sheet);
    const [call] = ourCalls(formula);
    const outline = this.outlineNow();
    const outcome =
      call &&
      evaluate(call, (reference) => {
        const found = resolveReference(outline, reference, { sheet, row, column });
        return found && this.rows(withinUsed(outline, found));
      });
    const set = (value: CellInput): void => void cells.set(key(row, column), { content: formula, value });
    if (outcome === undefined) set(0);
    else if (outcome.kind === "error") set(outcome.code);
    else if (outcome.kind === "value") set(outcome.value);
    else {
      const places = outcome.rows.flatMap((values, down) =>
        values.map((value, across) => ({
          row: row + down,
          column: column + across,
          value: typeof value === "object" ? value.error : value,
        })),
      );
      const isBlocked = places.slice(1).some((place) => cells.has(key(place.row, place.column)));
      set(isBlocked ? "#SPILL!" : (places[0]?.value ?? 0));
      if (isBlocked) return;
      for (const place of places.slice(1)) {
        cells.set(key(place.row, place.column), {
          content: place.value,
          value: place.value,
          from: key(row, column),
        });
      }
    }
  }

  private outlineNow(): Outline {
    return {
      sheets: this.sheets.map(({ name, isProtected, cells }): SheetInfo => {
        const places = [...cells.keys()].map((text) => text.split(",").map(Number));
        const rows = places.map(([row = 0]) => row);
        const columns = places.map(([, column = 0]) => column);
        const used = {
          firstRow: rows.reduce((a, b) => Math.min(a, b), Infinity),
          lastRow: rows.reduce((a, b) => Math.max(a, b), 0),
          firstColumn: columns.reduce((a, b) => Math.min(a, b), Infinity),
          lastColumn: columns.reduce((a, b) => Math.max(a, b), 0),
        };
        return { name, isProtected, ...(places.length > 0 && { used }) };
      }),
      tables: this.tables,
      names: this.names,
    };
  }

  private mayChange(sheet: string): void {
    if (this.sheet(sheet).isProtected)
      throw new HostError("Excel does not allow it here: the sheet is protected");
  }

  private async call<Result>(name: string, work: () => Result): Promise<Result> {
    this.calls.push(name);
    const count = this.calls.length;
    this.beforeCall(name, count);
    await Promise.resolve();
    const result = work();
    this.afterCall(name, count);
    return result;
  }

  outline(): Promise<Outline> {
    return this.call("outline", () => this.outlineNow());
  }

  read(areas: readonly SheetArea[]): Promise<readonly Block[]> {
    return this.call("read", () =>
      areas.map(({ sheet, range }) => ({
        values: this.rows({ sheet, range }),
        formulas: Array.from({ length: range.lastRow - range.firstRow + 1 }, (_, down) =>
          Array.from(
            { length: range.lastColumn - range.firstColumn + 1 },
            (__, across) =>
              this.cell(sheet, range.firstRow + down, range.firstColumn + across)?.content ?? "",
          ),
        ),
      })),
    );
  }

  spills(cells: readonly SheetCell[]): Promise<readonly (CellRange | undefined)[]> {
    return this.call("spills", () =>
      cells.map(({ sheet, row, column }) => {
        if (this.cell(sheet, row, column)?.from !== undefined) return undefined;
        const filled = [...this.sheet(sheet).cells]
          .filter(([, cell]) => cell.from === key(row, column))
          .map(([text]) => text.split(",").map(Number));
        return {
          firstRow: row,
          firstColumn: column,
          lastRow: Math.max(row, ...filled.map(([down = 0]) => down)),
          lastColumn: Math.max(column, ...filled.map(([, across = 0]) => across)),
        };
      }),
    );
  }

  selection(): Promise<SheetArea> {
    return this.call("selection", () => this.selected);
  }

  surrounding({ sheet, row, column }: SheetCell): Promise<CellRange> {
    return this.call("surrounding", () => {
      const { cells } = this.sheet(sheet);
      let range: CellRange = { firstRow: row, lastRow: row, firstColumn: column, lastColumn: column };
      for (let grown = true; grown;) {
        const wider = {
          firstRow: Math.max(0, range.firstRow - 1),
          lastRow: range.lastRow + 1,
          firstColumn: Math.max(0, range.firstColumn - 1),
          lastColumn: range.lastColumn + 1,
        };
        const found = [...cellsIn(wider)].filter(([r, c]) => cells.has(key(r, c)));
        const next = found.reduce(
          (box, [r, c]) => ({
            firstRow: Math.min(box.firstRow, r),
            lastRow: Math.max(box.lastRow, r),
            firstColumn: Math.min(box.firstColumn, c),
            lastColumn: Math.max(box.lastColumn, c),
          }),
          range,
        );
        grown = JSON.stringify(next) !== JSON.stringify(range);
        range = next;
      }
      return range;
    });
  }

  fillColours({ sheet, range }: SheetArea): Promise<readonly string[]> {
    return this.call("fillColours", () =>
      [...cellsIn(range)].map(([row, column]) => this.fills.get(`${sheet}!${key(row, column)}`) ?? "#FFFFFF"),
    );
  }

  write(writings: readonly AreaContents[]): Promise<void> {
    return this.call("write", () => {
      for (const { sheet, range, contents } of writings) {
        this.mayChange(sheet);
        contents.forEach((row, down) => {
          row.forEach((content, across) => {
            this.put(sheet, range.firstRow + down, range.firstColumn + across, content);
          });
        });
      }
    });
  }

  freeze(areas: readonly SheetArea[]): Promise<void> {
    return this.call("freeze", () => {
      for (const { sheet, range } of areas) {
        this.mayChange(sheet);
        const { cells } = this.sheet(sheet);
        for (const [row, column] of cellsIn(range)) {
          const value = this.cell(sheet, row, column)?.value;
          if (value !== undefined) cells.set(key(row, column), { content: value, value });
        }
      }
    });
  }

  enter(entries: readonly FormulaEntry[]): Promise<void> {
    return this.call("enter", () => {
      for (const { sheet, row, column, formula, filled } of entries) {
        this.mayChange(sheet);
        if (filled) for (const [r, c] of cellsIn(filled)) this.sheet(sheet).cells.delete(key(r, c));
        this.put(sheet, row, column, formula);
      }
    });
  }

  select(target: SheetArea): Promise<void> {
    return this.call("select", () => {
      this.selected = target;
    });
  }

  writeSheet(name: string, rows: readonly (readonly string[])[]): Promise<void> {
    return this.call("writeSheet", () => {
      if (!this.sheets.some((sheet) => sheet.name === name)) this.addSheet(name);
      const { cells } = this.sheet(name);
      cells.clear();
      rows.forEach((row, down) => {
        row.forEach((value, across) => {
          if (value !== "") cells.set(key(down, across), { content: value, value });
        });
      });
    });
  }

  removeSheet(name: string): Promise<void> {
    return this.call("removeSheet", () => {
      const index = this.sheets.findIndex((sheet) => sheet.name === name);
      if (index >= 0) this.sheets.splice(index, 1);
    });
  }

  readPart(namespace: string): Promise<string | undefined> {
    return this.call("readPart", () => this.parts.get(namespace));
  }

  writePart(namespace: string, xml: string | undefined): Promise<void> {
    return this.call("writePart", () => {
      if (xml === undefined) this.parts.delete(namespace);
      else this.parts.set(namespace, xml);
    });
  }

  putPicture(picture: PlacedPicture): Promise<void> {
    return this.call("putPicture", () => void this.pictures.set(picture.name, picture));
  }

  nameCell(name: string, { sheet, row, column }: SheetCell): Promise<void> {
    return this.call("nameCell", () => {
      this.names.push({ name, reference: `'${sheet}'!$${String.fromCharCode(65 + column)}$${row + 1}` });
    });
  }

  watch(events: { readonly changed: () => void; readonly selected: () => void }): Promise<void> {
    return this.call("watch", () => {
      this.events = events;
    });
  }

  choices(): Promise<DocumentChoices> {
    return this.call("choices", () => this.settings);
  }

  setStartsOnOpen(startsOnOpen: boolean): Promise<void> {
    return this.call("setStartsOnOpen", () => {
      this.settings = { ...this.settings, startsOnOpen };
    });
  }

  setHidesTrustPrompt(hidesTrustPrompt: boolean): Promise<void> {
    return this.call("setHidesTrustPrompt", () => {
      this.settings = { ...this.settings, hidesTrustPrompt };
    });
  }
}
