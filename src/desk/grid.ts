import type {
  DependencyIdentifier,
  ICellData,
  ICommandInfo,
  IExecutionOptions,
  IStyleData,
  Nullable,
  Workbook,
} from "@univerjs/core";
import type { Univer } from "@univerjs/core";
import {
  CanceledError,
  CellValueType,
  ICommandService,
  IUndoRedoService,
  IUniverInstanceService,
  LifecycleService,
  LifecycleStages,
  ObjectMatrix,
  ThemeService,
  UniverInstanceType,
} from "@univerjs/core";
import type { IArrayFormulaRangeType, IArrayFormulaUnitCellType } from "@univerjs/engine-formula";
import { FormulaDataModel, SetArrayFormulaDataMutation } from "@univerjs/engine-formula";
import {
  AFTER_CELL_EDIT,
  ScrollToCellOperation,
  SelectRangeCommand,
  SetRangeValuesCommand,
  SetRangeValuesMutation,
  SetWorksheetActiveOperation,
  SheetInterceptorService,
  SheetsSelectionsService,
} from "@univerjs/sheets";
import { IDescriptionService } from "@univerjs/sheets-formula";
import { IEditorBridgeService } from "@univerjs/sheets-ui";
import { ILayoutService } from "@univerjs/ui";
import type { CellRange } from "../formula/address";
import type { CellPlace } from "../sheet/engine";
import type { CellLook } from "../workbook/cell-looks";
import type { WorkbookModel } from "../workbook/model";
import type { Restructuring } from "../workbook/restructure";
import { EDITING_COMMANDS, REFUSED_COMMANDS, restructuringOf, RICH_COMMANDS } from "./grid-commands";
import { gridValue, gridWorkbook, sheetId, sheetOf } from "./grid-data";
import { changesOf, type GridChange } from "./grid-changes";
import { type FilledCells, GridReading, type GridValue } from "./grid-reading";
import { describeFunctions, makeUniver } from "./grid-setup";
import type { ShownCell, Spill } from "./messages";
import type { TableSource } from "./table-view";

/** What the grid tells the page. */
export interface GridEvents {
  /** What a person changed, undo and redo included. */
  changed(change: GridChange): void;
  /** Rows, columns, sheets or merges are to change: the file does that, and the page opens it again. */
  restructured(change: Restructuring): void;
  selected(place: CellPlace): void;
  /** How many steps can be undone and done again in the workbook that is shown. */
  history(undos: number, redos: number): void;
  /** A sentence for something that the grid refused. */
  refused(sentence: string): void;
  /** Content that a person typed, as it is to go into the cell. */
  typed(content: string): TypedCell | undefined;
  /** A formula that a person typed, as it is to go into the cell; undefined where it is to go as it was typed. */
  typedFormula(formula: string): string | undefined;
}

/** What typed text means where it is more than text. */
export interface TypedCell {
  readonly value: number | string;
  readonly numberFormat?: string;
}

/** A cell to be written as a person would. */
export interface WrittenCell {
  readonly content: GridValue;
  readonly numberFormat?: string;
}

const STRUCTURE_SENTENCE = "the file could not keep that: change it in Excel, everything else here";
const PROTECTED_SENTENCE = "this sheet is protected: take the protection off in Excel";
const QUIET = { onlyLocal: true, fromFormula: true } as const;

/** The spreadsheet grid. It shows and edits; it never computes. It keeps earlier workbooks for going back to them. */
export class Grid {
  private readonly univer: Univer;
  private opened = 0;
  private unit = "";
  private model: WorkbookModel | undefined;
  private filled: FilledCells = {};

  constructor(
    container: HTMLElement,
    private readonly events: GridEvents,
    isDark: boolean,
  ) {
    this.univer = makeUniver(container, isDark);
  }

  /** Shows a workbook and gives the key by which it is shown again; `typed` turns a formula of the file into what a person types. */
  open(model: WorkbookModel, name: string, typed: (formula: string) => string): string {
    this.unit = `book-${++this.opened}`;
    this.model = model;
    this.univer.createUnit(UniverInstanceType.UNIVER_SHEET, gridWorkbook(model, this.unit, name, typed));
    if (this.opened === 1) {
      // Univer makes its services with the first workbook.
      describeFunctions(this.service(IDescriptionService));
      this.listen();
    }
    return this.unit;
  }

  /** Shows a workbook that was opened before, with its own steps to undo. */
  showAgain(key: string, model: WorkbookModel): void {
    this.unit = key;
    this.model = model;
    this.service(IUniverInstanceService).setCurrentUnitForType(key);
    this.service(IUniverInstanceService).focusUnit(key);
  }

