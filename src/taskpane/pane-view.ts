import { element, type View } from "../ui/element";
import type { ApiVersion, SheetHost } from "./sheet-host";

/** One of the views between which a person moves. */
export interface PaneView extends View {
  /** The word in the navigation. */
  readonly label: string;
  /** What it needs of Excel's interface for add-ins beyond the manifest's requirements. */
  readonly needs?: ApiVersion;
  /** The view has come into sight. */
  readonly shown?: () => void;
  /** Another cell is selected, while the view is in sight. */
  readonly selected?: () => void;
  /** Cells have changed, in sight or not. */
  readonly changed?: () => void;
}

/** Longest list drawn at once: nobody reads more line by line. */
export const MOST_ROWS_SHOWN = 200;

/** The sentence under a list that is cut short. */
export function restSentence(all: number): string {
  return all > MOST_ROWS_SHOWN ? `and ${all - MOST_ROWS_SHOWN} more` : "";
}

/** `1 cell`, `3 cells`. */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? "" : "s"}`;
}

/** The view, or in an Excel that is too old for it one that says so. */
export function viewFor(host: SheetHost, view: PaneView): PaneView {
  const { needs, label } = view;
  if (needs === undefined || host.supports(needs)) return view;
  const sentence =
    `${label} needs ExcelApi ${needs}, which this Excel does not have: update Excel, or open the workbook in Excel on the web. ` +
    "The functions work in cells all the same.";
  return { label, element: element("p", { class: "pane-notice", role: "note" }, sentence) };
}
