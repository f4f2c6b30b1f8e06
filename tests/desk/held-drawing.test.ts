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
