import type { IStyleData } from "@univerjs/core";
import { BooleanNumber, BorderStyleTypes, HorizontalAlign, WrapStrategy } from "@univerjs/core";
import type { CellRange } from "../formula/address";
import { element, type View } from "../ui/element";
import { makeFontTools } from "./font-tools";
import type { Grid } from "./grid";
import { inkAndFill } from "./grid-style";
import { command, menu } from "./menu";

/** What the tools need beyond the grid. */
export interface ToolActions {
  sort(isAscending: boolean): void;
  /** Shows the rows of the list around the selected cell that show the same in its column, or all of them. */
  filter(isSet: boolean): void;
  /** Asks which entries of the selected cell's column stay in sight. */
  choose(): void;
  find(): void;
  /** The reader's language for numbers and dates. */
  readonly language: string;
  speak(language: string): void;
}

const NUMBER_FORMATS: readonly (readonly [label: string, pattern: string])[] = [
  ["General", "General"],
  ["1,234", "#,##0"],
  ["1,234.50", "#,##0.00"],
  ["€ 1,234.50", '"€" #,##0.00'],
  ["£ 1,234.50", '"£" #,##0.00'],
  ["$ 1,234.50", '"$" #,##0.00'],
  ["12 %", "0%"],
  ["12.5 %", "0.0%"],
  ["2027-06-19", "yyyy-mm-dd"],
  ["19/06/2027", "dd/mm/yyyy"],
  ["06/19/2027", "mm/dd/yyyy"],
  ["18:30", "h:mm"],
  ["19/06/2027 18:30", "dd/mm/yyyy h:mm"],
  ["Text", "@"],
];
const LANGUAGES = [
  "en-US",
  "en-GB",
  "de-DE",
  "de-CH",
  "fr-FR",
  "es-ES",
  "it-IT",
  "nl-NL",
  "pl-PL",
  "pt-BR",
  "sv-SE",
];

type Edges = "none" | "all" | "outer" | "bottom";

function borders(edges: Edges): (row: number, column: number, range: CellRange) => IStyleData {
  const line = { s: BorderStyleTypes.THIN, cl: { rgb: "#000000" } };
  return (row, column, range) => {
    const isAt = {
      t: edges === "all" || (edges === "outer" && row === range.firstRow),
      b: edges === "all" || ((edges === "outer" || edges === "bottom") && row === range.lastRow),
      l: edges === "all" || (edges === "outer" && column === range.firstColumn),
      r: edges === "all" || (edges === "outer" && column === range.lastColumn),
    };
    const sides = Object.entries(isAt).map(([side, isDrawn]) => [side, isDrawn ? line : null] as const);
    // Lines inside stay where only the frame or the foot is asked for.
    const kept = sides.filter(([, side]) => side !== null || edges === "none");
    return { bd: Object.fromEntries(kept) } as IStyleData;
  };
}

/** What the menus are made of: commands on what is selected in the grid. */
interface Commands {
  readonly grid: Grid;
  dress(style: object): void;
  /** A command of the grid with parameters of its own. */
  run(label: string, hint: string, id: string): HTMLButtonElement;
  /** A command on all rows or columns of the selection. */
  onRange(id: string, label: string, hint: string, axis: "row" | "col"): HTMLButtonElement;
}

function commandsOn(grid: Grid): Commands {
  const runOn = (id: string, params: object): void => {
    grid.run(id, params);
    grid.focus();
  };
  return {
    grid,
    dress: (style) => {
      grid.dress(style as IStyleData);
      grid.focus();
    },
    run: (label, hint, id) =>
      command(label, hint, () => {
        runOn(id, {});
      }),
    onRange: (id, label, hint, axis) =>
      command(label, hint, () => {
        const { range } = grid.selection;
        const whole = {
          startRow: range.firstRow,
          endRow: range.lastRow,
          startColumn: range.firstColumn,
          endColumn: range.lastColumn,
        };
        runOn(`sheet.command.${id}`, { range: whole, axis });
      }),
  };
}

function toggleTool(
  { grid, dress }: Commands,
  label: string,
  hint: string,
  key: "bold" | "italic" | "underline",
): HTMLButtonElement {
  const made = command(label, hint, () => {
    const isSet = grid.look[key] !== true;
    const flag = isSet ? BooleanNumber.TRUE : BooleanNumber.FALSE;
    dress(key === "bold" ? { bl: flag } : key === "italic" ? { it: flag } : { ul: { s: flag } });
  });
  made.setAttribute("aria-label", hint);
  return made;
}

function formatSelect({ dress }: Commands): HTMLElement {
  const format = element(
    "select",
    { "aria-label": "Number format", class: "desk-select" },
    element("option", { value: "", selected: true }, "Number"),
    ...NUMBER_FORMATS.map(([label, value]) => element("option", { value }, label)),
  );
  format.addEventListener("change", () => {
    if (format.value !== "") dress({ n: { pattern: format.value } });
    format.selectedIndex = 0;
  });
  return format;
}

function colourInput(label: string, start: string, apply: (value: string) => void): HTMLElement {
  const input = element("input", { type: "color", value: start, "aria-label": label, title: label });
  input.addEventListener("change", () => {
    apply(input.value);
  });
  return element("label", { class: "desk-color" }, label, input);
}

