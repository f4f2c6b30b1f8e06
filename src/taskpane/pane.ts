import { element } from "../ui/element";
import { checkView } from "./check-view";
import { findView } from "./find-view";
import { viewFor, type PaneView } from "./pane-view";
import { pieceView } from "./piece-view";
import type { Preferences } from "./preferences";
import { pricesView } from "./prices-view";
import { settingsView } from "./settings-view";
import { shareView } from "./share-view";
import type { SheetHost } from "./sheet-host";

/** Excel tells of every cell that a recalculation changed; one look after the last is enough. */
const WAIT_AFTER_CHANGE_MS = 500;

/** What the pane lives in. */
export interface PaneSurroundings {
  /** Undefined where the page is not open in Excel. */
  readonly host: SheetHost | undefined;
  readonly preferences: Preferences;
  /** The time, ISO 8601. */
  readonly now: () => string;
}

/** Fills the page with the pane: a navigation and one view at a time. */
export function startPane(root: HTMLElement, { host, preferences, now }: PaneSurroundings): void {
  const find = host === undefined ? findView(host, preferences) : viewFor(host, findView(host, preferences));
  const settings = settingsView(host, preferences);
  const views: readonly PaneView[] =
    host === undefined
      ? [find, settings]
      : [
          find,
          ...[pieceView(host), checkView(host), pricesView(host, now), shareView(host, now)].map((view) =>
            viewFor(host, view),
          ),
          settings,
        ];
  const place = element("div", {});
  const notice = element(
    "p",
    { class: "pane-notice", role: "note", hidden: host !== undefined },
    "This page is not open in Excel: functions can be read and tried, but not put into a sheet.",
  );
  let current: PaneView = find;
  let waiting: ReturnType<typeof setTimeout> | undefined;

  const buttons = views.map((view) => {
    const item = element("button", { type: "button", class: "pane-tab" }, view.label);
    item.addEventListener("click", () => {
      show(view);
    });
    return item;
  });

  function show(view: PaneView): void {
    current = view;
    views.forEach((candidate, index) => {
      if (candidate === view) buttons[index]?.setAttribute("aria-current", "page");
      else buttons[index]?.removeAttribute("aria-current");
    });
    place.replaceChildren(view.element);
    view.shown?.();
  }

  root.replaceChildren(
    element("header", {}, element("h1", { class: "pane-heading" }, "Balloon decor functions")),
    element(
      "nav",
      { class: "pane-nav", "aria-label": "Views" },
      element("ul", {}, ...buttons.map((item) => element("li", {}, item))),
    ),
    element("main", {}, notice, place),
  );
  show(find);
  void host
    ?.watch({
      changed: () => {
        clearTimeout(waiting);
        waiting = setTimeout(() => {
          for (const view of views) view.changed?.();
        }, WAIT_AFTER_CHANGE_MS);
      },
      selected: () => {
        current.selected?.();
      },
    })
    .catch(() => {
      // Without events the views still work; they read the sheet again when they are shown.
    });
}
