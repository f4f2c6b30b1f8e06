import type { View } from "../ui/element";

/** One of the views between which a person moves. */
export interface PaneView extends View {
  /** The word in the navigation. */
  readonly label: string;
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
