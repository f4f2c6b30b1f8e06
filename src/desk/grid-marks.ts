import type { ICellCustomRender } from "@univerjs/core";
import type { CellBar } from "./data-bars";
import { keptColor } from "./grid-colors";
import type { CellIcon } from "./icon-sets";

/** Pixels along the edge of the mark of a filter. */
const MARK = 15;
/** How much of the cell shows through a bar, which is drawn over its number. */
const BAR_INK = 0.45;

/** A bar behind a number. */
export function drawnBar({ from, to, color }: CellBar): ICellCustomRender {
  return {
    drawWith(ctx, { primaryWithCoord: { startX, startY, endX, endY } }) {
      ctx.save();
      ctx.globalAlpha = BAR_INK;
      ctx.fillStyle = keptColor(color);
      const width = endX - startX - 2;
      ctx.fillRect(startX + 1 + width * from, startY + 2, width * (to - from), endY - startY - 4);
      ctx.restore();
    },
  };
}

/** The mark of a filter in a heading: an arrow, and a full one in the accent where the column filters. */
export function filterMark(isSet: boolean, press: () => void): ICellCustomRender {
  return {
    drawWith(ctx, { primaryWithCoord: { endX, endY } }) {
      const [x, y] = [endX - MARK, endY - MARK - 1];
      ctx.save();
      ctx.fillStyle = isSet ? "#2b5f75" : "#ffffff";
      ctx.strokeStyle = "#8c8476";
      ctx.beginPath();
      ctx.rect(x, y, MARK - 2, MARK - 2);
      ctx.fill();
      ctx.stroke();
      ctx.fillStyle = isSet ? "#ffffff" : "#2c2822";
      ctx.beginPath();
      ctx.moveTo(x + 3, y + 5);
      ctx.lineTo(x + MARK - 5, y + 5);
      ctx.lineTo(x + MARK / 2 - 1, y + MARK - 5);
      ctx.fill();
      ctx.restore();
    },
    isHit: ({ x, y }, { primaryWithCoord: { endX, endY } }) => x > endX - MARK - 2 && y > endY - MARK - 3,
    onPointerDown: press,
  };
}

/** Pixels along the edge of an icon, and from the left edge of its cell. */
const ICON = 12;
const ICON_INDENT = 3;

/** An icon at the left of its cell, beside a number. */
export function drawnIcon(icon: CellIcon): ICellCustomRender {
  return {
    drawWith(ctx, { primaryWithCoord: { startX, startY, endY } }) {
      ctx.save();
      ctx.translate(startX + ICON_INDENT + ICON / 2, (startY + endY) / 2);
      ctx.fillStyle = icon.color;
      ctx.strokeStyle = icon.color;
      ctx.lineWidth = 2;
      drawIcon(ctx, icon);
      ctx.restore();
    },
  };
}

function outline(ctx: CanvasRenderingContext2D, points: readonly (readonly [number, number])[]): void {
  ctx.beginPath();
  for (const [at, [x, y]] of points.entries()) {
    if (at === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  }
}

/** Draws an icon around the origin. */
function drawIcon(ctx: CanvasRenderingContext2D, icon: CellIcon): void {
  const half = ICON / 2;
  const filled = (...points: readonly (readonly [number, number])[]): void => {
    outline(ctx, points);
    ctx.fill();
  };
  const line = (...points: readonly (readonly [number, number])[]): void => {
    outline(ctx, points);
    ctx.stroke();
  };
  switch (icon.shape) {
    case "arrow":
      ctx.rotate((icon.turn * Math.PI) / 180);
      filled([0, -half], [half, 0], [2, 0], [2, half], [-2, half], [-2, 0], [-half, 0]);
      break;
    case "disc":
      ctx.beginPath();
      ctx.arc(0, 0, half - 0.5, 0, 2 * Math.PI);
      ctx.fill();
      break;
    case "quarters":
      ctx.lineWidth = 1;
      ctx.beginPath();
      ctx.arc(0, 0, half - 1, 0, 2 * Math.PI);
      ctx.stroke();
      ctx.beginPath();
      ctx.moveTo(0, 0);
      ctx.arc(0, 0, half - 1, -Math.PI / 2, -Math.PI / 2 + 2 * Math.PI * icon.filled);
      ctx.fill();
      break;
    case "bars":
      for (let bar = 0; bar < 4; bar++) {
        ctx.globalAlpha = bar < icon.filled * 4 ? 1 : 0.25;
        const height = ((bar + 1) * ICON) / 4;
        ctx.fillRect(-half + bar * 3, half - height, 2, height);
      }
      break;
    case "flag":
      line([-half + 1, -half], [-half + 1, half]);
      filled([-half + 1, -half], [half, -half / 2], [-half + 1, 1]);
      break;
    case "diamond":
      filled([0, -half], [half, 0], [0, half], [-half, 0]);
      break;
    case "triangle":
      filled([0, -half], [half, half - 1], [-half, half - 1]);
      break;
    case "check":
      line([-half + 1, 0], [-1, half - 2], [half - 1, -half + 2]);
      break;
    case "cross":
      line([-half + 2, -half + 2], [half - 2, half - 2]);
      line([half - 2, -half + 2], [-half + 2, half - 2]);
      break;
    case "exclamation":
      line([0, -half + 1], [0, 2]);
      line([0, half - 2.5], [0, half - 0.5]);
  }
}
