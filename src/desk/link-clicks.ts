import type { Grid } from "./grid";

/** Pixels that the pointer may move during a click. */
const TREMBLE = 4;

/** Calls back for a click or a tap on the selected cell, and for no drag over cells. */
export function listenForLinks(gridElement: HTMLElement, grid: Grid, clicked: () => void): void {
  let start = { x: NaN, y: NaN };
  addEventListener(
    "pointerdown",
    ({ clientX: x, clientY: y, isTrusted }) => {
      if (isTrusted) start = { x, y };
    },
    { capture: true },
  );
  gridElement.addEventListener("click", ({ target, clientX: x, clientY: y, shiftKey }) => {
    const { box } = grid;
    const isStill = Math.hypot(x - start.x, y - start.y) <= TREMBLE;
    if (!box || !isStill || shiftKey || grid.isTyping || !(target instanceof HTMLCanvasElement)) return;
    const isInside = x >= box.left && x < box.left + box.width && y >= box.top && y < box.top + box.height;
    if (isInside) clicked();
  });
}
