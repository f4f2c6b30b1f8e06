import type { CatalogueFunction } from "../functions/definition";
import type { View } from "./element";
import { canCall, WITHHELD, type FormReading } from "./form-reading";
import { pictureView, type PictureHost } from "./picture-view";
import { piecesView } from "./pieces-view";

/** The picture beside a form. */
export interface FormPicture extends View {
  /** Draws what stands in the fields; nothing where they cannot be used. */
  draw(reading: FormReading, formula: string): void;
}

/** Computes a drawing; an empty one where that fails, since the result says why. */
function drawnOr<Drawing>(nothing: Drawing, draw: () => Drawing): Drawing {
  try {
    return draw();
  } catch {
    return nothing;
  }
}

/** The picture of one piece or of all pieces of a job; undefined for a function that draws nothing. */
export function formPicture(fn: CatalogueFunction, host: PictureHost): FormPicture | undefined {
  const { draw, drawPieces, name } = fn;
  if (draw !== undefined) {
    const view = pictureView(name, host);
    return {
      element: view.element,
      draw: (reading, formula) => {
        const balloons = drawnOr(undefined, () => (canCall(fn, reading) ? draw(reading.values) : []));
        if (balloons === undefined) view.draw([], `${name} seen from the front`, "nothing to draw");
        else view.draw(balloons, `${formula} seen from the front`, `${balloons.length} balloons, to scale`);
      },
    };
  }
  if (drawPieces === undefined) return undefined;
  const view = piecesView(name, host);
  return {
    element: view.element,
    draw: ({ values }) => {
      view.draw(drawnOr([], () => (values.includes(WITHHELD) ? [] : drawPieces(values))));
    },
  };
}
