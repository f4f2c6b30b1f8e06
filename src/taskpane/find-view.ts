import { labelOf, type SheetCell } from "../formula/scope";
import { catalogue } from "../functions/catalogue";
import type { CatalogueFunction } from "../functions/definition";
import { EXCEL_STYLE, excelStyle } from "../functions/formula-style";
import { button, element } from "../ui/element";
import { functionForm, type FormHost, type FunctionForm } from "../ui/function-form";
import { functionList } from "../ui/function-list";
import { contains } from "../formula/address";
import { SAVE_ACTIONS } from "../ui/picture-files";
import { areaOf, lastingReference } from "../formula/resolve";
import { fillPanel } from "./fill-panel";
import { fillFault } from "./fill-column";
import type { PaneView } from "./pane-view";
import { readReferences } from "./piece-pictures";
import type { Preferences } from "./preferences";
import { findTables } from "./found-tables";
import type { Outline, SheetHost } from "./sheet-host";
import { withNulls } from "./workbook-check";

/** The first cell of the selection. */
export async function selectedCell(host: SheetHost): Promise<SheetCell> {
  const { sheet, range } = await host.selection();
  return { sheet, row: range.firstRow, column: range.firstColumn };
}

/** The selection as a reference that grows with its table. */
export async function selectedReference(host: SheetHost): Promise<string> {
  const [outline, area] = await Promise.all([host.outline(), host.selection()]);
  return lastingReference(outline, area);
}

/** Puts a formula into the selected cell; one that is filled is only replaced when asked a second time. */
function makeInsert(host: SheetHost, fn: CatalogueFunction): (formula: string) => Promise<string> {
  let asked = "";
  return async (formula) => {
    const cell = await selectedCell(host);
    const label = labelOf(cell);
    const [outline, [before]] = await Promise.all([host.outline(), host.read([areaOf(cell)])]);
    const isInTable = outline.tables.some(
      ({ sheet, range }) => sheet === cell.sheet && contains(range, cell.row, cell.column),
    );
    if (isInTable && fillFault(fn) !== undefined) {
      return `${label} lies in a table, where a result of several cells has no room: select a cell outside`;
    }
    const content = before?.formulas[0]?.[0] ?? "";
    const question = `${label}\n${formula}\n${content}`;
    if (content !== "" && content !== formula && asked !== question) {
      asked = question;
      return `${label} holds ${content}: press again to replace it`;
    }
    asked = "";
    await host.enter([{ ...cell, formula }]);
    const [after] = await host.read([areaOf(cell)]);
    return after?.values[0]?.[0] === formula
      ? `${label} is formatted as text: give it the format General, then press again`
      : `Put in ${label}`;
  };
}

const HINTS = {
  metres: 'Bare lengths are metres, balloon sizes inches; "6 ft" or "28 cm" are read too.',
  feet: 'Type lengths as "6 ft" or "6 ft 6 in"; a bare length is read as metres, a bare balloon size as inches.',
} as const;

/** Find a function by the words of the job, fill it in with checks, put it into a cell or down a column. */
export function findView(host: SheetHost | undefined, preferences: Preferences): PaneView {
  const root = element("div", { class: "pane-view" });
  let form: FunctionForm | undefined;
  let outline: Promise<Outline> | undefined;
  let style = EXCEL_STYLE;
  void host
    ?.decimalMark()
    .then((mark) => {
      if (mark !== undefined) style = excelStyle(mark);
    })
    .catch(() => undefined);

  const list = functionList(catalogue, {
    onOpen: (fn) => {
      open(fn);
    },
  });

  const hostFor = (fn: CatalogueFunction): FormHost => {
    const onBack = (): void => {
      form = undefined;
      root.replaceChildren(list.element);
      list.focus();
    };
    if (host === undefined) return { onBack };
    return {
      onBack,
      resolve: async (reference) => {
        outline ??= host.outline();
        const [known, at] = await Promise.all([outline, selectedCell(host)]);
        const rows = (await readReferences(host, known, [reference], at))(reference);
        return rows && withNulls(rows);
      },
      pickReference: () => selectedReference(host),
      onInsert: makeInsert(host, fn),
      findTables: async () => {
        const [known, at] = await Promise.all([host.outline(), selectedCell(host)]);
        return findTables(host, known, at);
      },
      picture: { actions: SAVE_ACTIONS },
      insertLabel: "Put in the selected cell",
      style,
      insertStyle: EXCEL_STYLE,
    };
  };

  function open(fn: CatalogueFunction): void {
    const opened = functionForm(fn, hostFor(fn));
    form = opened;
    const hint = element("p", { class: "pane-hint" }, HINTS[preferences.lengthWords()]);
    const extras =
      host === undefined
        ? []
        : [
            fillPanel(
              host,
              fn,
              () => opened.formula(),
              () => style.decimal,
            ).element,
          ];
    const top = button("Back to the top", "plain", () => {
      opened.focus();
    });
    root.replaceChildren(hint, opened.element, ...extras, element("div", { class: "pane-foot" }, top));
    opened.focus();
  }

  root.append(list.element);
  return {
    label: "Find",
    needs: "1.9",
    element: root,
    changed: () => {
      outline = undefined;
      void form?.refresh();
    },
  };
}
