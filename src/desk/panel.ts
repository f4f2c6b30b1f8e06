import { element, freshId, type View } from "../ui/element";

/** A page of the panel. */
export interface PanelPage extends View {
  readonly title: string;
}

/** The panel beside the sheet: pages behind tabs. */
export interface Panel extends View {
  show(title: string): void;
  /** A number beside a tab's title; 0 takes it away. */
  count(title: string, number: number): void;
  readonly isOpen: boolean;
  toggle(isOpen?: boolean): void;
  focus(): void;
}

/** Tabs as the ARIA authoring practices describe them: arrows move between them, the chosen one takes the focus. */
export function makePanel(root: HTMLElement, pages: readonly PanelPage[]): Panel {
  const tabs = pages.map((page, index) => {
    const [tabId, bodyId] = [freshId(), freshId()];
    const number = element("span", { class: "desk-count", hidden: true });
    const tab = element(
      "button",
      { type: "button", role: "tab", id: tabId, "aria-controls": bodyId, class: "desk-tab" },
      page.title,
      number,
    );
    const body = element(
      "div",
      { role: "tabpanel", id: bodyId, "aria-labelledby": tabId, class: "desk-page" },
      page.element,
    );
    tab.addEventListener("click", () => {
      choose(index);
    });
    return { page, tab, number, body };
  });
  const row = element(
    "div",
    { class: "desk-tabs", role: "tablist", "aria-label": "Panel" },
    ...tabs.map(({ tab }) => tab),
  );
  row.addEventListener("keydown", (event) => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const now = tabs.findIndex(({ body }) => !body.hidden);
    choose((now + step + tabs.length) % tabs.length);
    tabs.find(({ body }) => !body.hidden)?.tab.focus();
  });

  function choose(chosen: number): void {
    for (const [index, { tab, body }] of tabs.entries()) {
      body.hidden = index !== chosen;
      tab.setAttribute("aria-selected", String(index === chosen));
      tab.tabIndex = index === chosen ? 0 : -1;
    }
  }

  choose(0);
  root.append(row, ...tabs.map(({ body }) => body));
  return {
    element: root,
    show(title) {
      root.hidden = false;
      choose(tabs.findIndex(({ page }) => page.title === title));
    },
    count(title, count) {
      const found = tabs.find(({ page }) => page.title === title);
      if (!found) return;
      found.number.hidden = count === 0;
      found.number.textContent = count === 0 ? "" : ` ${count}`;
    },
    get isOpen() {
      return !root.hidden;
    },
    toggle(isOpen = root.hidden) {
      root.hidden = !isOpen;
    },
    focus() {
      tabs.find(({ body }) => !body.hidden)?.tab.focus();
    },
  };
}
