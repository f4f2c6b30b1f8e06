type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

/** What every view gives its host: an element to put somewhere. */
export interface View {
  readonly element: HTMLElement;
}

/** An element with attributes and children; `true` sets an empty attribute, `false` and undefined leave it out. */
export function element<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[Tag] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) continue;
    made.setAttribute(name, value === true ? "" : String(value));
  }
  made.append(...children);
  return made;
}

let given = 0;

/** An id that no other element of the page has. */
export function freshId(): string {
  given += 1;
  return `bln-${given}`;
}

/** A button that is never a form's submit. */
export function button(label: string, kind: "primary" | "plain", onClick: () => void): HTMLButtonElement {
  const made = element("button", { type: "button", class: `bln-button bln-button-${kind}` }, label);
  made.addEventListener("click", onClick);
  return made;
}

/** A part of a page that is folded until it is asked for. */
export function disclosure(title: string, ...children: readonly (Node | string)[]): HTMLDetailsElement {
  return element(
    "details",
    { class: "bln-disclosure" },
    element("summary", {}, title),
    element("div", { class: "bln-disclosure-body" }, ...children),
  );
}
