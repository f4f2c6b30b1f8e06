/**
 * How long what was typed waits for what it changes, in milliseconds. Two drawings of the sheet one after the other take
 * most of the time from the key to the new total, and a few frames later is not seen.
 */
export const LONGEST_WAIT = 50;

/** What draws a sheet when it is told to. */
export interface Drawing {
  render(): unknown;
}

/**
 * Holds the drawing of a sheet back for a moment, so that an edit and its results are drawn together, and with it the work
 * that may as well be done after it.
 */
export class HeldDrawing {
  private end: (() => void) | undefined;
  private waiting: (() => void)[] = [];

  /** Draws nothing of `drawing` until it is let go or the wait is over. */
  hold(drawing: Drawing): void {
    this.letGo();
    drawing.render = () => undefined;
    const wait = setTimeout(() => {
      this.letGo();
    }, LONGEST_WAIT);
    this.end = () => {
      clearTimeout(wait);
      // The class's own comes to light again.
      Reflect.deleteProperty(drawing, "render");
    };
  }

  letGo(): void {
    this.end?.();
    this.end = undefined;
    if (this.waiting.length === 0) return;
    // A task after the frame that draws.
    requestAnimationFrame(() =>
      setTimeout(() => {
        if (this.end === undefined) this.catchUp();
      }),
    );
  }

  /** Does `work` now, or after the drawing that is held back. */
  after(work: () => void): void {
    if (this.end === undefined && this.waiting.length === 0) work();
    else this.waiting.push(work);
  }

  /** Does `work` now, or after the next drawing where results are about to be drawn. */
  afterResults(work: () => void): void {
    if (this.end !== undefined || this.waiting.length === 0) work();
    else this.waiting.push(work);
  }

  /** Does at once all that waits. */
  catchUp(): void {
    const { waiting } = this;
    this.waiting = [];
    for (const work of waiting) work();
  }
}