function coloursMenu({ grid, dress }: Commands): HTMLElement {
  return menu("Colours", [
    colourInput("Fill", "#fff2cc", (value) => {
      dress(inkAndFill(grid.look.fontColor, value));
    }),
    colourInput("Text", "#1f4e79", (value) => {
      dress(inkAndFill(value, grid.look.fill));
    }),
    command("No fill", "Take the fill away", () => {
      dress({ bg: null, cl: grid.look.fontColor === undefined ? null : { rgb: grid.look.fontColor } });
    }),
  ]);
}

function alignMenu({ grid, dress, run }: Commands): HTMLElement {
  const align = (label: string, hint: string, ht: HorizontalAlign): HTMLButtonElement =>
    command(label, hint, () => {
      dress({ ht });
    });
  return menu("Align", [
    align("Left", "To the left", HorizontalAlign.LEFT),
    align("Centre", "In the middle", HorizontalAlign.CENTER),
    align("Right", "To the right", HorizontalAlign.RIGHT),
    command("Wrap text", "Break long texts into lines, or not", () => {
      dress({ tb: grid.look.wrap === true ? WrapStrategy.OVERFLOW : WrapStrategy.WRAP });
    }),
    run("Merge cells", "Make one cell of the selected ones", "sheet.command.add-worksheet-merge-all"),
    run("Split merged cells", "Take merged cells apart", "sheet.command.remove-worksheet-merge"),
  ]);
}

function bordersMenu({ grid }: Commands): HTMLElement {
  return menu(
    "Borders",
    (["none", "all", "outer", "bottom"] as const).map((edges) =>
      command({ none: "None", all: "All", outer: "Around", bottom: "Below" }[edges], "Borders", () => {
        grid.dress(borders(edges));
        grid.focus();
      }),
    ),
  );
}

function rowsMenu({ run, onRange }: Commands): HTMLElement {
  return menu("Rows", [
    onRange("insert-row-by-range", "Insert above", "As many rows as are selected", "row"),
    onRange("remove-row", "Delete", "The selected rows", "row"),
    run("Hide", "The selected rows", "sheet.command.set-rows-hidden"),
    run("Show hidden", "Rows hidden in the selection", "sheet.command.set-selected-rows-visible"),
  ]);
}

function columnsMenu({ run, onRange }: Commands): HTMLElement {
  return menu("Columns", [
    onRange("insert-col-by-range", "Insert on the left", "As many columns as are selected", "col"),
    onRange("remove-col", "Delete", "The selected columns", "col"),
    run("Fit width", "As wide as their contents", "sheet.command.set-col-auto-width"),
    run("Hide", "The selected columns", "sheet.command.set-col-hidden"),
    run("Show hidden", "Columns hidden in the selection", "sheet.command.set-selected-cols-visible"),
  ]);
}

function sheetMenu({ grid, run }: Commands): HTMLElement {
  return menu("Sheet", [
    command("Add", "A new sheet behind this one", () => {
      grid.run("sheet.command.insert-sheet", { index: grid.place.sheet + 1 });
    }),
    run("Copy", "A copy of this sheet", "sheet.command.copy-sheet"),
    run("Hide", "Hide this sheet", "sheet.command.set-worksheet-hidden"),
    run("Delete", "Delete this sheet", "sheet.command.remove-sheet"),
    command("Freeze here", "Keep rows above and columns before the selected cell in sight", () => {
      const { row, column } = grid.place;
      const start = { startRow: row === 0 ? -1 : row, startColumn: column === 0 ? -1 : column };
      grid.run("sheet.command.set-frozen", { ...start, xSplit: column, ySplit: row });
    }),
    run("Unfreeze", "Let everything move", "sheet.command.cancel-frozen"),
  ]);
}

function dataMenu(actions: ToolActions): HTMLElement {
  return menu("Data", [
    command("Sort A to Z", "Sort the selected rows by the column of the selected cell", () => {
      actions.sort(true);
    }),
    command("Sort Z to A", "Sort the selected rows by the column of the selected cell, downwards", () => {
      actions.sort(false);
    }),
    command(
      "Only rows like this",
      "Hide the rows of this list that show something else in this column",
      () => {
        actions.filter(true);
      },
    ),
    command("Filter by entries", "Choose which entries of this column stay in sight", () => {
      actions.choose();
    }),
    command("All rows", "Show the rows of this list that a filter hides", () => {
      actions.filter(false);
    }),
    command("Find and replace", "In this sheet (Ctrl+F)", actions.find),
  ]);
}

function languageSelect(actions: ToolActions): HTMLElement {
  const language = element(
    "select",
    { "aria-label": "Numbers and dates as written in", class: "desk-select" },
    ...[...new Set([actions.language, ...LANGUAGES])].map((tag) =>
      element("option", { value: tag, selected: tag === actions.language }, tag),
    ),
  );
  language.addEventListener("change", () => {
    actions.speak(language.value);
  });
  return language;
}

/** The tools that change how the selected cells look and where rows, columns and sheets stand. */
export function makeTools(grid: Grid, actions: ToolActions): View {
  const commands = commandsOn(grid);
  return {
    element: element(
      "div",
      { class: "desk-tools", role: "group", "aria-label": "Format and structure" },
      formatSelect(commands),
      ...makeFontTools(commands.dress),
      toggleTool(commands, "B", "Bold (Ctrl+B)", "bold"),
      toggleTool(commands, "I", "Italic (Ctrl+I)", "italic"),
      toggleTool(commands, "U", "Underline (Ctrl+U)", "underline"),
      coloursMenu(commands),
      alignMenu(commands),
      bordersMenu(commands),
      rowsMenu(commands),
      columnsMenu(commands),
      sheetMenu(commands),
      dataMenu(actions),
      languageSelect(actions),
    ),
  };
}
