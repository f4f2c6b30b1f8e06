import "@univerjs/preset-sheets-core/lib/index.css";
import type {
  DependencyIdentifier,
  ICellData,
  ICommandInfo,
  IExecutionOptions,
  IRange,
  IObjectMatrixPrimitiveType,
  Nullable,
  Workbook,
} from "@univerjs/core";
import {
  CanceledError,
  getPlainText,
  CellValueType,
  ICommandService,
  IUndoRedoService,
  IUniverInstanceService,
  LifecycleService,
  LifecycleStages,
  LocaleType,
  LogLevel,
  mergeLocales,
  ObjectMatrix,
  ThemeService,
  Univer,
  UniverInstanceType,
} from "@univerjs/core";
import { UniverDocsPlugin } from "@univerjs/docs";
import { UniverDocsUIPlugin } from "@univerjs/docs-ui";
import type { IArrayFormulaRangeType, IArrayFormulaUnitCellType } from "@univerjs/engine-formula";
import {
  FormulaDataModel,
  SetArrayFormulaDataMutation,
  UniverFormulaEnginePlugin,
} from "@univerjs/engine-formula";
import { UniverRenderEnginePlugin } from "@univerjs/engine-render";
import enUS from "@univerjs/preset-sheets-core/locales/en-US";
import type {
  IMoveRangeMutationParams,
  IRemoveNumfmtMutationParams,
  ISetNumfmtMutationParams,
  ISetRangeValuesMutationParams,
} from "@univerjs/sheets";
import {
  MoveRangeMutation,
  RemoveNumfmtMutation,
  SelectRangeCommand,
  SetRangeValuesCommand,
  SetNumfmtMutation,
  SetRangeValuesMutation,
  SetWorksheetActiveOperation,
  SheetsSelectionsService,
  ScrollToCellOperation,
  UniverSheetsPlugin,
} from "@univerjs/sheets";
import { CalculationMode, IDescriptionService, UniverSheetsFormulaPlugin } from "@univerjs/sheets-formula";
import { UniverSheetsFormulaUIPlugin } from "@univerjs/sheets-formula-ui";
import { UniverSheetsNumfmtPlugin } from "@univerjs/sheets-numfmt";
import { UniverSheetsNumfmtUIPlugin } from "@univerjs/sheets-numfmt-ui";
import { UniverSheetsUIPlugin } from "@univerjs/sheets-ui";
import { defaultTheme, type Theme } from "@univerjs/themes";
import { ILayoutService, ThemeSwitcherService, UniverUIPlugin } from "@univerjs/ui";
import type { CellRange } from "../formula/address";
import type { CellPlace } from "../sheet/engine";
import type { WorkbookModel } from "../workbook/model";
import { fileFormat, gridValue, gridWorkbook, sheetId, sheetOf } from "./grid-data";
import { listedName, typedFunctions } from "./grid-functions";
import type { Edit, ShownCell, Spill } from "./messages";

/** What the grid tells the page. */
export interface GridEvents {
  /** Cells that a person changed, undo and redo included. */
  edited(edits: readonly Edit[]): void;
  selected(place: CellPlace): void;
  /** How many steps can be undone and done again. */
  history(undos: number, redos: number): void;
  /** A sentence for something that the grid refused, or that it did for the page only. */
  refused(sentence: string): void;
}

