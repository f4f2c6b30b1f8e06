import type { CatalogueFunction } from "../functions/define";
import { element, freshId, type View } from "./element";
import { makeSearch } from "./search";

export interface FunctionListHost {
  /** A person chose a function. */
  readonly onOpen: (fn: CatalogueFunction) => void;
}

/** The search view; `focus` puts the cursor into the search box. */
export interface FunctionListView extends View {
  focus(): void;
}

interface Section {
  readonly title: string;
  readonly functions: readonly CatalogueFunction[];
}

function sections(functions: readonly CatalogueFunction[]): readonly Section[] {
  const categories = [...new Set(functions.map((fn) => fn.category))];
  return categories.map((title) => ({ title, functions: functions.filter((fn) => fn.category === title) }));
}

/**
 * All functions, grouped, with a box that searches them by the words of the job. The cursor stays in the box: arrows move
 * through the list, Enter opens, Escape empties the box.
 */
export function functionList(
  catalogue: readonly CatalogueFunction[],
  host: FunctionListHost,
): FunctionListView {
  const search = makeSearch(catalogue);
  const boxId = freshId();
  const listId = freshId();
  const box = element("input", {
    id: boxId,
    class: "bln-input",
    type: "search",
    role: "combobox",
    autocomplete: "off",
    spellcheck: "false",
    placeholder: "how many for an arch",
    "aria-controls": listId,
    "aria-expanded": "true",
    "aria-autocomplete": "list",
  });
  const list = element("div", { id: listId, class: "bln-list", role: "listbox", "aria-label": "Functions" });
  const count = element("p", { class: "bln-quiet", role: "status" });
  let options: readonly { readonly fn: CatalogueFunction; readonly row: HTMLElement }[] = [];
  let active = -1;

  const activate = (index: number): void => {
    options[active]?.row.setAttribute("aria-selected", "false");
    active = index;
    const row = options[active]?.row;
    row?.setAttribute("aria-selected", "true");
    row?.scrollIntoView({ block: "nearest" });
    if (row === undefined) box.removeAttribute("aria-activedescendant");
    else box.setAttribute("aria-activedescendant", row.id);
  };

  const optionOf = (fn: CatalogueFunction): HTMLElement => {
    const row = element(
      "div",
      { id: freshId(), class: "bln-option", role: "option", "aria-selected": "false" },
      element("span", { class: "bln-name" }, fn.name),
      element("span", { class: "bln-option-text" }, fn.text),
    );
    row.addEventListener("click", () => {
      host.onOpen(fn);
    });
    return row;
  };

  const show = (): void => {
    const query = box.value.trim();
    const found = search(query).map(({ fn }) => fn);
    // Ranked results stand in one list, best first; groups would tear the order apart.
    const groups = query === "" ? sections(found) : [{ title: "Best first", functions: found }];
    const made: { fn: CatalogueFunction; row: HTMLElement }[] = [];
    list.replaceChildren(
      ...groups
        .filter(({ functions }) => functions.length > 0)
        .map(({ title, functions }) => {
          const headingId = freshId();
          const rows = functions.map((fn) => ({ fn, row: optionOf(fn) }));
          made.push(...rows);
          return element(
            "div",
            { role: "group", "aria-labelledby": headingId },
            element("div", { id: headingId, class: "bln-group-title", role: "presentation" }, title),
            ...rows.map(({ row }) => row),
          );
        }),
    );
    options = made;
    active = -1;
    box.removeAttribute("aria-activedescendant");
    box.setAttribute("aria-expanded", String(made.length > 0));
    list.hidden = made.length === 0;
    count.textContent =
      made.length === 0
        ? `Nothing found for “${query}”. Try fewer or other words.`
        : `${made.length} functions`;
    if (made.length === 1) count.textContent = "1 function";
    if (query !== "" && made.length > 0) activate(0);
  };

  box.addEventListener("input", show);
  box.addEventListener("keydown", (event) => {
    const last = options.length - 1;
    if (event.key === "ArrowDown") activate(active >= last ? 0 : active + 1);
    else if (event.key === "ArrowUp") activate(active <= 0 ? last : active - 1);
    else if (event.key === "Enter" && !event.isComposing) {
      const chosen = options[active];
      if (chosen !== undefined) host.onOpen(chosen.fn);
    } else if (event.key === "Escape") {
      box.value = "";
      show();
    } else return;
    event.preventDefault();
  });
  show();
  return {
    element: element(
      "section",
      { class: "bln-view" },
      element("label", { class: "bln-label", for: boxId }, "What do you need to know?"),
      box,
      count,
      list,
    ),
    focus: () => {
      box.focus();
    },
  };
}