  /** Lets a workbook go; what the grid still does with it by itself ends first. */
  forget(key: string): void {
    setTimeout(() => this.service(IUniverInstanceService).disposeUnit(key), 2000);
  }

  /** Settles once the grid stands on the page and takes the keyboard. */
  async drawn(): Promise<void> {
    await this.service(LifecycleService).onStage(LifecycleStages.Rendered);
  }

  /** Shows computed values; they are no step that a person could undo. */
  show(cells: readonly ShownCell[]): void {
    this.put(cells.map(({ value, ...place }) => ({ ...place, data: gridValue(value) })));
  }

  /** Shows a text in place of what a cell holds. */
  showText(place: CellPlace, text: string): void {
    const data = { v: text, t: CellValueType.FORCE_STRING, f: null, si: null };
    this.put([{ ...place, data }]);
  }

  /** Shows cells in number formats that their contents brought along. */
  showFormats(cells: readonly (CellPlace & { readonly numberFormat: string })[]): void {
    this.put(
      cells.map(({ numberFormat, ...place }) => ({
        ...place,
        data: { s: { n: { pattern: numberFormat } } },
      })),
    );
  }

  private put(cells: readonly (CellPlace & { readonly data: ICellData })[]): void {
    const bySheet = new Map<number, ObjectMatrix<ICellData>>();
    for (const { sheet, row, column, data } of cells) {
      const matrix = bySheet.get(sheet) ?? new ObjectMatrix<ICellData>();
      matrix.setValue(row, column, data);
      bySheet.set(sheet, matrix);
    }
    for (const [sheet, matrix] of bySheet) {
      const cellValue = matrix.getMatrix();
      this.execute(SetRangeValuesMutation.id, { unitId: this.unit, subUnitId: sheetId(sheet), cellValue });
    }
  }

  /** Shows what formulas fill beyond their own cell, in place of all that was filled before. */
  showSpills(spills: readonly Spill[]): void {
    const ranges: Record<string, Record<number, Record<number, object>>> = {};
    const values: FilledCells = {};
    for (const spill of spills) {
      const id = sheetId(spill.sheet);
      const { firstRow, firstColumn, lastRow, lastColumn } = spill.range;
      ((ranges[id] ??= {})[spill.row] ??= {})[spill.column] = {
        startRow: firstRow,
        startColumn: firstColumn,
        endRow: lastRow,
        endColumn: lastColumn,
      };
      for (const [down, row] of spill.values.entries()) {
        for (const [across, value] of row.entries()) {
          ((values[id] ??= {})[firstRow + down] ??= {})[firstColumn + across] =
            value === null ? { v: "", t: CellValueType.STRING } : gridValue(value);
        }
      }
    }
    this.filled = values;
    this.execute(SetArrayFormulaDataMutation.id, {
      arrayFormulaRange: { [this.unit]: ranges } as unknown as IArrayFormulaRangeType,
      arrayFormulaCellData: { [this.unit]: values } as unknown as IArrayFormulaUnitCellType,
      arrayFormulaEmbedded: {},
    });
  }

  /** Writes a block of cells as a person would: one step that can be undone. False where the grid refuses. */
  write(place: CellPlace, rows: readonly (readonly WrittenCell[])[]): boolean {
    const width = rows.reduce((most, cells) => Math.max(most, cells.length), 1);
    const value = rows.map((cells) =>
      [...cells, ...Array<WrittenCell>(width - cells.length).fill({ content: null })].map(
        ({ content, numberFormat }): ICellData => {
          const style = numberFormat === undefined ? {} : { s: { n: { pattern: numberFormat } } };
          if (typeof content === "string" && content.startsWith("="))
            return { f: content, v: null, ...style };
          return { ...gridValue(content), f: null, si: null, ...style };
        },
      ),
    );
    const range = {
      startRow: place.row,
      endRow: place.row + rows.length - 1,
      startColumn: place.column,
      endColumn: place.column + width - 1,
    };
    return this.run(SetRangeValuesCommand.id, { subUnitId: sheetId(place.sheet), range, value });
  }

  /** Gives the selected cells a look; what is null of it goes. One step that can be undone. */
  dress(style: IStyleData | ((row: number, column: number, range: CellRange) => IStyleData)): boolean {
    const { sheet, range } = this.selection;
    const value: Record<number, Record<number, ICellData>> = {};
    for (let row = range.firstRow; row <= range.lastRow; row++) {
      for (let column = range.firstColumn; column <= range.lastColumn; column++) {
        const s = typeof style === "function" ? style(row, column, range) : style;
        (value[row] ??= {})[column] = { s };
      }
    }
    return this.run(SetRangeValuesCommand.id, { subUnitId: sheetId(sheet), value });
  }

  /** How the selected cell looks. */
  get look(): CellLook {
    return this.reading?.look(this.place) ?? {};
  }

