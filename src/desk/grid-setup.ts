import "@univerjs/preset-sheets-core/lib/index.css";
import {
  type DependencyIdentifier,
  type ICellData,
  ICommandService,
  type IExecutionOptions,
  type IObjectArrayPrimitiveType,
  LocaleType,
  LogLevel,
  mergeLocales,
  type Nullable,
  Univer,
} from "@univerjs/core";
import { UniverDocsPlugin } from "@univerjs/docs";
import { UniverDocsUIPlugin } from "@univerjs/docs-ui";
import {
  FormulaDataModel,
  IActiveDirtyManagerService,
  UniverFormulaEnginePlugin,
} from "@univerjs/engine-formula";
import { UniverRenderEnginePlugin } from "@univerjs/engine-render";
import enUS from "@univerjs/preset-sheets-core/locales/en-US";
import { UniverSheetsPlugin } from "@univerjs/sheets";
import { CalculationMode, IDescriptionService, UniverSheetsFormulaPlugin } from "@univerjs/sheets-formula";
import { UniverSheetsFormulaUIPlugin } from "@univerjs/sheets-formula-ui";
import { UniverSheetsNumfmtPlugin } from "@univerjs/sheets-numfmt";
import { UniverSheetsNumfmtUIPlugin } from "@univerjs/sheets-numfmt-ui";
import {
  MoveSelectionCommand,
  MoveSelectionEnterAndTabCommand,
  UniverSheetsUIPlugin,
} from "@univerjs/sheets-ui";
import { defaultTheme } from "@univerjs/themes";
import { IClipboardInterfaceService, ThemeSwitcherService, UniverUIPlugin } from "@univerjs/ui";
import { HIDDEN_MENUS } from "./grid-commands";
import { listedName, typedFunctions } from "./grid-functions";
import { prepareDrawing, ThemeSheet } from "./grid-render";
import type { HeldDrawing } from "./held-drawing";
import { PageClipboard } from "./page-clipboard";

/** The grid library with the plugins that a sheet needs; it never computes. */
export function makeUniver(container: HTMLElement, isDark: boolean, drawing: HeldDrawing): Univer {
  prepareDrawing();
  // Before the grid listens, so that it finds all done.
  for (const input of INPUTS) {
    addEventListener(
      input,
      () => {
        drawing.catchUp();
      },
      { capture: true },
    );
  }
  const univer = new Univer({
    theme: defaultTheme,
    darkMode: isDark,
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: mergeLocales(enUS) },
    logLevel: LogLevel.ERROR,
  });
  univer.registerPlugin(UniverDocsPlugin);
  univer.registerPlugin(UniverRenderEnginePlugin);
  univer.registerPlugin(UniverUIPlugin, {
    container,
    header: true,
    toolbar: false,
    headerMenu: false,
    disableAutoFocus: true,
    override: [
      [ThemeSwitcherService, { useClass: ThemeSheet }],
      [IClipboardInterfaceService, { useClass: PageClipboard }],
    ],
  });
  univer.registerPlugin(UniverDocsUIPlugin);
  univer.registerPlugin(UniverFormulaEnginePlugin, { notExecuteFormula: true });
  univer.registerPlugin(UniverSheetsPlugin, { notExecuteFormula: true });
  univer.registerPlugin(UniverSheetsUIPlugin, {
    footer: { menus: false },
    disableForceStringAlert: true,
    menu: Object.fromEntries(HIDDEN_MENUS.map((id) => [id, { hidden: true }])),
  });
  univer.registerPlugin(UniverSheetsNumfmtPlugin);
  univer.registerPlugin(UniverSheetsNumfmtUIPlugin);
  univer.registerPlugin(UniverSheetsFormulaPlugin, {
    initialFormulaComputing: CalculationMode.NO_CALCULATION,
  });
  univer.registerPlugin(UniverSheetsFormulaUIPlugin);
  return univer;
}

/**
 * Lets the grid look for formulas that cells share only once there are some: it would go through all cells of all open
 * workbooks at every edit, and files are opened with a formula of its own in every cell.
 */
function quickenEdits(formulas: FormulaDataModel): void {
  const sharing = new Set<string>();
  const update = formulas.updateFormulaData.bind(formulas);
  formulas.updateFormulaData = (unit, sheet, cells) => {
    const isShared = Object.values(cells).some((row: IObjectArrayPrimitiveType<Nullable<ICellData>>) =>
      Object.values(row).some((cell) => (cell?.si ?? "") !== ""),
    );
    if (isShared) sharing.add(unit);
    return sharing.has(unit) ? update(unit, sheet, cells) : {};
  };
}

/** Keeps the grid from starting a computation of its own after every edit: nothing comes of it but one more drawing. */
function leaveComputing(edits: IActiveDirtyManagerService): void {
  edits.get = () => undefined;
}

/** The grid's commands that select the next cell once a cell is written. */
const MOVES: ReadonlySet<string> = new Set([MoveSelectionEnterAndTabCommand.id, MoveSelectionCommand.id]);

/** What a person does next; it happens where the selection has come to. */
const INPUTS = ["keydown", "beforeinput", "compositionstart", "pointerdown", "click", "copy", "cut", "paste"];

/**
 * Draws what a price changes before the selection moves on from it, which takes the grid as long as the drawing. Whatever a
 * person does meanwhile finds it moved.
 */
function moveAfterDrawing(commands: ICommandService, drawing: HeldDrawing): void {
  const execute = commands.executeCommand.bind(commands) as ICommandService["executeCommand"];
  commands.executeCommand = <P extends object, R>(
    id: string,
    params?: P,
    options?: IExecutionOptions,
  ): Promise<R> => {
    if (!MOVES.has(id)) return execute<P, R>(id, params, options);
    return new Promise((resolve) => {
      drawing.after(() => {
        resolve(execute<P, R>(id, params, options));
      });
    });
  };
}

/** Lists our functions while a formula is typed. */
function describeFunctions(descriptions: IDescriptionService): void {
  descriptions.registerDescriptions(typedFunctions());
  const { getFunctionInfo, getSearchListByNameFirstLetter: begin } = descriptions;
  descriptions.getFunctionInfo = (name) => getFunctionInfo.call(descriptions, listedName(name));
  descriptions.getSearchListByNameFirstLetter = (text) => begin.call(descriptions, listedName(text));
}

/** Lets the services of the grid library do what a sheet of ours needs; they are there once a workbook is. */
export function setServices(service: <T>(token: DependencyIdentifier<T>) => T, drawing: HeldDrawing): void {
  moveAfterDrawing(service(ICommandService), drawing);
  describeFunctions(service(IDescriptionService));
  quickenEdits(service(FormulaDataModel));
  leaveComputing(service(IActiveDirtyManagerService));
}
