import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { HeldDrawing, LONGEST_WAIT } from "../../src/desk/held-drawing";

/** A sheet that counts how often it is drawn. */
class Sheet {
  drawn = 0;

  render(): void {
    this.drawn++;
  }
}

describe("a drawing that waits for results", () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it("is not done while it is held, and is once it is let go", () => {
    const [sheet, held] = [new Sheet(), new HeldDrawing()];
    held.hold(sheet);
    sheet.render();
    expect(sheet.drawn).toBe(0);
    held.letGo();
    sheet.render();
    expect(sheet.drawn).toBe(1);
    vi.advanceTimersByTime(LONGEST_WAIT);
    sheet.render();
    expect(sheet.drawn).toBe(2);
  });

  /** Nothing is drawn until the very end of the wait, which begins now. */
  function expectDrawnAfterWait(sheet: Sheet): void {
    vi.advanceTimersByTime(LONGEST_WAIT - 1);
    sheet.render();
    expect(sheet.drawn).toBe(0);
    vi.advanceTimersByTime(1);
    sheet.render();
    expect(sheet.drawn).toBe(1);
  }

  it("waits no longer than it may where no results come", () => {
    const [sheet, held] = [new Sheet(), new HeldDrawing()];
    held.hold(sheet);
    expectDrawnAfterWait(sheet);
  });

  it("lets the sheet before go where another one is held", () => {
    const [before, sheet, held] = [new Sheet(), new Sheet(), new HeldDrawing()];
    held.hold(before);
    held.hold(sheet);
    before.render();
    sheet.render();
    expect([before.drawn, sheet.drawn]).toEqual([1, 0]);
  });

  it("waits anew for each edit", () => {
    const [sheet, held] = [new Sheet(), new HeldDrawing()];
    held.hold(sheet);
    vi.advanceTimersByTime(LONGEST_WAIT - 1);
    held.hold(sheet);
    expectDrawnAfterWait(sheet);
  });
});

describe("what may be done after a drawing", () => {
  let frames: (() => void)[] = [];
  beforeEach(() => {
    vi.useFakeTimers();
    frames = [];
    vi.stubGlobal("requestAnimationFrame", (frame: () => void) => frames.push(frame));
  });
  afterEach(() => {
    vi.unstubAllGlobals();
    vi.useRealTimers();
  });

  /** One frame of the page, and the tasks after it. */
  function drawFrame(): void {
    const due = frames;
    frames = [];
    for (const frame of due) frame();
    vi.advanceTimersByTime(0);
  }

  /** A drawing that is held, with a move of the selection that waits for it, and what was done of all that waits. */
  function heldMove(): { readonly held: HeldDrawing; readonly done: string[] } {
    const [held, done] = [new HeldDrawing(), [] as string[]];
    held.hold(new Sheet());
    held.after(() => done.push("move"));
    return { held, done };
  }

  it("is done at once where no drawing is held", () => {
    const done: string[] = [];
    const held = new HeldDrawing();
    held.after(() => done.push("move"));
    held.afterResults(() => done.push("outcome"));
    expect(done).toEqual(["move", "outcome"]);
  });

  it("waits for the frame after the results, in the order in which it came", () => {
    const { held, done } = heldMove();
    held.letGo();
    held.afterResults(() => done.push("outcome"));
    expect(done).toEqual([]);
    drawFrame();
    expect(done).toEqual(["move", "outcome"]);
    held.after(() => done.push("later"));
    expect(done).toEqual(["move", "outcome", "later"]);
  });

  it("does not keep results from being shown that are still waited for", () => {
    const { held, done } = heldMove();
    held.afterResults(() => done.push("outcome"));
    expect(done).toEqual(["outcome"]);
  });

  it("waits for the end of the wait where no results come", () => {
    const { done } = heldMove();
    vi.advanceTimersByTime(LONGEST_WAIT);
    expect(done).toEqual([]);
    drawFrame();
    expect(done).toEqual(["move"]);
  });

  it("is done at once, and once, when a person goes on", () => {
    const { held, done } = heldMove();
    held.catchUp();
    expect(done).toEqual(["move"]);
    held.letGo();
    drawFrame();
    expect(done).toEqual(["move"]);
  });

  it("waits on where the next edit is held before the frame comes", () => {
    const { held, done } = heldMove();
    held.letGo();
    held.hold(new Sheet());
    drawFrame();
    expect(done).toEqual([]);
    held.letGo();
    drawFrame();
    expect(done).toEqual(["move"]);
  });
});
