import type { Grid } from "./grid";
import type { Panel } from "./panel";

/** What keys do on the page. */
export interface KeyActions {
  readonly grid: Grid;
  readonly panel: Panel;
  readonly bar: HTMLElement;
  readonly gridElement: HTMLElement;
  save(): void;
  print(): void;
  open(): void;
  undo(): void;
  redo(): void;
  find(): void;
  /** Opens the list of the selected cell; false where it has none. */
  choose(): boolean;
  paste(html: string, text: string): void;
}

/** A mark that the grid's own copies carry, so that formulas in them follow. */
const OWN_COPY = /data-copy-id=/;

/** Listens for the page's keys before the grid does. */
export function listenForKeys(actions: KeyActions): void {
  const { grid, panel, bar, gridElement } = actions;
  const isInGrid = (): boolean => {
    const { activeElement } = document;
    // The grid's editor waits for keys in an element of its own at the end of the page.
    return (
      activeElement === document.body ||
      gridElement.contains(activeElement) ||
      activeElement?.closest(".univer-app-layout, [data-u-comp]") !== null
    );
  };
  const isInField = (): boolean => {
    const { activeElement } = document;
    return activeElement instanceof HTMLInputElement && !activeElement.closest("[data-u-comp=editor]");
  };
  /** F6 goes round: sheet, panel, bar. */
  const changeSide = (): void => {
    const { activeElement } = document;
    if (panel.element.contains(activeElement)) bar.querySelector("button")?.focus();
    else if (bar.contains(activeElement)) grid.focus();
    else {
      panel.toggle(true);
      panel.focus();
    }
  };
  addEventListener(
    "keydown",
    (event) => {
      if (event.altKey && event.key === "ArrowDown" && isInGrid() && !isInField() && actions.choose()) {
        event.preventDefault();
        event.stopPropagation();
        return;
      }
      const isCommand = event.ctrlKey || event.metaKey;
      const key = `${isCommand ? "Ctrl+" : ""}${isCommand && event.shiftKey ? "Shift+" : ""}${isCommand ? event.key.toLowerCase() : event.key}`;
      const always: Readonly<Record<string, (() => void) | undefined>> = {
        "Ctrl+s": actions.save,
        "Ctrl+o": actions.open,
        "Ctrl+p": actions.print,
        F6: changeSide,
      };
      const inSheet: Readonly<Record<string, (() => void) | undefined>> = {
        "Ctrl+z": actions.undo,
        "Ctrl+y": actions.redo,
        "Ctrl+Shift+z": actions.redo,
        "Ctrl+f": actions.find,
        "Ctrl+h": actions.find,
        "Ctrl+pagedown": () => {
          grid.turn(1);
        },
        "Ctrl+pageup": () => {
          grid.turn(-1);
        },
      };
      const run = always[key] ?? (isInGrid() && !isInField() && !grid.isTyping ? inSheet[key] : undefined);
      if (!run) return;
      event.preventDefault();
      event.stopPropagation();
      run();
    },
    { capture: true },
  );
  // After a click on a sheet's tab the keys belong to the sheet.
  gridElement.addEventListener("click", ({ target }) => {
    if (target instanceof Element && target.closest("[role=tab], [data-id]") && !isInField()) grid.focus();
  });
  addEventListener(
    "paste",
    (event) => {
      if (!isInGrid() || isInField() || grid.isTyping || !event.clipboardData) return;
      const html = event.clipboardData.getData("text/html");
      if (OWN_COPY.test(html)) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      actions.paste(html, event.clipboardData.getData("text/plain"));
    },
    { capture: true },
  );
}