  /** Runs one of the grid's own commands on the selection, as its menus do. */
  run(id: string, params: object = {}): boolean {
    return this.execute(id, { unitId: this.unit, subUnitId: sheetId(this.place.sheet), ...params }, {});
  }

  /** Goes to a cell, on whichever sheet it is. */
  goTo(place: CellPlace): void {
    const target = { unitId: this.unit, subUnitId: sheetId(place.sheet) };
    const { row, column } = place;
    const range = { startRow: row, endRow: row, startColumn: column, endColumn: column };
    this.execute(SetWorksheetActiveOperation.id, target);
    this.execute(SelectRangeCommand.id, { unitId: this.unit, subUnit: target.subUnitId, range });
    this.execute(ScrollToCellOperation.id, { unitId: this.unit, range });
  }

  /** Shows the next or the previous sheet that is in sight. */
  turn(step: 1 | -1): void {
    const sheets = (this.model?.sheets ?? []).flatMap(({ state }, at) => (state === "visible" ? [at] : []));
    const next = sheets[sheets.indexOf(this.place.sheet) + step];
    if (next !== undefined) this.goTo({ sheet: next, row: 0, column: 0 });
  }

  /** The selected cell. */
  get place(): CellPlace {
    const sheet = this.workbook?.getActiveSheet().getSheetId();
    const cell = this.service(SheetsSelectionsService).getCurrentLastSelection()?.primary;
    return {
      sheet: sheet === undefined ? 0 : sheetOf(sheet),
      row: cell?.actualRow ?? 0,
      column: cell?.actualColumn ?? 0,
    };
  }

  /** The selected cells; what is selected last, where several ranges are. */
  get selection(): { readonly sheet: number; readonly range: CellRange } {
    const { sheet, row, column } = this.place;
    const range = this.service(SheetsSelectionsService).getCurrentLastSelection()?.range;
    return {
      sheet,
      range: {
        firstRow: range?.startRow ?? row,
        firstColumn: range?.startColumn ?? column,
        lastRow: range?.endRow ?? row,
        lastColumn: range?.endColumn ?? column,
      },
    };
  }

  /** Whether a person is typing into a cell. */
  get isTyping(): boolean {
    return this.service(IEditorBridgeService).isVisible().visible;
  }

  private listen(): void {
    const commands = this.service(ICommandService);
    commands.beforeCommandExecuted((command, options) => {
      if (options?.["fromFormula"] !== true) this.check(command);
    });
    this.service(SheetInterceptorService).writeCellInterceptor.intercept(AFTER_CELL_EDIT, {
      // Before the grid's own reading, which knows English dates only.
      priority: 1000,
      handler: (cell, { subUnitId, row, col }, next) =>
        this.readTyped(cell, { sheet: sheetOf(subUnitId), row, column: col }) ?? next(cell),
    });
    commands.onCommandExecuted((command, options) => {
      const { reading } = this;
      if (options?.["fromFormula"] !== true && reading) {
        const change = changesOf(command, this.unit, reading);
        if (change) this.events.changed(change);
      }
      if (command.id === SetWorksheetActiveOperation.id) this.events.selected(this.place);
    });
    this.service(SheetsSelectionsService).selectionChanged$.subscribe(() => {
      this.events.selected(this.place);
    });
    this.service(IUndoRedoService).undoRedoStatus$.subscribe(({ undos, redos }) => {
      this.events.history(undos, redos);
    });
  }

  /** Stops commands that the file could not keep, and hands over those that the file itself carries out. */
  private check(command: Readonly<ICommandInfo>): void {
    const isOneOf = (names: readonly string[]): boolean => names.some((name) => command.id.startsWith(name));
    if (isOneOf(REFUSED_COMMANDS) || (isOneOf(RICH_COMMANDS) && this.isTyping))
      this.refuse(STRUCTURE_SENTENCE);
    const target = command.params as { readonly subUnitId?: string } | undefined;
    const sheet = target?.subUnitId === undefined ? this.place.sheet : sheetOf(target.subUnitId);
    if (isOneOf(EDITING_COMMANDS) && this.model?.sheets[sheet]?.isProtected === true)
      this.refuse(PROTECTED_SENTENCE);
    const range = this.service(SheetsSelectionsService).getCurrentLastSelection()?.range;
    if (!range) return;
    const sheetNames = this.model?.sheets.map(({ name }) => name) ?? [];
    const change = restructuringOf(command, { sheet: this.place.sheet, range, sheetNames });
    if (!change) return;
    this.events.restructured(change);
    throw new CanceledError();
  }

