import { button, element, type View } from "../ui/element";
import type { Progress } from "./contents";
import { messageOf } from "../ui/message-of";

/** Where a view says what it is doing and what came of it. */
export interface WorkLine extends View {
  say(sentence: string): void;
  /** Does some work with a bar and a Stop button; undefined where it failed or was stopped, with the reason shown. */
  run<Result>(
    what: string,
    work: (onProgress: Progress, signal: AbortSignal) => Promise<Result>,
    canStop?: "can stop",
  ): Promise<Result | undefined>;
}

export function makeWorkLine(): WorkLine {
  const bar = element("progress", { class: "pane-progress", max: 1, value: 0, "aria-label": "Progress" });
  const label = element("span", { class: "bln-quiet" });
  let stopping = new AbortController();
  const stop = button("Stop", "plain", () => {
    stopping.abort(new Error("stopped"));
  });
  const working = element("div", { class: "pane-working", hidden: true }, label, bar, stop);
  const message = element("p", { class: "pane-message", role: "status" });
  let isBusy = false;
  const say = (sentence: string, tone: "plain" | "fault" = "plain"): void => {
    message.textContent = sentence;
    message.classList.toggle("bln-error", tone === "fault");
  };
  return {
    element: element("div", { class: "pane-work" }, working, message),
    say,
    run: async (what, work, canStop) => {
      if (isBusy) return undefined;
      isBusy = true;
      stopping = new AbortController();
      say("");
      label.textContent = what;
      bar.value = 0;
      stop.hidden = canStop === undefined;
      working.hidden = false;
      try {
        return await work((share) => {
          bar.value = share;
        }, stopping.signal);
      } catch (error) {
        say(messageOf(error), stopping.signal.aborted ? "plain" : "fault");
        return undefined;
      } finally {
        working.hidden = true;
        isBusy = false;
      }
    },
  };
}