/** Beginnings of commands that change what only Excel can keep in the file: rows, sheets, merges, looks, names, protection. */
const REFUSED_COMMANDS = [
  "sheet.operation.rename-sheet",
  ...[
    ...[
      "insert-",
      "remove-",
      "delete-",
      "add-",
      "reset-",
      "hide-",
      "copy-sheet",
      "split-text",
      "move-rows",
      "move-cols",
    ],
    ...["clear-selection-format", "apply-format-painter", "set-once-format", "set-infinite-format"],
    ...["paste-format", "paste-besides-border", "change-sheet-protection", "view-sheet-permission"],
    ...["set-worksheet-name", "set-worksheet-order", "set-worksheet-hidden", "set-worksheet-show"],
    ...[
      "set-worksheet-protection",
      "set-worksheet-default",
      "set-worksheet-right",
      "set-worksheet-row-count",
    ],
    ...["set-worksheet-column-count", "set-worksheet-range-theme", "set-tab-color", "set-defined-name"],
    ...[
      "set-protection",
      "set-range-protection",
      "set-style",
      "set-bold",
      "set-italic",
      "set-underline",
      "set-stroke",
    ],
    ...[
      "set-overline",
      "set-border",
      "set-background",
      "set-text-",
      "set-font",
      "set-horizontal",
      "set-vertical",
    ],
    ...["set-range-bold", "set-range-italic", "set-range-underline", "set-range-stroke", "set-range-font"],
    ...["set-range-sub", "set-range-super", "set-range-text"],
  ].map((name) => `sheet.command.${name}`),
];
const EDITING_COMMANDS = [
  SetRangeValuesCommand.id,
  "sheet.command.auto-fill",
  "sheet.command.clear-selection-content",
  "sheet.command.clear-selection-all",
  "sheet.command.move-range",
  "sheet.command.paste",
];
/** Commands in the grid's menus that would only be refused. */
const HIDDEN_MENUS = [
  "sheet.menu.cell-insert",
  "sheet.menu.delete",
  "sheet.contextMenu.permission",
  "sheet.contextMenu.text-to-number",
  ...[
    ...["paste-format", "paste-besides-border", "paste-col-width", "clear-selection-format", "copy-sheet"],
    ...[
      "insert-multi-cols-before",
      "insert-multi-cols-right",
      "insert-multi-rows-above",
      "insert-multi-rows-after",
    ],
    ...[
      "remove-row-confirm",
      "remove-col-confirm",
      "hide-row-confirm",
      "hide-col-confirm",
      "remove-sheet-confirm",
    ],
    ...["set-tab-color", "set-worksheet-hidden", "add-range-protection-from-sheet-bar"],
    ...["delete-worksheet-protection-from-sheet-bar", "change-sheet-protection-from-sheet-bar"],
    ...["view-sheet-permission-from-sheet-bar"],
  ].map((name) => `sheet.command.${name}`),
  "sheet.operation.rename-sheet",
];
/** Changes that the page shows and the file does not take. */
const VIEW_ONLY = /^sheet\.mutation\.set-(?:worksheet-(?:col-width|row-height)|frozen)$/;
const VIEW_SENTENCE = "widths, heights and frozen panes change on this page only: the file keeps its own";
const STRUCTURE_SENTENCE =
  "rows, sheets, merges and looks stay as the file has them: change those in Excel, values and formulas here";

const QUIET = { onlyLocal: true, fromFormula: true } as const;

type Matrix = IObjectMatrixPrimitiveType<Nullable<ICellData>>;

type GridValue = number | string | boolean | null;

function valueOf({ p, v, t }: ICellData): GridValue {
  if (p) return getPlainText(p.body?.dataStream ?? "");
  if (v === undefined || v === null || v === "") return null;
  if (t === CellValueType.BOOLEAN) return v === 1 || v === "1" || v === true;
  return t === CellValueType.NUMBER ? Number(v) : String(v);
}

/** Takes out of an edit what the file would not keep of it: looks that a paste or a fill brings along. */
function withoutLooks(changes: Matrix): void {
  new ObjectMatrix(changes).forValue((_row, _column, change) => {
    if (change) delete change.s;
  });
}

/** The theme's variables as a constructed style sheet: a style element would break the page's content security policy. */
class ThemeSheet extends ThemeSwitcherService {
  private readonly sheet = new CSSStyleSheet();

  override injectThemeToHead(theme: Theme): void {
    const variables = (value: unknown, path: string): string =>
      typeof value === "object" && value !== null
        ? Object.entries(value)
            .map(([key, inner]) => variables(inner, `${path}-${key}`))
            .join("")
        : `${path}:${String(value)};`;
    this.sheet.replaceSync(`:root{${variables(theme, "--univer")}}`);
    if (!document.adoptedStyleSheets.includes(this.sheet)) document.adoptedStyleSheets.push(this.sheet);
  }
}

/** The spreadsheet grid. It shows and edits; it never computes. */
export class Grid {
  private readonly univer: Univer;
  private opened = 0;
  private unit = "";
  private isProtected: readonly boolean[] = [];
  /** What spilled formulas show, by sheet, row and column. */
  private filled: Record<string, Record<number, Record<number, ICellData>>> = {};

  constructor(
    container: HTMLElement,
    private readonly events: GridEvents,
    isDark: boolean,
  ) {
    this.univer = new Univer({
      theme: defaultTheme,
      darkMode: isDark,
      locale: LocaleType.EN_US,
      locales: { [LocaleType.EN_US]: mergeLocales(enUS) },
      logLevel: LogLevel.ERROR,
    });
    const { univer } = this;
    univer.registerPlugin(UniverDocsPlugin);
    univer.registerPlugin(UniverRenderEnginePlugin);
    univer.registerPlugin(UniverUIPlugin, {
      container,
      header: true,
      toolbar: false,
      headerMenu: false,
      disableAutoFocus: true,
      override: [[ThemeSwitcherService, { useClass: ThemeSheet }]],
    });
    univer.registerPlugin(UniverDocsUIPlugin);
    univer.registerPlugin(UniverFormulaEnginePlugin, { notExecuteFormula: true });
    univer.registerPlugin(UniverSheetsPlugin, { notExecuteFormula: true });
    univer.registerPlugin(UniverSheetsUIPlugin, {
      footer: { menus: false, addSheetButtonConfig: { show: false } },
      disableForceStringAlert: true,
      menu: Object.fromEntries(HIDDEN_MENUS.map((id) => [id, { hidden: true }])),
    });
    univer.registerPlugin(UniverSheetsNumfmtPlugin);
    univer.registerPlugin(UniverSheetsNumfmtUIPlugin);
    univer.registerPlugin(UniverSheetsFormulaPlugin, {
      initialFormulaComputing: CalculationMode.NO_CALCULATION,
    });
    univer.registerPlugin(UniverSheetsFormulaUIPlugin);
  }

