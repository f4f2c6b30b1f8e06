import type { DependencyIdentifier, ICellData, ICommandInfo, Nullable } from "@univerjs/core";
import { CanceledError, CellValueType, ICommandService, IUndoRedoService } from "@univerjs/core";
import type { ISetRangeValuesCommandParams } from "@univerjs/sheets";
import {
  AFTER_CELL_EDIT,
  SetRangeValuesCommand,
  SetWorksheetActiveOperation,
  SheetInterceptorService,
  SheetsSelectionsService,
} from "@univerjs/sheets";
import type { CellPosition } from "../formula/address";
import type { CellPlace } from "../sheet/engine";
import type { WorkbookModel } from "../workbook/model";
import { gridChanges, changesSizes } from "./grid-changes";
import { EDITING_COMMANDS, REFUSED_COMMANDS, restructuringOf, RICH_COMMANDS } from "./grid-commands";
import { sheetOf } from "./grid-data";
import type { GridEvents } from "./grid-events";
import { type GridReading, type GridValue, valueOf } from "./grid-reading";

const STRUCTURE_SENTENCE = "the file could not keep that: change it in Excel, everything else here";
const PROTECTED_SENTENCE = "this sheet is protected: take the protection off in Excel";

/** The grid as far as it has to be known to judge what a person does in it. */
export interface ListenedGrid {
  /** The key of the workbook that is shown. */
  readonly unit: string;
  readonly model: WorkbookModel | undefined;
  readonly place: CellPlace;
  readonly isTyping: boolean;
  readonly reading: GridReading | undefined;
  format(place: CellPlace): string;
}

/** The one cell that a person typed a constant into; undefined for other commands. */
function typedInto({
  id,
  params,
}: Readonly<ICommandInfo>): { readonly place: CellPosition; readonly value: GridValue } | undefined {
  if (id !== SetRangeValuesCommand.id) return undefined;
  const { range, value } = params as ISetRangeValuesCommandParams;
  const isOne = range?.startRow === range?.endRow && range?.startColumn === range?.endColumn;
  // The editor gives one cell; what is pasted or filled comes as a block.
  if (!range || !isOne || Array.isArray(value) || !("v" in value || "p" in value)) return undefined;
  const cell = value as ICellData;
  if (cell.f || cell.si) return undefined;
  return { place: { row: range.startRow, column: range.startColumn }, value: valueOf(cell) };
}

/**
 * Hands over what a person does in the grid, and stops what the file could not keep; `resized` is called when rows and
 * columns come to stand elsewhere.
 */
export function listenToGrid(
  grid: ListenedGrid,
  events: GridEvents,
  service: <T>(token: DependencyIdentifier<T>) => T,
  resized: () => void,
): void {
  const commands = service(ICommandService);
  const selections = service(SheetsSelectionsService);

  function refuse(sentence: string): never {
    events.refused(sentence);
    throw new CanceledError();
  }

  /** Stops commands that the file could not keep, and hands over those that the file itself carries out. */
  function check(command: Readonly<ICommandInfo>): void {
    const isOneOf = (names: readonly string[]): boolean => names.some((name) => command.id.startsWith(name));
    if (isOneOf(REFUSED_COMMANDS) || (isOneOf(RICH_COMMANDS) && grid.isTyping)) refuse(STRUCTURE_SENTENCE);
    const target = command.params as { readonly subUnitId?: string } | undefined;
    const sheet = target?.subUnitId === undefined ? grid.place.sheet : sheetOf(target.subUnitId);
    if (isOneOf(EDITING_COMMANDS) && grid.model?.sheets[sheet]?.isProtected === true)
      refuse(PROTECTED_SENTENCE);
    const typed = typedInto(command);
    const fault = typed && events.fault({ sheet, ...typed.place }, typed.value);
    if (fault !== undefined) refuse(fault);
    const range = selections.getCurrentLastSelection()?.range;
    if (!range) return;
    const sheetNames = grid.model?.sheets.map(({ name }) => name) ?? [];
    const change = restructuringOf(command, { sheet: grid.place.sheet, range, sheetNames });
    if (!change) return;
    events.restructured(change);
    throw new CanceledError();
  }

  /** Puts numbers, dates and amounts in place of typed texts that mean them. */
  function typedCell(cell: Nullable<ICellData>, place: CellPlace): ICellData | undefined {
    const rich = cell?.p?.body?.dataStream.replace(/\r\n$/, "");
    const text = typeof cell?.v === "string" ? cell.v : rich;
    const formula = cell?.f ? events.typedFormula(cell.f) : undefined;
    if (formula !== undefined) return { ...cell, f: formula };
    if (!cell || text === undefined || cell.f || cell.t === CellValueType.FORCE_STRING) return undefined;
    if (grid.format(place) === "@") return undefined;
    const read = events.typed(text);
    if (!read) return undefined;
    const { value, numberFormat } = read;
    const hasFormat = grid.format(place) !== "General";
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

  commands.beforeCommandExecuted((command, options) => {
    if (options?.["fromFormula"] !== true) check(command);
  });
  service(SheetInterceptorService).writeCellInterceptor.intercept(AFTER_CELL_EDIT, {
    // Before the grid's own reading, which knows English dates only.
    priority: 1000,
    handler: (cell, { subUnitId, row, col }, next) =>
      typedCell(cell, { sheet: sheetOf(subUnitId), row, column: col }) ?? next(cell),
  });
  commands.onCommandExecuted((command, options) => {
    const { reading } = grid;
    if (options?.["fromFormula"] !== true && reading) {
      const change = gridChanges(command, grid.unit, reading);
      if (change) events.changed(change);
    }
    const isTurned = command.id === SetWorksheetActiveOperation.id;
    if (isTurned) events.selected(grid.place);
    if (isTurned || changesSizes(command.id)) {
      // The grid measures its rows and columns anew first.
      setTimeout(resized);
    }
  });
  selections.selectionChanged$.subscribe(() => {
    events.selected(grid.place);
  });
  service(IUndoRedoService).undoRedoStatus$.subscribe(({ undos, redos }) => {
    events.history(undos, redos);
  });
}
