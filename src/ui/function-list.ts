import type { CatalogueFunction } from "../functions/definition";
import { shortestWay } from "../functions/shortest-way";
import { disclosure, element, freshId, type View } from "./element";
import { makeSearch } from "./search";

export interface FunctionListHost {
  /** A person chose a function. */
  readonly onOpen: (fn: CatalogueFunction) => void;
}

/** The search view; `focus` puts the cursor into the search box. */
export interface FunctionListView extends View {
  focus(): void;
}

/** A function in the list; `fold` is the group that may hide it. */
interface Option {
  readonly fn: CatalogueFunction;
  readonly row: HTMLElement;
  readonly fold?: HTMLDetailsElement;
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
 * The functions of the shortest way, the others folded by group below, with a box that searches all of them by the words of
 * the job. The cursor stays in the box: arrows move through what is open, Enter opens, Escape empties the box.
 */
export function functionList(
  catalogue: readonly CatalogueFunction[],
  host: FunctionListHost,
): FunctionListView {
  const search = makeSearch(catalogue);
  const boxId = freshId();
  const box = element("input", {
    id: boxId,
    class: "bln-input",
    type: "search",
    role: "combobox",
    autocomplete: "off",
    spellcheck: "false",
    placeholder: "how many for an arch",
    "aria-expanded": "true",
    "aria-autocomplete": "list",
  });
  const list = element("div", { class: "bln-list" });
  const count = element("p", { class: "bln-quiet", role: "status" });
  let options: readonly Option[] = [];
  let active: Option | undefined;

  /** What the arrows move through: not what is folded. */
  const open = (): readonly Option[] => options.filter(({ fold }) => fold === undefined || fold.open);
  const activate = (option: Option | undefined): void => {
    active?.row.setAttribute("aria-selected", "false");
    active = option;
    option?.row.setAttribute("aria-selected", "true");
    option?.row.scrollIntoView({ block: "nearest" });
    if (option === undefined) box.removeAttribute("aria-activedescendant");
    else box.setAttribute("aria-activedescendant", option.row.id);
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

  const listOf = (title: string, functions: readonly CatalogueFunction[], made: Option[]): HTMLElement => {
    const rows = functions.map((fn) => ({ fn, row: optionOf(fn) }));
    made.push(...rows);
    const id = freshId();
    return element("div", { id, role: "listbox", "aria-label": title }, ...rows.map(({ row }) => row));
  };

  const openGroup = (title: string, functions: readonly CatalogueFunction[], made: Option[]): HTMLElement =>
    element(
      "div",
      {},
      element("div", { class: "bln-group-title", "aria-hidden": "true" }, title),
      listOf(title, functions, made),
    );

  const foldedGroup = ({ title, functions }: Section, made: Option[]): HTMLElement => {
    const own: Option[] = [];
    const fold = disclosure(`${title} (${functions.length})`, listOf(title, functions, own));
    fold.addEventListener("toggle", () => {
      if (!fold.open && active !== undefined && fold.contains(active.row)) activate(undefined);
    });
    made.push(...own.map((option) => ({ ...option, fold })));
    return fold;
  };

  const show = (): void => {
    const query = box.value.trim();
    const found = search(query).map(({ fn }) => fn);
    const way = shortestWay(found);
    const made: Option[] = [];
    // Ranked results stand in one list, best first; groups would tear the order apart.
    if (query !== "")
      list.replaceChildren(...(found.length === 0 ? [] : [openGroup("Best first", found, made)]));
    else {
      const rest = found.filter((fn) => !way.includes(fn));
      const folded = sections(rest).map((section) => foldedGroup(section, made));
      const first = way.length === 0 ? [] : [openGroup("The shortest way", way, made)];
      list.replaceChildren(...first, ...folded);
      // The open ones come first for the arrows, wherever they were made.
      made.sort((one, other) => Number(one.fold !== undefined) - Number(other.fold !== undefined));
    }
    options = made;
    active = undefined;
    box.removeAttribute("aria-activedescendant");
    box.setAttribute("aria-expanded", String(made.length > 0));
    const lists = [...list.querySelectorAll("[role=listbox]")].map(({ id }) => id);
    box.setAttribute("aria-controls", lists.join(" "));
    list.hidden = made.length === 0;
    count.textContent =
      made.length === 0
        ? `Nothing found for “${query}”. Try fewer or other words.`
        : `${made.length} functions`;
    if (made.length === 1) count.textContent = "1 function";
    if (query === "" && way.length > 0)
      count.textContent = `${made.length} functions, the ${way.length} of the shortest way first`;
    if (query !== "") activate(made[0]);
  };

  box.addEventListener("input", show);
  box.addEventListener("keydown", (event) => {
    const shown = open();
    const at = active === undefined ? -1 : shown.indexOf(active);
    if (event.key === "ArrowDown") activate(shown[at + 1] ?? shown[0]);
    else if (event.key === "ArrowUp") activate(shown[at - 1] ?? shown.at(-1));
    else if (event.key === "Enter" && !event.isComposing) {
      if (active !== undefined) host.onOpen(active.fn);
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
