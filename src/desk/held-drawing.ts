/**
 * How long what was typed waits for what it changes, in milliseconds. Two drawings of the sheet one after the other take
 * most of the time from the key to the new total, and a few frames later is not seen.
 */
export const LONGEST_WAIT = 50;

/** What draws a sheet when it is told to. */
export interface Drawing {
  render(): unknown;
}

/** Holds the drawing of a sheet back for a moment, so that an edit and its results are drawn together. */
export class HeldDrawing {
  private end: (() => void) | undefined;

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
  }
}
