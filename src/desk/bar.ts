import { button, element, freshId, type View } from "../ui/element";

/** What the buttons above the sheet do. */
export interface BarActions {
  open(): void;
  save(): void;
  undo(): void;
  redo(): void;
  partnerCopy(): void;
  putBack(): void;
  togglePanel(): void;
}

/** The bar above the sheet. */
export interface Bar extends View {
  name(name: string, isChanged: boolean): void;
  history(undos: number, redos: number): void;
}

function command(label: string, hint: string, run: () => void): HTMLButtonElement {
  const made = button(label, "plain", run);
  made.title = hint;
  return made;
}

/** A button with commands under it; Escape and a click elsewhere close it. */
function menu(label: string, commands: readonly HTMLButtonElement[]): HTMLElement {
  const id = freshId();
  const list = element("div", { id, class: "desk-menu", hidden: true }, ...commands);
  const opener = element(
    "button",
    { type: "button", class: "bln-button bln-button-plain", "aria-expanded": "false", "aria-controls": id },
    label,
  );
  const toggle = (isOpen: boolean): void => {
    list.hidden = !isOpen;
    opener.setAttribute("aria-expanded", String(isOpen));
  };
  opener.addEventListener("click", () => {
    toggle(list.hidden);
  });
  const root = element("div", { class: "desk-menu-root" }, opener, list);
  root.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    toggle(false);
    opener.focus();
  });
  root.addEventListener("focusout", ({ relatedTarget }) => {
    if (!(relatedTarget instanceof Node && root.contains(relatedTarget))) toggle(false);
  });
  for (const item of commands) {
    item.addEventListener("click", () => {
      toggle(false);
    });
  }
  return root;
}

export function makeBar(root: HTMLElement, actions: BarActions): Bar {
  const title = element("p", { class: "desk-name" });
  const undo = command("\u21b6", "Undo (Ctrl+Z)", actions.undo);
  const redo = command("\u21b7", "Redo (Ctrl+Y)", actions.redo);
  undo.setAttribute("aria-label", "Undo");
  redo.setAttribute("aria-label", "Redo");
  root.append(
    element("h1", { class: "desk-title" }, "Balloon desk"),
    title,
    element(
      "div",
      { class: "desk-commands", role: "group", "aria-label": "Workbook" },
      command("Open", "Open an .xlsx file (Ctrl+O), or drop one on the page", actions.open),
      command("Save", "Save as .xlsx (Ctrl+S)", actions.save),
      undo,
      redo,
      menu("Share", [
        command(
          "Save a copy for a partner",
          "Values instead of our functions, formulas kept on a sheet",
          actions.partnerCopy,
        ),
        command("Put formulas back", "Turn a partner's copy into a working file again", actions.putBack),
      ]),
      command("Panel", "Show or hide the panel (F6 moves to it)", actions.togglePanel),
    ),
  );
  return {
    element: root,
    name(name, isChanged) {
      title.textContent = isChanged ? `${name} (changed)` : name;
      document.title = `${isChanged ? "* " : ""}${name} - Balloon desk`;
    },
    history(undos, redos) {
      undo.disabled = undos === 0;
      redo.disabled = redos === 0;
    },
  };
}
