import { button, element } from "../ui/element";
import type { ShownValue } from "./row-filter";

/** What a person chose: texts whose rows stay, all rows again, or nothing. */
export type FilterChoice =
  { readonly kind: "some"; readonly shown: readonly string[] } | { readonly kind: "all" } | undefined;

/** Asks which texts of a column stay in sight. `chosen` are those that do now; undefined where all do. */
export function askForFilter(
  title: string,
  values: readonly ShownValue[],
  chosen: readonly string[] | undefined,
): Promise<FilterChoice> {
  const known = new Set(chosen?.map((text) => text.toLowerCase()));
  const rows = values.map(({ text, count }) => {
    const box = element("input", {
      type: "checkbox",
      checked: chosen === undefined || known.has(text.toLowerCase()),
      "aria-label": text === "" ? "(blank)" : text,
    });
    const label = element(
      "label",
      { class: "desk-filter-row" },
      box,
      element("span", {}, text === "" ? "(blank)" : text),
      element("span", { class: "desk-filter-count" }, String(count)),
    );
    return { text, box, label };
  });
  const search = element("input", { class: "bln-input", type: "search", "aria-label": "Look for an entry" });
  search.addEventListener("input", () => {
    const wanted = search.value.trim().toLowerCase();
    for (const { text, label } of rows) label.hidden = !text.toLowerCase().includes(wanted);
  });
  const check = (isChecked: boolean): void => {
    for (const { box, label } of rows) if (!label.hidden) box.checked = isChecked;
  };
  return new Promise((resolve) => {
    let choice: FilterChoice;
    const finish = (made: FilterChoice): void => {
      choice = made;
      dialog.close();
    };
    const said = element("p", { role: "status" });
    const apply = button("Filter", "primary", () => {
      const shown = rows.filter(({ box }) => box.checked).map(({ text }) => text);
      if (shown.length === 0) said.textContent = "choose at least one entry";
      else finish(shown.length === rows.length ? { kind: "all" } : { kind: "some", shown });
    });
    const dialog = element(
      "dialog",
      { class: "desk-dialog desk-filter", "aria-label": title },
      element("h2", {}, title),
      search,
      element(
        "div",
        { class: "bln-row" },
        button("All", "plain", () => {
          check(true);
        }),
        button("None", "plain", () => {
          check(false);
        }),
      ),
      element(
        "div",
        { class: "desk-filter-list", role: "group", "aria-label": "Entries that stay in sight" },
        ...rows.map(({ label }) => label),
      ),
      said,
      element(
        "div",
        { class: "bln-row" },
        apply,
        button("Show all rows", "plain", () => {
          finish({ kind: "all" });
        }),
        button("Cancel", "plain", () => {
          dialog.close();
        }),
      ),
    );
    dialog.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || event.target instanceof HTMLButtonElement) return;
      event.preventDefault();
      apply.click();
    });
    dialog.addEventListener("close", () => {
      dialog.remove();
      resolve(choice);
    });
    document.body.append(dialog);
    dialog.showModal();
  });
}
