/** Names for buttons of the grid's own markup that show a picture only, by their part and in their order. */
const BUTTON_NAMES: Readonly<Record<string, readonly string[]>> = {
  "sheet-bar-append-button": ["Add a sheet", "List of sheets", "Earlier sheets", "Later sheets"],
  button: ["Zoom out", "Zoom in"],
};
/** Roles that the grid gives and no standard knows. */
const KNOWN_ROLES =
  /^(?:button|tab|tablist|textbox|menu|menuitem|listbox|option|dialog|grid|presentation|slider)$/;

function isNameless(control: Element): boolean {
  return control.getAttribute("aria-label") === null && (control.textContent ?? "").trim() === "";
}

function setOnce(control: Element, name: string, value: string): void {
  if (control.getAttribute(name) !== value) control.setAttribute(name, value);
}

function mend(root: ParentNode): void {
  for (const [part, names] of Object.entries(BUTTON_NAMES)) {
    const buttons = [...root.querySelectorAll(`button[data-u-comp="${part}"]`)];
    const nameless = buttons.filter((control) => control.textContent?.trim() === "");
    for (const [index, control] of nameless.entries()) setOnce(control, "aria-label", names[index] ?? "Tool");
  }
  for (const control of root.querySelectorAll("[role]")) {
    if (!KNOWN_ROLES.test(control.getAttribute("role") ?? "")) control.removeAttribute("role");
  }
  // What is no control itself must not say that it expands: the button inside it does what there is to do.
  for (const control of root.querySelectorAll("[aria-expanded]:not(button):not([role]):not(input)")) {
    control.removeAttribute("aria-expanded");
    control.removeAttribute("aria-haspopup");
  }
  for (const control of root.querySelectorAll("a[role=button]")) {
    if (isNameless(control)) setOnce(control, "aria-label", "Zoom step");
  }
  for (const control of root.querySelectorAll("button")) {
    if (isNameless(control))
      setOnce(control, "aria-label", control.closest("[class*=slider]") ? "Zoom" : "Grid tool");
  }
  for (const field of root.querySelectorAll("input[type=text]:not([aria-label])"))
    setOnce(field, "aria-label", "Name box: the selected cell, or where to go");
  // A place of its own in the order of tabs would come before everything else on the page.
  for (const canvas of root.querySelectorAll("canvas[tabindex]")) setOnce(canvas, "tabindex", "0");
}

/** Gives the grid library's own markup the names and roles that assistive software needs, whenever it changes. */
export function keepAccessible(): void {
  let isAsked = false;
  const ask = (): void => {
    if (isAsked) return;
    isAsked = true;
    requestAnimationFrame(() => {
      isAsked = false;
      for (const part of document.querySelectorAll(".desk-grid, body > [class*=univer]")) mend(part);
      for (const [index, part] of [
        ...document.querySelectorAll("section[aria-label^=Notifications]"),
      ].entries())
        setOnce(part, "aria-label", `Notifications ${String(index + 1)}`);
    });
  };
  new MutationObserver(ask).observe(document.body, { childList: true, subtree: true });
  ask();
}
