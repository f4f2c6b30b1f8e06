import { button, element, type View } from "../ui/element";

/** How a message is meant. */
export type Tone = "plain" | "error";

/** Something that can be done about what was said. */
export interface OfferedAction {
  readonly label: string;
  run(): void;
}

/** The line at the foot of the page: what was just done, what the selected cell says, what is under way. */
export interface StatusLine extends View {
  /** `offer`: a button behind the sentence that puts it right. */
  say(sentence: string, tone?: Tone, offer?: OfferedAction): void;
  /** What is under way; a share is from 0 to 1, and without one the end is not known. */
  working(what: string, share: number | undefined, onStop: (() => void) | undefined): void;
  rest(): void;
}

export function makeStatusLine(): StatusLine {
  const message = element("p", { class: "desk-message", role: "status", "aria-live": "polite" });
  const bar = element("progress", { class: "desk-progress", max: 1, "aria-label": "Progress" });
  const label = element("span", { class: "desk-work" });
  let stop: (() => void) | undefined;
  const stopButton = button("Stop", "plain", () => stop?.());
  const work = element("div", { class: "desk-working", hidden: true }, label, bar, stopButton);
  let offered: (() => void) | undefined;
  const offerButton = button("", "plain", () => offered?.());
  offerButton.hidden = true;
  const promise = element(
    "p",
    { class: "desk-promise" },
    "Everything stays on this computer. F6 moves between sheet, panel and bar.",
  );
  return {
    element: element("div", { class: "desk-status-line" }, message, offerButton, work, promise),
    say(sentence, tone = "plain", offer) {
      message.textContent = sentence;
      offered = offer?.run;
      offerButton.hidden = offer === undefined;
      offerButton.textContent = offer?.label ?? "";
      message.dataset["tone"] = tone;
    },
    working(what, share, onStop) {
      label.textContent = what;
      if (share === undefined) bar.removeAttribute("value");
      else bar.value = share;
      stop = onStop;
      stopButton.hidden = onStop === undefined;
      work.hidden = false;
    },
    rest() {
      work.hidden = true;
    },
  };
}
