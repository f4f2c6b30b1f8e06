import type { ICommandInfo, IRange } from "@univerjs/core";
import type { Axis } from "../formula/axis-shift";
import type { Restructuring } from "../workbook/restructure";
import { sheetOf } from "./grid-data";

const sheetCommands = (names: string): readonly string[] =>
  names.split(/\s+/).map((name) => `sheet.command.${name}`);

/** Beginnings of commands that change what only Excel can keep in the file: protection, themes, names, rotation. */
export const REFUSED_COMMANDS = sheetCommands(
  `insert-range add-range delete-range delete-worksheet add-worksheet-protection reset- split-text set-overline
  set-infinite-format set-once-format apply-format-painter change-sheet-protection view-sheet-permission
  set-worksheet-protection set-worksheet-default set-worksheet-right set-worksheet-row-count set-worksheet-column-count
  set-worksheet-range-theme set-tab-color set-defined-name insert-defined-name remove-defined-name set-protection
  set-range-protection set-text-rotation toggle-gridlines set-gridlines-color append-row`,
);

/** Beginnings of commands that would dress a part of the text in a cell while it is typed. */
export const RICH_COMMANDS = sheetCommands(
  `set-range-bold set-range-italic set-range-underline set-range-stroke set-range-font set-range-sub set-range-super
  set-range-text`,
);

export const EDITING_COMMANDS = sheetCommands(
  `set-range-values auto-fill clear-selection-content clear-selection-all move-range paste set-style`,
);

/** Commands in the grid's menus that would only be refused. */
export const HIDDEN_MENUS = [
  "sheet.menu.cell-insert",
  "sheet.menu.delete",
  "sheet.contextMenu.permission",
  "sheet.contextMenu.text-to-number",
  ...sheetCommands(
    `paste-besides-border set-tab-color add-range-protection-from-sheet-bar delete-worksheet-protection-from-sheet-bar
    change-sheet-protection-from-sheet-bar view-sheet-permission-from-sheet-bar`,
  ),
];

/** What the commands for rows, columns, merges and sheets carry. */
interface StructureParams {
  readonly unitId?: string;
  readonly subUnitId?: string;
  readonly range?: IRange;
  readonly ranges?: readonly IRange[];
  readonly selections?: readonly IRange[];
  readonly fromRange?: IRange;
  readonly toRange?: IRange;
  readonly name?: string;
  readonly order?: number;
  readonly index?: number;
}

/** What is selected when a command does not say what it is about. */
export interface Selected {
  readonly sheet: number;
  readonly range: IRange;
  readonly sheetNames: readonly string[];
}

/** The change to the file behind a command of the grid's own menus and headings; undefined for other commands. */
export function restructuringOf(
  command: Readonly<ICommandInfo>,
  selected: Selected,
): Restructuring | undefined {
  const params = (command.params ?? {}) as StructureParams;
  const sheet = params.subUnitId === undefined ? selected.sheet : sheetOf(params.subUnitId);
  const range = params.range ?? params.ranges?.[0] ?? params.selections?.[0] ?? selected.range;
  const shift = (kind: "insert" | "delete", axis: Axis): Restructuring => ({
    kind: "shift",
    sheet,
    shift: { kind, axis, ...spanOf(range, axis) },
  });
  const move = (axis: Axis): Restructuring | undefined => {
    if (params.toRange === undefined) return undefined;
    const { at: to } = spanOf(params.toRange, axis);
    const block = spanOf(params.fromRange ?? range, axis);
    const chosen = spanOf(selected.range, axis);
    const isInChosen = block.at >= chosen.at && block.at < chosen.at + chosen.count;
    return { kind: "shift", sheet, shift: { kind: "move", axis, ...(isInChosen ? chosen : block), to } };
  };
  const name = selected.sheetNames[sheet] ?? "";
  switch (command.id.replace("sheet.command.", "")) {
    case "insert-row-by-range":
      return shift("insert", "row");
    case "insert-col-by-range":
      return shift("insert", "column");
    case "remove-row":
    case "remove-row-by-range":
      return shift("delete", "row");
    case "remove-col":
    case "remove-col-by-range":
      return shift("delete", "column");
    case "move-rows":
      return move("row");
    case "move-cols":
      return move("column");
    case "add-worksheet-merge":
    case "add-worksheet-merge-all":
      return { kind: "merge", sheet, range: rangeOf(range), isMerged: true };
    case "remove-worksheet-merge":
      return { kind: "merge", sheet, range: rangeOf(range), isMerged: false };
    case "insert-sheet":
      return {
        kind: "addSheet",
        name: freeName("Sheet", selected.sheetNames),
        to: params.index ?? selected.sheetNames.length,
      };
    case "copy-sheet":
      return { kind: "copySheet", sheet, name: copyName(name, selected.sheetNames) };
    case "set-worksheet-name":
      return params.name === undefined ? undefined : { kind: "renameSheet", sheet, name: params.name };
    case "set-worksheet-order":
      return params.order === undefined ? undefined : { kind: "moveSheet", sheet, to: params.order };
    case "set-worksheet-hidden":
      return { kind: "showSheet", sheet, isShown: false };
    case "set-worksheet-show":
      return { kind: "showSheet", sheet, isShown: true };
    case "remove-sheet":
      return { kind: "removeSheet", sheet };
    default:
      return undefined;
  }
}

function spanOf(range: IRange, axis: Axis): { readonly at: number; readonly count: number } {
  return axis === "row"
    ? { at: range.startRow, count: range.endRow - range.startRow + 1 }
    : { at: range.startColumn, count: range.endColumn - range.startColumn + 1 };
}

function rangeOf(range: IRange): {
  firstRow: number;
  firstColumn: number;
  lastRow: number;
  lastColumn: number;
} {
  return {
    firstRow: range.startRow,
    firstColumn: range.startColumn,
    lastRow: range.endRow,
    lastColumn: range.endColumn,
  };
}

function freeName(stem: string, names: readonly string[]): string {
  let number = names.length + 1;
  while (names.includes(`${stem}${String(number)}`)) number++;
  return `${stem}${String(number)}`;
}

/** `Offer` gives `Offer (2)`, within the 31 characters that a name may have. */
function copyName(name: string, names: readonly string[]): string {
  const stem = name.replace(/ \(\d+\)$/, "");
  for (let number = 2; ; number++) {
    const ending = ` (${String(number)})`;
    const copy = stem.slice(0, 31 - ending.length) + ending;
    if (!names.includes(copy)) return copy;
  }
}
