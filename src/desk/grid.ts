import type {
  DependencyIdentifier,
  ICellData,
  IExecutionOptions,
  IStyleData,
  Workbook,
} from "@univerjs/core";
import type { Univer } from "@univerjs/core";
import {
  CellValueType,
  ICommandService,
  IUniverInstanceService,
  LifecycleService,
  LifecycleStages,
  ThemeService,
  UniverInstanceType,
} from "@univerjs/core";
import { IRenderManagerService } from "@univerjs/engine-render";
import type { IArrayFormulaRangeType, IArrayFormulaUnitCellType } from "@univerjs/engine-formula";
import { FormulaDataModel, SetArrayFormulaDataMutation } from "@univerjs/engine-formula";
import {
  ScrollToCellOperation,
  SelectRangeCommand,
  SetRangeValuesCommand,
  SetRangeValuesMutation,
  SetWorksheetActiveOperation,
  SheetsSelectionsService,
} from "@univerjs/sheets";
import { IEditorBridgeService } from "@univerjs/sheets-ui";
import { ILayoutService } from "@univerjs/ui";
import type { CellRange } from "../formula/address";
import { type CellPlace, isTypedFormula } from "../sheet/engine";
import type { SheetRange } from "../sheet/rectangles";
import type { CellLook } from "../workbook/cell-looks";
import type { WorkbookModel } from "../workbook/model";
import type { ConditionalCell } from "./conditional-looks";
import { type Box, cellBox, drawnRanges, listenForScroll } from "./grid-boxes";
import { dressedCells, filledCells, matrices, writtenBlock, type WrittenCell } from "./grid-cells";
import { gridValue, gridWorkbook, sheetId } from "./grid-data";
import type { GridEvents } from "./grid-events";
import { listenToGrid } from "./grid-listening";
import { GridOverlay } from "./grid-overlay";
import { type FilledCells, GridReading, type GridValue } from "./grid-reading";
import { selectedCells, selectedPlace } from "./grid-selection";
import { makeUniver, setServices } from "./grid-setup";
import { HeldDrawing } from "./held-drawing";
import type { ShownCell, Spill } from "./messages";
import type { TableSource } from "./table-view";

const QUIET = { onlyLocal: true, fromFormula: true } as const;

/** The spreadsheet grid. It shows and edits; it never computes. It keeps earlier workbooks for going back to them. */
export class Grid {
  private readonly univer: Univer;
  private opened = 0;
  /** The key of the workbook that is shown. */
  unit = "";
  model: WorkbookModel | undefined;
  private filled: FilledCells = {};
  private readonly drawing = new HeldDrawing();
  private readonly overlay = new GridOverlay(
    (token) => this.service(token),
    () => {
      this.events.filterPressed();
    },
  );

  constructor(
    container: HTMLElement,
    private readonly events: GridEvents,
    isDark: boolean,
  ) {
    this.univer = makeUniver(container, isDark, this.drawing);
  }

  /** Shows a workbook and gives the key by which it is shown again; `typed` turns a formula of the file into what a person types. */
  open(model: WorkbookModel, name: string, typed: (formula: string) => string): string {
    this.drawing.catchUp();
    this.unit = `book-${++this.opened}`;
    this.model = model;
    this.univer.createUnit(UniverInstanceType.UNIVER_SHEET, gridWorkbook(model, this.unit, name, typed));
    if (this.opened === 1) {
      // Univer makes its services with the first workbook.
      setServices(this.service, this.drawing);
      listenToGrid(this, this.events, this.service, () => {
        if (this.workbook) this.overlay.place(this.workbook);
      });
      this.overlay.listen();
    }
    this.overlay.open(this.unit, model);
    const { workbook } = this;
    void this.drawn().then(() => {
      if (!workbook) return;
      listenForScroll(workbook, this.service, this.events.moved);
      this.overlay.place(workbook);
    });
    return this.unit;
  }

  /** Shows a workbook that was opened before, with its own steps to undo. */
  showAgain(key: string, model: WorkbookModel): void {
    this.drawing.catchUp();
    this.unit = key;
    this.model = model;
    this.service(IUniverInstanceService).setCurrentUnitForType(key);
    this.service(IUniverInstanceService).focusUnit(key);
  }

  /** Lets a workbook go; what the grid still does with it by itself ends first. */
  forget(key: string): void {
    this.overlay.forget(key);
    setTimeout(() => this.service(IUniverInstanceService).disposeUnit(key), 2000);
  }

  /** Settles once the grid stands on the page and takes the keyboard. */
  async drawn(): Promise<void> {
    await this.service(LifecycleService).onStage(LifecycleStages.Rendered);
  }

  /** Draws what is in sight a few times, as results do: what draws takes twice as long while it is new to the browser. */
  rehearse(): void {
    let times = 4;
    const again = (): void => {
      if (times-- === 0) return;
      const subUnitId = sheetId(this.place.sheet);
      this.execute(SetRangeValuesMutation.id, { unitId: this.unit, subUnitId, cellValue: {} });
      requestAnimationFrame(() => setTimeout(again));
    };
    again();
  }

