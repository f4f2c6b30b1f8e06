import type { DrawnPiece } from "../functions/definition";
import { button, element, freshId, type View } from "./element";
import { eventSvg, eventWords } from "./event-picture";
import { pictureElement } from "./picture";
import type { PictureHost } from "./picture-view";
import { messageOf } from "./message-of";

/** A picture of pieces: all side by side, or the one chosen. */
export interface PiecesView extends View {
  draw(pieces: readonly DrawnPiece[]): void;
  /** The piece chosen, as `pieceLabel` names it; empty for all. */
  chosen(): string;
}

const SAVED_WIDTH = 960;
const NARROWEST = 260;
const ALL = "All pieces side by side";

/** A piece as a list names it: with its event and option where it has them. */
export function pieceLabel({ name, event, option }: DrawnPiece): string {
  const where = [event, option === "" ? "" : `option ${option}`].filter((text) => text !== "");
  return where.length === 0 ? name : `${name} (${where.join(", ")})`;
}

/** The pieces to draw for a choice; all where it names none that is there. */
export function chosenPieces(pieces: readonly DrawnPiece[], choice: string): readonly DrawnPiece[] {
  const one = pieces.filter((piece) => pieceLabel(piece) === choice);
  return one.length === 0 ? pieces : one;
}

/** A front view of the pieces of a job with a choice of the piece and the host's buttons. */
export function piecesView(name: string, host: PictureHost): PiecesView {
  let pieces: readonly DrawnPiece[] = [];
  const frame = element("div", { class: "bln-picture" });
  const status = element("p", { class: "bln-quiet", role: "status" });
  const notes = element("ul", { class: "bln-quiet" });
  const choiceId = freshId();
  const choice = element("select", { id: choiceId, class: "bln-input" });
  const shown = (): readonly DrawnPiece[] => chosenPieces(pieces, choice.value);
  const title = (): string =>
    choice.value === ""
      ? "The pieces side by side, seen from the front"
      : `${choice.value} seen from the front`;
  const drawn = (width: number): string =>
    eventSvg(shown(), { title: title(), description: eventWords(shown()), width });
  const paint = (): void => {
    // Drawn at the width it is shown in, so that its words stay readable in a narrow pane.
    const width = Math.max(NARROWEST, frame.clientWidth || SAVED_WIDTH);
    frame.replaceChildren(pictureElement(drawn(width)));
    const said = shown().flatMap((piece) => piece.notes);
    notes.hidden = said.length === 0;
    notes.replaceChildren(...said.map((note) => element("li", {}, note)));
  };
  choice.addEventListener("change", paint);
  const refill = (): void => {
    const before = choice.value;
    const labels = [...new Set(pieces.map(pieceLabel))];
    choice.replaceChildren(
      element("option", { value: "" }, ALL),
      ...labels.map((label) => element("option", { value: label }, label)),
    );
    choice.value = labels.includes(before) ? before : "";
  };
  const buttons = (host.actions ?? []).map((action) =>
    button(action.label, "plain", () => {
      void (async (): Promise<void> => {
        try {
          const file = choice.value === "" ? name : choice.value;
          status.textContent = (await action.run(drawn(SAVED_WIDTH), file)) ?? "";
        } catch (error) {
          status.textContent = messageOf(error);
        }
      })();
    }),
  );
  refill();
  paint();
  return {
    element: element(
      "div",
      { class: "bln-picture-view" },
      element(
        "div",
        { class: "bln-field" },
        element("label", { class: "bln-label", for: choiceId }, "Show"),
        choice,
      ),
      frame,
      notes,
      element("div", { class: "bln-row" }, ...buttons),
      status,
    ),
    draw: (next) => {
      pieces = next;
      refill();
      paint();
    },
    chosen: () => choice.value,
  };
}
