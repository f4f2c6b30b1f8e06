import { button, element, type View } from "../ui/element";

/** How a message is meant. */
export type Tone = "plain" | "error";

/** The line at the foot of the page: what was just done, what the selected cell says, what is under way. */
export interface StatusLine extends View {
  say(sentence: string, tone?: Tone): void;
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
  const promise = element(
    "p",
    { class: "desk-promise" },
    "Everything stays on this computer. F6 moves between sheet and panel.",
  );
  return {
    element: element("div", { class: "desk-status-line" }, message, work, promise),
    say(sentence, tone = "plain") {
      message.textContent = sentence;
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
