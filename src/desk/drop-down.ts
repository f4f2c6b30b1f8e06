import { element, freshId, type View } from "../ui/element";
import type { Choice } from "./cell-rules";
import type { Box } from "./grid-boxes";

/** What a drop-down needs of the page. */
export interface DropDownHost {
  /** The choices for the selected cell, which may have to be computed first. */
  choices(): readonly Choice[] | Promise<readonly Choice[] | undefined> | undefined;
  /** What the selected cell shows. */
  current(): string;
  /** Where the selected cell is drawn. */
  box(): Box | undefined;
  choose(choice: Choice): void;
  /** Asks what the column of the selected heading shows. */
  filter(): void;
  /** The list was left without a choice. */
  left(): void;
}

/** The arrow beside a cell that has a list, and the list. */
export interface DropDown extends View {
  /** Shows the arrow beside the selected cell, for a list or for the filter of its column, or takes it away. */
  arrow(kind: "list" | "filter" | undefined): void;
  /** Does what the arrow does; false where the selected cell has none. */
  open(): boolean;
  /** The cell came to stand elsewhere. */
  moved(): void;
}

const LIST_LABEL = "Choose from the list (Alt+Down)";
const FILTER_LABEL = "Filter by this column (Alt+Down)";
const ARROW_WIDTH = 20;
const LEAST_WIDTH = 120;
/** What the list leaves free of the window's edges. */
const EDGE = 8;

/** A list box as the ARIA authoring practices describe it: arrows, Home and End move, letters look for their entry. */
export function makeDropDown(host: DropDownHost): DropDown {
  const list = element("ul", {
    id: freshId(),
    class: "desk-choices",
    role: "listbox",
    tabindex: 0,
    hidden: true,
    "aria-label": "Choices for the selected cell",
  });
  const arrow = element("button", {
    type: "button",
    class: "desk-arrow",
    hidden: true,
    tabindex: -1,
    "aria-label": LIST_LABEL,
    "aria-haspopup": "listbox",
    "aria-expanded": "false",
    "aria-controls": list.id,
  });
  let shown: readonly Choice[] = [];
  let active = 0;
  let isFilter = false;
  /** Counts the cells that were selected, so that a list that comes late is not shown beside another one. */
  let selections = 0;
  let typed = { text: "", time: 0 };

  function close(): void {
    list.hidden = true;
    arrow.setAttribute("aria-expanded", "false");
  }

  function activate(index: number): void {
    active = Math.max(0, Math.min(index, shown.length - 1));
    for (const [at, option] of [...list.children].entries()) {
      option.setAttribute("aria-selected", String(at === active));
      if (at !== active) continue;
      list.setAttribute("aria-activedescendant", option.id);
      option.scrollIntoView({ block: "nearest" });
    }
  }

  function choose(index: number): void {
    const choice = shown[index];
    close();
    if (choice) host.choose(choice);
  }

  function place(): void {
    const box = arrow.hidden ? undefined : host.box();
    arrow.style.visibility = box ? "visible" : "hidden";
    if (!box) {
      close();
      return;
    }
    // Beside a cell with a list, as in Excel; on the mark of a filter, which is inside its heading.
    const beside = box.left + box.width - (isFilter ? arrow.offsetWidth : 0);
    const left = Math.min(beside, innerWidth - arrow.offsetWidth);
    arrow.style.left = `${String(left)}px`;
    const height = Math.min(box.height, isFilter ? 20 : 28);
    arrow.style.top = `${String(isFilter ? box.top + box.height - height : box.top)}px`;
    arrow.style.height = `${String(height)}px`;
    const below = innerHeight - (box.top + box.height) - EDGE;
    const above = box.top - EDGE;
    const isBelow = below >= above || below > 160;
    list.style.minWidth = `${String(Math.max(LEAST_WIDTH, box.width + ARROW_WIDTH))}px`;
    list.style.maxHeight = `${String(Math.min(320, isBelow ? below : above))}px`;
    list.style.top = isBelow ? `${String(box.top + box.height)}px` : "auto";
    list.style.bottom = isBelow ? "auto" : `${String(innerHeight - box.top)}px`;
    list.style.left = `${String(Math.max(EDGE, Math.min(box.left, innerWidth - EDGE - list.offsetWidth)))}px`;
  }

  function open(): boolean {
    if (!arrow.hidden && isFilter) {
      host.filter();
      return true;
    }
    const choices = arrow.hidden ? undefined : host.choices();
    if (choices === undefined) return false;
    if (!(choices instanceof Promise)) return show(choices);
    const cell = selections;
    void choices.then((computed) => {
      if (computed && cell === selections) show(computed);
    });
    return true;
  }

  function show(choices: readonly Choice[]): boolean {
    if (choices.length === 0) return false;
    shown = choices;
    list.replaceChildren(
      ...choices.map(({ text }, index) => {
        const option = element("li", { id: freshId(), role: "option" }, text);
        option.addEventListener("click", () => {
          choose(index);
        });
        return option;
      }),
    );
    list.hidden = false;
    arrow.setAttribute("aria-expanded", "true");
    place();
    activate(choices.findIndex(({ text }) => text === host.current()));
    list.focus();
    return true;
  }

  arrow.addEventListener("click", () => {
    if (list.hidden) open();
    else close();
  });
  list.addEventListener("focusout", close);
  list.addEventListener("keydown", (event) => {
    const last = shown.length - 1;
    const to = { ArrowDown: active + 1, ArrowUp: active - 1, Home: 0, End: last }[event.key];
    const isWord = event.key.length === 1 && !event.ctrlKey && !event.metaKey;
    if (to !== undefined) activate(to);
    else if (event.key === "Enter") choose(active);
    else if (event.key === "Escape" || event.key === "Tab") {
      close();
      host.left();
    } else if (isWord) {
      const isLate = event.timeStamp - typed.time > 800;
      typed = { text: (isLate ? "" : typed.text) + event.key.toLowerCase(), time: event.timeStamp };
      const found = shown.findIndex(({ text }) => text.toLowerCase().startsWith(typed.text));
      if (found >= 0) activate(found);
    } else return;
    event.preventDefault();
    event.stopPropagation();
  });
  return {
    element: element("div", { class: "desk-drop-down" }, arrow, list),
    arrow(kind) {
      selections++;
      arrow.hidden = kind === undefined;
      isFilter = kind === "filter";
      arrow.setAttribute("aria-label", isFilter ? FILTER_LABEL : LIST_LABEL);
      arrow.setAttribute("aria-haspopup", isFilter ? "dialog" : "listbox");
      close();
      place();
    },
    open,
    moved: place,
  };
}
