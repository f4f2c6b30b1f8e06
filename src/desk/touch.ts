/** Milliseconds that a finger rests before it selects, and pixels that it may tremble meanwhile. */
const LONG_PRESS = 450;
const TREMBLE = 8;

/**
 * Makes a finger scroll the grid, whose own canvas would select under it: a swipe scrolls, a tap chooses a cell, and a
 * long press selects as a mouse does until the finger is lifted.
 */
export function listenForTouch(grid: HTMLElement): void {
  let start: { readonly x: number; readonly y: number; readonly canvas: Element } | undefined;
  let last = { x: 0, y: 0 };
  let state: "resting" | "scrolling" | "selecting" = "resting";
  let timer: ReturnType<typeof setTimeout> | undefined;

  const asMouse = (kind: string, { clientX, clientY }: MouseEvent, canvas: Element): void => {
    const buttons = kind === "pointerup" ? 0 : 1;
    const options = { clientX, clientY, bubbles: true, cancelable: true, composed: true, button: 0, buttons };
    canvas.dispatchEvent(
      new PointerEvent(kind, { ...options, pointerType: "mouse", pointerId: 1, isPrimary: true }),
    );
  };
  const isFinger = (event: PointerEvent): boolean => event.pointerType === "touch" && event.isTrusted;

  grid.addEventListener(
    "pointerdown",
    (event) => {
      const canvas = event.target;
      if (!isFinger(event) || !event.isPrimary || !(canvas instanceof HTMLCanvasElement)) return;
      event.stopPropagation();
      start = { x: event.clientX, y: event.clientY, canvas };
      last = { x: event.clientX, y: event.clientY };
      state = "resting";
      clearTimeout(timer);
      timer = setTimeout(() => {
        state = "selecting";
        asMouse("pointerdown", event, canvas);
      }, LONG_PRESS);
    },
    { capture: true },
  );
  grid.addEventListener(
    "pointermove",
    (event) => {
      if (!isFinger(event) || !start) return;
      event.stopPropagation();
      if (state === "selecting") {
        asMouse("pointermove", event, start.canvas);
        return;
      }
      const moved = Math.hypot(event.clientX - start.x, event.clientY - start.y);
      if (state === "resting" && moved < TREMBLE) return;
      state = "scrolling";
      clearTimeout(timer);
      const options = {
        deltaX: last.x - event.clientX,
        deltaY: last.y - event.clientY,
        bubbles: true,
        cancelable: true,
      };
      last = { x: event.clientX, y: event.clientY };
      const { clientX, clientY } = event;
      start.canvas.dispatchEvent(new WheelEvent("wheel", { ...options, clientX, clientY }));
    },
    { capture: true },
  );
  const end = (event: PointerEvent): void => {
    if (!isFinger(event) || !start) return;
    event.stopPropagation();
    clearTimeout(timer);
    const { canvas } = start;
    start = undefined;
    if (state === "resting" && event.type === "pointerup") asMouse("pointerdown", event, canvas);
    if (state !== "scrolling") asMouse("pointerup", event, canvas);
  };
  grid.addEventListener("pointerup", end, { capture: true });
  grid.addEventListener("pointercancel", end, { capture: true });
}