  /** Waits a moment for what an edit changes, and draws both at once. */
  awaitResults(): void {
    const render = this.service(IRenderManagerService).getRenderById(this.unit);
    if (render) this.drawing.hold(render.scene);
  }

  /** Does what may wait for the drawing of results that are shown already. */
  afterResults(work: () => void): void {
    this.drawing.afterResults(work);
  }

  /** Shows computed values; they are no step that a person could undo. */
  show(cells: readonly ShownCell[]): void {
    this.drawing.letGo();
    this.put(cells.map(({ value, ...place }) => ({ ...place, data: gridValue(value) })));
  }

  /** Shows cells in the looks that conditions give them, in place of all such looks before. */
  shade(cells: readonly ConditionalCell[]): void {
    this.overlay.shade(this.unit, cells);
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
    for (const [sheet, matrix] of matrices(cells)) {
      const cellValue = matrix.getMatrix();
      this.execute(SetRangeValuesMutation.id, { unitId: this.unit, subUnitId: sheetId(sheet), cellValue });
    }
  }

  /** Shows what formulas fill beyond their own cell, in place of all that was filled before. */
  showSpills(spills: readonly Spill[]): void {
    const { ranges, values } = filledCells(spills);
    this.filled = values;
    this.execute(SetArrayFormulaDataMutation.id, {
      arrayFormulaRange: { [this.unit]: ranges } as unknown as IArrayFormulaRangeType,
      arrayFormulaCellData: { [this.unit]: values } as unknown as IArrayFormulaUnitCellType,
      arrayFormulaEmbedded: {},
    });
  }

  /** Writes a block of cells as a person would: one step that can be undone. False where the grid refuses. */
  write(place: CellPlace, rows: readonly (readonly WrittenCell[])[]): boolean {
    const { range, value } = writtenBlock(place, rows);
    return this.run(SetRangeValuesCommand.id, { subUnitId: sheetId(place.sheet), range, value });
  }

  /** Gives the selected cells a look; what is null of it goes. One step that can be undone. */
  dress(style: IStyleData | ((row: number, column: number, range: CellRange) => IStyleData)): boolean {
    const { sheet, range } = this.selection;
    const value = dressedCells(style, range);
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
    this.drawing.catchUp();
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
    return selectedPlace(this.workbook, this.service(SheetsSelectionsService));
  }

  /** The selected cells; what is selected last, where several ranges are. */
  get selection(): { readonly sheet: number; readonly range: CellRange } {
    const { place } = this;
    return { sheet: place.sheet, range: selectedCells(place, this.service(SheetsSelectionsService)) };
  }

  /** Where the selected cell is drawn; undefined where it is out of sight. */
  get box(): Box | undefined {
    const { workbook } = this;
    const { row, column } = this.place;
    return workbook && cellBox(workbook, this.service, row, column);
  }

  /** What a person looks at. */
  get inSight(): readonly SheetRange[] {
    const { workbook, place } = this;
    return workbook
      ? drawnRanges(workbook, this.service).map((range) => ({ ...range, sheet: place.sheet }))
      : [];
  }

  /** Whether a person is typing into a cell. */
  get isTyping(): boolean {
    return this.service(IEditorBridgeService).isVisible().visible;
  }

  /** The values that a rectangle shows, cut to the rows and columns that the grid has. */
  values(sheet: number, range: CellRange): readonly (readonly GridValue[])[] {
    return this.reading?.values(sheet, range, this.filled) ?? [];
  }

  /** What a rectangle holds, formulas as they are typed and numbers with their format. */
  inputs(sheet: number, range: CellRange): readonly (readonly WrittenCell[])[] {
    return this.reading?.inputs(sheet, range) ?? [];
  }

  /** The number format of a cell as the file writes it. */
  format({ sheet, row, column }: CellPlace): string {
    return this.reading?.formatOf(sheetId(sheet), row, column) ?? "General";
  }

  /** The formula of a cell as it is typed. */
  formula({ sheet, row, column }: CellPlace): string | undefined {
    const input = this.reading?.input(sheetId(sheet), row, column);
    return input !== undefined && isTypedFormula(input) ? input.formula : undefined;
  }

  /** The text that a cell shows, in its number format, however narrow its column is. */
  text(place: CellPlace): string {
    return this.reading?.text(place) ?? "";
  }

  /** The sheet in sight as rows and columns of texts. */
  get table(): TableSource | undefined {
    return this.reading?.table(this.place.sheet, this.filled);
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

  /** What the workbook that is shown holds, in the file's terms. */
  get reading(): GridReading | undefined {
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

  private readonly service = <T>(token: DependencyIdentifier<T>): T => this.univer.__getInjector().get(token);

  private execute(id: string, params: object | undefined, options: IExecutionOptions = QUIET): boolean {
    return this.service(ICommandService).syncExecuteCommand(id, params, options);
  }
}