  /** Replaces the workbook; `typed` turns a formula of the file into what a person types. */
  open(model: WorkbookModel, name: string, typed: (formula: string) => string): void {
    const previous = this.unit;
    this.unit = `book-${++this.opened}`;
    this.isProtected = model.sheets.map((sheet) => sheet.isProtected);
    if (previous !== "") this.service(IUniverInstanceService).disposeUnit(previous);
    this.univer.createUnit(UniverInstanceType.UNIVER_SHEET, gridWorkbook(model, this.unit, name, typed));
    if (this.opened > 1) return;
    // Univer makes its services with the first workbook.
    const descriptions = this.service(IDescriptionService);
    descriptions.registerDescriptions(typedFunctions());
    const { getFunctionInfo, getSearchListByNameFirstLetter: begin } = descriptions;
    descriptions.getFunctionInfo = (name) => getFunctionInfo.call(descriptions, listedName(name));
    descriptions.getSearchListByNameFirstLetter = (text) => begin.call(descriptions, listedName(text));
    this.listen();
  }

  /** Settles once the grid stands on the page and takes the keyboard. */
  async drawn(): Promise<void> {
    await this.service(LifecycleService).onStage(LifecycleStages.Rendered);
  }

  /** Shows computed values; they are no step that a person could undo. */
  show(cells: readonly ShownCell[]): void {
    const bySheet = new Map<number, ObjectMatrix<ICellData>>();
    for (const { sheet, row, column, value } of cells) {
      const matrix = bySheet.get(sheet) ?? new ObjectMatrix<ICellData>();
      matrix.setValue(row, column, gridValue(value));
      bySheet.set(sheet, matrix);
    }
    for (const [sheet, matrix] of bySheet) {
      this.execute(SetRangeValuesMutation.id, {
        unitId: this.unit,
        subUnitId: sheetId(sheet),
        cellValue: matrix.getMatrix(),
      });
    }
  }

