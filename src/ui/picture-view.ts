import type { DrawnBalloon } from "../functions/definition";
import { button, element, freshId, type View } from "./element";
import { pictureElement, pictureSvg, PLAIN_COLOURS, type PictureOptions } from "./picture";
import { messageOf } from "./message-of";

/** Something a host can do with a picture, shown as a button under it. */
export interface PictureAction {
  readonly label: string;
  /** `svg` is the text of an SVG file; a text given back is shown to the person. */
  readonly run: (svg: string, name: string) => Promise<string | undefined> | string | undefined;
}

export interface PictureHost {
  /** Colours to begin with, `#rrggbb`. */
  readonly colours?: readonly string[];
  readonly actions?: readonly PictureAction[];
}

/** A picture that follows what is drawn in it. */
export interface PictureView extends View {
  draw(balloons: readonly DrawnBalloon[], title: string, description: string): void;
}

const MOST_COLOURS = 8;
const SAVED_WIDTH = 960;
const NARROWEST = 260;

/** A front view with its colours to choose and the host's buttons. */
export function pictureView(name: string, host: PictureHost): PictureView {
  let colours = [...(host.colours ?? PLAIN_COLOURS)];
  let order: NonNullable<PictureOptions["order"]> = "balloons";
  let shown: {
    readonly balloons: readonly DrawnBalloon[];
    readonly title: string;
    readonly description: string;
  } = {
    balloons: [],
    title: name,
    description: "",
  };
  const frame = element("div", { class: "bln-picture" });
  const wells = element("div", { class: "bln-wells", role: "group", "aria-label": "Colours" });
  const status = element("p", { class: "bln-quiet", role: "status" });

  const drawn = (width: number): string => {
    const { balloons, title, description } = shown;
    return pictureSvg(balloons, { colours, order, title, description, width });
  };
  // Drawn at the width it is shown in, so that its words stay readable in a narrow pane.
  const paint = (): void => {
    const width = Math.max(NARROWEST, frame.clientWidth || SAVED_WIDTH);
    frame.replaceChildren(pictureElement(drawn(width)));
  };
  const well = (colour: string, index: number): HTMLElement => {
    const input = element("input", {
      type: "color",
      class: "bln-well",
      "aria-label": `Colour ${index + 1}`,
      value: colour,
    });
    input.addEventListener("input", () => {
      colours[index] = input.value;
      paint();
    });
    return input;
  };
  const refill = (next: string[]): void => {
    colours = next;
    wells.replaceChildren(...colours.map(well));
    paint();
  };

  const orderId = freshId();
  const orders = element(
    "select",
    { id: orderId, class: "bln-input" },
    element("option", { value: "balloons" }, "in turn, balloon by balloon"),
    element("option", { value: "rows" }, "in turn, row by row"),
  );
  orders.addEventListener("change", () => {
    order = orders.value === "rows" ? "rows" : "balloons";
    paint();
  });
  const run = async (action: PictureAction): Promise<void> => {
    try {
      status.textContent = (await action.run(drawn(SAVED_WIDTH), name)) ?? "";
    } catch (error) {
      status.textContent = messageOf(error);
    }
  };
  refill(colours);
  return {
    element: element(
      "div",
      { class: "bln-picture-view" },
      frame,
      element(
        "div",
        { class: "bln-row" },
        wells,
        button("Add a colour", "plain", () => {
          if (colours.length < MOST_COLOURS)
            refill([...colours, PLAIN_COLOURS[colours.length % PLAIN_COLOURS.length] ?? "#888888"]);
        }),
        button("Remove the last", "plain", () => {
          if (colours.length > 1) refill(colours.slice(0, -1));
        }),
      ),
      element(
        "div",
        { class: "bln-field" },
        element("label", { class: "bln-label", for: orderId }, "Colours come"),
        orders,
      ),
      element(
        "div",
        { class: "bln-row" },
        ...(host.actions ?? []).map((action) => button(action.label, "plain", () => void run(action))),
      ),
      status,
    ),
    draw: (balloons, title, description) => {
      shown = { balloons, title, description };
      paint();
    },
  };
}
