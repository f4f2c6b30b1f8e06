import { button, element, freshId } from "../ui/element";

/** A button that does one thing. */
export function command(label: string, hint: string, run: () => void): HTMLButtonElement {
  const made = button(label, "plain", run);
  made.title = hint;
  return made;
}

/** A button with commands under it; Escape and a click elsewhere close it, arrows move inside. */
export function menu(label: string, commands: readonly HTMLElement[]): HTMLElement {
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
    if (!isOpen) return;
    // A menu at the window's edge opens to the side where it has room.
    list.classList.toggle("desk-menu-left", opener.getBoundingClientRect().left < innerWidth / 2);
  };
  opener.addEventListener("click", () => {
    toggle(list.hidden);
  });
  const root = element("div", { class: "desk-menu-root" }, opener, list);
  root.addEventListener("keydown", (event) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (event.key === "Escape") {
      toggle(false);
      opener.focus();
    } else if (step !== undefined && !list.hidden && !(event.target instanceof HTMLSelectElement)) {
      event.preventDefault();
      const at = commands.findIndex((item) => item === document.activeElement);
      commands[(at + step + commands.length) % commands.length]?.focus();
    }
  });
  root.addEventListener("focusout", ({ relatedTarget }) => {
    if (!(relatedTarget instanceof Node && root.contains(relatedTarget))) toggle(false);
  });
  for (const item of commands) {
    if (!(item instanceof HTMLButtonElement)) continue;
    item.addEventListener("click", () => {
      toggle(false);
    });
  }
  return root;
}
