import { functionNamed } from "../functions/catalogue";
import { element, freshId } from "../ui/element";
import type { PaneView } from "./pane-view";
import type { LengthWords, Preferences } from "./preferences";
import type { SheetHost } from "./sheet-host";
import { makeWorkLine } from "./work-line";

const WORDS: readonly (readonly [LengthWords, string])[] = [
  ["metres", "Metres and centimetres"],
  ["feet", "Feet and inches"],
];

interface Check {
  readonly box: HTMLInputElement;
  readonly field: HTMLElement;
}

function check(label: string, help: string, onChange: (isOn: boolean) => void): Check {
  const id = freshId();
  const box = element("input", { id, type: "checkbox", class: "pane-box" });
  box.addEventListener("change", () => {
    onChange(box.checked);
  });
  const field = element(
    "div",
    { class: "pane-choice" },
    box,
    element(
      "div",
      {},
      element("label", { class: "bln-label", for: id }, label),
      element("p", { class: "bln-help" }, help),
    ),
  );
  return { box, field };
}

function modelVersion(): string {
  const outcome = functionNamed("MODEL_VERSION")?.call([]);
  return outcome?.kind === "value" ? `Model version ${outcome.value}` : "";
}

/** Choices that travel with the workbook, and a person's own. */
export function settingsView(host: SheetHost | undefined, preferences: Preferences): PaneView {
  const work = makeWorkLine();
  const starts = check(
    "Start with this workbook",
    "The functions are there as soon as it opens. People without the add-in may be asked to trust it.",
    (isOn) => void change(starts.box, () => host?.setStartsOnOpen(isOn)),
  );
  const trust = check(
    "Do not ask partners to trust the add-in",
    "Excel on Windows and Mac then opens this workbook without a question for those who do not have the add-in.",
    (isOn) => void change(trust.box, () => host?.setHidesTrustPrompt(isOn)),
  );
  trust.field.hidden = true;

  async function change(box: HTMLInputElement, set: () => Promise<void> | undefined): Promise<void> {
    const isDone = await work.run("Saving", async () => {
      await set();
      return true;
    });
    if (isDone === true) work.say("Kept in this workbook. Save it to keep the choice.");
    else box.checked = !box.checked;
  }

  const load = (): void => {
    if (host === undefined) return;
    void work.run("Reading", async () => {
      const { startsOnOpen, hidesTrustPrompt } = await host.choices();
      starts.box.checked = startsOnOpen;
      trust.field.hidden = hidesTrustPrompt === undefined;
      trust.box.checked = hidesTrustPrompt === true;
    });
  };

  const name = freshId();
  const words = WORDS.map(([value, label]) => {
    const id = freshId();
    const radio = element("input", { id, type: "radio", name, value, class: "pane-box" });
    radio.checked = preferences.lengthWords() === value;
    radio.addEventListener("change", () => {
      preferences.setLengthWords(value);
    });
    return element("div", { class: "pane-choice" }, radio, element("label", { for: id }, label));
  });

  return {
    label: "Settings",
    element: element(
      "section",
      { class: "bln-view" },
      element("h2", { class: "bln-title" }, "Settings"),
      ...(host === undefined
        ? []
        : [
            element(
              "fieldset",
              { class: "pane-group" },
              element("legend", { class: "bln-label" }, "This workbook"),
              starts.field,
              trust.field,
            ),
          ]),
      element(
        "fieldset",
        { class: "pane-group" },
        element("legend", { class: "bln-label" }, "Help speaks of lengths in"),
        ...words,
      ),
      work.element,
      element(
        "p",
        { class: "bln-help" },
        `${modelVersion()}. Everything is computed on this computer; nothing is sent anywhere.`,
      ),
    ),
    shown: load,
  };
}
