import { disclosure, element, type View } from "./element";
import type { Field } from "./field";

/** The optional fields of a form. */
export interface OptionalFields extends View {
  /** Takes the filled ones once `unfold` was called. */
  readonly openPart: HTMLElement;
  /** What is filled stands in the open, the rest is folded away. */
  unfold(): void;
  /** Opens the fold where the field lies in it. */
  reveal(field: Field): void;
  /** Opens the fold where any field is filled, closes it where none is. */
  openFilled(): void;
}

// A form with more optional fields than this folds them, so that the result stays in sight.
const MOST_OPEN_OPTIONAL = 2;

const isFilled = (field: Field): boolean => field.read().kind !== "omitted";
const titleOf = (fields: readonly Field[]): string => `${fields.length} more, all optional`;

/** Lays out the optional fields of a form. */
export function optionalFields(fields: readonly Field[]): OptionalFields {
  const openPart = element("div", { class: "bln-form" });
  const elements = fields.map((field) => field.element);
  if (fields.length <= MOST_OPEN_OPTIONAL) {
    const nothing = (): void => undefined;
    const part = element("div", { class: "bln-form" }, ...elements);
    return { element: part, openPart, unfold: nothing, reveal: nothing, openFilled: nothing };
  }
  const fold = disclosure(titleOf(fields));
  const inside = fold.lastElementChild;
  inside?.append(...elements);
  return {
    element: fold,
    openPart,
    unfold: () => {
      const filled = fields.filter(isFilled);
      const rest = fields.filter((field) => !filled.includes(field));
      openPart.replaceChildren(...filled.map((field) => field.element));
      inside?.replaceChildren(...rest.map((field) => field.element));
      fold.hidden = rest.length === 0;
      const title = fold.querySelector("summary");
      if (title !== null) title.textContent = titleOf(rest);
    },
    reveal: (field) => {
      if (fold.contains(field.element)) fold.open = true;
    },
    openFilled: () => {
      fold.open = fields.some(isFilled);
    },
  };
}
