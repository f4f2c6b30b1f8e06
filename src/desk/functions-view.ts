import { catalogue } from "../functions/catalogue";
import type { CatalogueFunction } from "../functions/definition";
import { EXCEL_STYLE, excelStyle } from "../functions/formula-style";
import { element, type View } from "../ui/element";
import { functionForm, type FormHost, type FunctionForm } from "../ui/function-form";
import { functionList } from "../ui/function-list";
import { SAVE_ACTIONS } from "../ui/picture-files";

/** What the sheet beside the panel gives to a form. */
export type FunctionsHost = Pick<
  Required<FormHost>,
  "resolve" | "pickReference" | "onInsert" | "findTables"
> & {
  /** The reader's decimal mark. */
  readonly decimal: () => string;
};

/** Finding a function, filling its form, drawing its piece. */
export interface FunctionsView extends View {
  /** The sheet changed: what the form reads from it may have too. */
  refresh(): void;
  focus(): void;
}

/** The list of functions and, once one is chosen, its form. */
export function makeFunctionsView(host: FunctionsHost): FunctionsView {
  const root = element("div", { class: "desk-functions" });
  let form: FunctionForm | undefined;
  const list = functionList(catalogue, { onOpen: open });

  function open(fn: CatalogueFunction): void {
    form = functionForm(fn, {
      ...host,
      style: excelStyle(host.decimal()),
      insertStyle: EXCEL_STYLE,
      onBack: back,
      picture: { actions: SAVE_ACTIONS },
    });
    root.replaceChildren(form.element);
    root.scrollTop = 0;
    form.focus();
  }

  function back(): void {
    form = undefined;
    root.replaceChildren(list.element);
    list.focus();
  }

  root.append(list.element);
  return {
    element: root,
    refresh: () => void form?.refresh(),
    focus: () => {
      (form ?? list).focus();
    },
  };
}