  /** Puts numbers, dates and amounts in place of typed texts that mean them. */
  private readTyped(cell: Nullable<ICellData>, place: CellPlace): ICellData | undefined {
    const rich = cell?.p?.body?.dataStream.replace(/\r\n$/, "");
    const text = typeof cell?.v === "string" ? cell.v : rich;
    const formula = cell?.f ? this.events.typedFormula(cell.f) : undefined;
    if (formula !== undefined) return { ...cell, f: formula };
    if (!cell || text === undefined || cell.f || cell.t === CellValueType.FORCE_STRING) return undefined;
    if (this.format(place) === "@") return undefined;
    const read = this.events.typed(text);
    if (!read) return undefined;
    const { value, numberFormat } = read;
    const hasFormat = this.format(place) !== "General";
    return {
      v: value,
      p: null,
      f: null,
      si: null,
      t: typeof value === "number" ? CellValueType.NUMBER : CellValueType.FORCE_STRING,
      // A cell that has a format keeps it, as in Excel.
      ...(numberFormat !== undefined && !hasFormat && { s: { n: { pattern: numberFormat } } }),
    };
  }

  private refuse(sentence: string): never {
    this.events.refused(sentence);
    throw new CanceledError();
  }

  /** The values that a rectangle shows, cut to the rows and columns that the grid has. */
  values(sheet: number, range: CellRange): readonly (readonly GridValue[])[] {
    return this.reading?.values(sheet, range, this.filled) ?? [];
  }

  /** What a rectangle holds, formulas as they are typed and numbers with their format. */
  inputs(sheet: number, range: CellRange): readonly (readonly WrittenCell[])[] {
    const { reading } = this;
    const id = sheetId(sheet);
    const rows: WrittenCell[][] = [];
    for (let row = range.firstRow; reading && row <= range.lastRow; row++) {
      const cells: WrittenCell[] = [];
      for (let column = range.firstColumn; column <= range.lastColumn; column++) {
        const input = reading.input(id, row, column);
        const content =
          typeof input === "object" && input !== null
            ? "formula" in input
              ? input.formula
              : input.error
            : input;
        cells.push({ content, numberFormat: reading.formatOf(id, row, column) });
      }
      rows.push(cells);
    }
    return rows;
  }

  /** The number format of a cell as the file writes it. */
  format({ sheet, row, column }: CellPlace): string {
    return this.reading?.formatOf(sheetId(sheet), row, column) ?? "General";
  }

  /** The formula of a cell as it is typed. */
  formula({ sheet, row, column }: CellPlace): string | undefined {
    const input = this.reading?.input(sheetId(sheet), row, column);
    return typeof input === "object" && input !== null && "formula" in input ? input.formula : undefined;
  }

  /** The text that a cell shows, in its number format, however narrow its column is. */
  text(place: CellPlace): string {
    return this.reading?.text(place) ?? "";
  }

  /** The sheet in sight as rows and columns of texts. */
  get table(): TableSource | undefined {
    const { sheet } = this.place;
    const cells = this.workbook?.getSheetBySheetId(sheetId(sheet));
    if (!cells) return undefined;
    const filled = Object.entries(this.filled[sheetId(sheet)] ?? {});
    const spilledRows = filled.map(([row]) => Number(row) + 1);
    const spilledColumns = filled.flatMap(([, row]) => Object.keys(row).map((column) => Number(column) + 1));
    const most = (first: number, others: readonly number[]): number =>
      others.reduce((a, b) => Math.max(a, b), first);
    return {
      name: cells.getName(),
      sheet,
      rows: most(cells.getLastRowWithContent() + 1, spilledRows),
      columns: most(cells.getLastColumnWithContent() + 1, spilledColumns),
      text: (place) => this.text(place),
    };
  }

  focus(): void {
    this.service(ILayoutService).focus();
  }

  undo(): void {
    this.execute("univer.command.undo", undefined, {});
  }

  redo(): void {
    this.execute("univer.command.redo", undefined, {});
  }

  setDark(isDark: boolean): void {
    this.service(ThemeService).setDarkMode(isDark);
  }

  private get reading(): GridReading | undefined {
    const { workbook } = this;
    return (
      workbook &&
      new GridReading(
        workbook,
        (row, column, subUnitId) =>
          this.service(FormulaDataModel).getFormulaStringByCell(row, column, subUnitId, this.unit) ??
          undefined,
      )
    );
  }

  private get workbook(): Workbook | undefined {
    return this.service(IUniverInstanceService).getUnit<Workbook>(this.unit) ?? undefined;
  }

  private service<T>(token: DependencyIdentifier<T>): T {
    return this.univer.__getInjector().get(token);
  }

  private execute(id: string, params: object | undefined, options: IExecutionOptions = QUIET): boolean {
    return this.service(ICommandService).syncExecuteCommand(id, params, options);
  }
}