  /** Shows what formulas fill beyond their own cell, in place of all that was filled before. */
  showSpills(spills: readonly Spill[]): void {
    const ranges: Record<string, Record<number, Record<number, object>>> = {};
    const values: typeof this.filled = {};
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

  /** Writes into a cell as a person would: it can be undone. False where the grid refuses. */
  write(place: CellPlace, content: string): boolean {
    const { row, column } = place;
    return this.execute(
      SetRangeValuesCommand.id,
      {
        unitId: this.unit,
        subUnitId: sheetId(place.sheet),
        range: { startRow: row, endRow: row, startColumn: column, endColumn: column },
        value: content.startsWith("=") ? { f: content, v: null } : { v: content, f: null },
      },
      {},
    );
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

  private listen(): void {
    const commands = this.service(ICommandService);
    commands.beforeCommandExecuted((command, options) => {
      if (REFUSED_COMMANDS.some((name) => command.id.startsWith(name))) this.refuse(STRUCTURE_SENTENCE);
      const target = command.params as { readonly subUnitId?: string } | undefined;
      if (EDITING_COMMANDS.includes(command.id)) {
        const sheet = target?.subUnitId === undefined ? this.place.sheet : sheetOf(target.subUnitId);
        if (this.isProtected[sheet] === true)
          this.refuse("this sheet is protected: take the protection off in Excel");
      }
      if (command.id !== SetRangeValuesMutation.id || options?.["fromFormula"] === true) return;
      const { unitId, cellValue } = command.params as ISetRangeValuesMutationParams;
      if (unitId === this.unit && cellValue) withoutLooks(cellValue);
    });
    commands.onCommandExecuted((command, options) => {
      const edits = this.editsOf(command, options);
      if (edits.length > 0) this.events.edited(edits);
      if (command.id === SetWorksheetActiveOperation.id) this.events.selected(this.place);
      if (VIEW_ONLY.test(command.id)) this.events.refused(VIEW_SENTENCE);
    });
    this.service(SheetsSelectionsService).selectionChanged$.subscribe(() => {
      this.events.selected(this.place);
    });
    this.service(IUndoRedoService).undoRedoStatus$.subscribe(({ undos, redos }) => {
      this.events.history(undos, redos);
    });
  }

  private refuse(sentence: string): never {
    this.events.refused(sentence);
    throw new CanceledError();
  }

  /** The cells that a mutation changed, as they are after it. */
  private editsOf(command: Readonly<ICommandInfo>, options: IExecutionOptions | undefined): readonly Edit[] {
    if (options?.["fromFormula"] === true) return [];
    if (command.id === SetRangeValuesMutation.id) {
      const { unitId, subUnitId, cellValue } = command.params as ISetRangeValuesMutationParams;
      return unitId === this.unit && cellValue ? this.changedCells(subUnitId, cellValue) : [];
    }
    if (command.id === MoveRangeMutation.id) {
      const { unitId, from, to } = command.params as IMoveRangeMutationParams;
      return unitId === this.unit
        ? [from, to].flatMap(({ subUnitId, value }) => this.changedCells(subUnitId, value))
        : [];
    }
    if (command.id === SetNumfmtMutation.id) {
      const { unitId, subUnitId, values } = command.params as ISetNumfmtMutationParams;
      const ranges = unitId === this.unit ? Object.values(values).flatMap((value) => value.ranges) : [];
      return ranges.flatMap((range) => this.formattedCells(subUnitId, range));
    }
    if (command.id === RemoveNumfmtMutation.id) {
      const { unitId, subUnitId, ranges } = command.params as IRemoveNumfmtMutationParams;
      return unitId === this.unit ? ranges.flatMap((range) => this.formattedCells(subUnitId, range)) : [];
    }
    return [];
  }

  /** The cells of a range with their number format. */
  private formattedCells(subUnitId: string, range: IRange): readonly Edit[] {
    const styles = this.workbook?.getStyles();
    const sheet = this.workbook?.getSheetBySheetId(subUnitId);
    const edits: Edit[] = [];
    for (let row = range.startRow; row <= range.endRow; row++) {
      for (let column = range.startColumn; column <= range.endColumn; column++) {
        const pattern = styles?.getStyleByCell(sheet?.getCellRaw(row, column))?.n?.pattern ?? "General";
        const place = { sheet: sheetOf(subUnitId), row, column };
        edits.push({
          ...place,
          input: this.inputOf(subUnitId, row, column),
          numberFormat: fileFormat(pattern),
        });
      }
    }
    return edits;
  }

  private changedCells(subUnitId: string, changes: Matrix): readonly Edit[] {
    const sheet = this.workbook?.getSheetBySheetId(subUnitId);
    if (!sheet) return [];
    const edits: Edit[] = [];
    new ObjectMatrix(changes).forValue((row, column, change) => {
      if (change && !["v", "f", "si", "p"].some((key) => key in change)) return;
      edits.push({ sheet: sheetOf(subUnitId), row, column, input: this.inputOf(subUnitId, row, column) });
    });
    return edits;
  }

  private inputOf(subUnitId: string, row: number, column: number): Edit["input"] {
    const cell = this.workbook?.getSheetBySheetId(subUnitId)?.getCellRaw(row, column);
    if (!cell) return null;
    if (cell.f || cell.si) {
      const formula = this.service(FormulaDataModel).getFormulaStringByCell(
        row,
        column,
        subUnitId,
        this.unit,
      );
      if (formula) return { formula };
    }
    return valueOf(cell);
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

  /** The values that a rectangle shows, cut to the rows and columns that the grid has. */
  values(sheet: number, range: CellRange): readonly (readonly GridValue[])[] {
    const cells = this.workbook?.getSheetBySheetId(sheetId(sheet));
    if (!cells) return [];
    const lastRow = Math.min(range.lastRow, cells.getRowCount() - 1);
    const lastColumn = Math.min(range.lastColumn, cells.getColumnCount() - 1);
    const rows: GridValue[][] = [];
    for (let row = range.firstRow; row <= lastRow; row++) {
      const values: GridValue[] = [];
      for (let column = range.firstColumn; column <= lastColumn; column++) {
        const shown = this.filled[sheetId(sheet)]?.[row]?.[column] ?? cells.getCellRaw(row, column);
        values.push(shown ? valueOf(shown) : null);
      }
      rows.push(values);
    }
    return rows;
  }

  /** The text that a cell shows, in its number format. */
  text({ sheet, row, column }: CellPlace): string {
    const shown = this.workbook?.getSheetBySheetId(sheetId(sheet))?.getCell(row, column);
    if (!shown) return "";
    return shown.p ? String(valueOf(shown)) : String(shown.v ?? "");
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
