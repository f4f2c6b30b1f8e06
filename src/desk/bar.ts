import { element, type View } from "../ui/element";
import { command, menu } from "./menu";

/** What the buttons above the sheet do. */
export interface BarActions {
  open(): void;
  save(): void;
  print(): void;
  undo(): void;
  redo(): void;
  partnerCopy(): void;
  putBack(): void;
  togglePanel(): void;
  /** The page about all functions, with formulas as the reader writes them. */
  reference(): string;
}

/** The bar above the sheet. */
export interface Bar extends View {
  name(name: string, isChanged: boolean): void;
  history(canUndo: boolean, canRedo: boolean): void;
}

export function makeBar(root: HTMLElement, actions: BarActions): Bar {
  const title = element("p", { class: "desk-name" });
  const undo = command("\u21b6", "Undo (Ctrl+Z)", actions.undo);
  const redo = command("\u21b7", "Redo (Ctrl+Y)", actions.redo);
  undo.setAttribute("aria-label", "Undo");
  redo.setAttribute("aria-label", "Redo");
  const reference = element(
    "a",
    { class: "bln-button bln-button-plain", href: "reference.html", target: "_blank", rel: "noopener" },
    "Reference",
  );
  reference.addEventListener("click", () => {
    reference.setAttribute("href", actions.reference());
  });
  root.append(
    element("h1", { class: "desk-title" }, "Balloon desk"),
    title,
    element(
      "div",
      { class: "desk-commands", role: "group", "aria-label": "Workbook" },
      command("Open", "Open an .xlsx or .csv file (Ctrl+O), or drop one on the page", actions.open),
      command("Save", "Save as .xlsx (Ctrl+S)", actions.save),
      command("Print", "Print this sheet, or keep it as PDF (Ctrl+P)", actions.print),
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
      reference,
      command("Panel", "Show or hide the panel (F6 moves to it)", actions.togglePanel),
    ),
  );
  return {
    element: root,
    name(name, isChanged) {
      title.textContent = isChanged ? `${name} (changed)` : name;
      document.title = `${isChanged ? "* " : ""}${name} - Balloon desk`;
    },
    history(canUndo, canRedo) {
      undo.disabled = !canUndo;
      redo.disabled = !canRedo;
    },
  };
}
