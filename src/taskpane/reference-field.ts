import { button, element, freshId } from "../ui/element";
import { selectedReference } from "./find-view";
import type { SheetHost } from "./sheet-host";
import type { WorkLine } from "./work-line";

/** A field that takes a reference, with its box. */
export interface ReferenceField {
  readonly input: HTMLInputElement;
  readonly field: HTMLElement;
}

/** A control under its label, with what helps to fill it. */
export function labelled(label: string, control: HTMLElement, help?: string, shown = control): HTMLElement {
  return element(
    "div",
    { class: "bln-field" },
    element("label", { class: "bln-label", for: control.id }, label),
    shown,
    ...(help === undefined ? [] : [element("p", { class: "bln-help" }, help)]),
  );
}

/** A field for cells, a table or a name, which takes what is selected in the sheet. */
export function referenceField(label: string, help: string, host: SheetHost, work: WorkLine): ReferenceField {
  const input = element("input", {
    id: freshId(),
    class: "bln-input",
    autocomplete: "off",
    spellcheck: "false",
  });
  const pick = button("Use selection", "plain", () => {
    void work.run("Reading", async () => {
      input.value = await selectedReference(host);
    });
  });
  pick.setAttribute("aria-label", `Use selection for ${label.toLowerCase()}`);
  const control = element("div", { class: "bln-control" }, input, pick);
  return { input, field: labelled(label, input, help, control) };
}
