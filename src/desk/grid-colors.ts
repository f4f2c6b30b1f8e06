import type { Nullable } from "@univerjs/core";

/** Opaque colours in this form are drawn as they are; the others change with the dark theme. */
const KEPT_COLOR = /^rgba\((\d+), (\d+), (\d+), 1\)$/;

/** A colour `#rrggbb` of the file in the form that the dark theme leaves alone. */
export function keptColor(color: string): string {
  const [red, green, blue] = [1, 3, 5].map((at) => parseInt(color.slice(at, at + 2), 16));
  return `rgba(${String(red)}, ${String(green)}, ${String(blue)}, 1)`;
}

/** A colour as `#rrggbb`, whichever of both forms it has; undefined for other notations. */
export function fileColor(color: Nullable<string>): string | undefined {
  if (!color) return undefined;
  const channels = KEPT_COLOR.exec(color)?.slice(1);
  if (channels) return `#${channels.map((part) => Number(part).toString(16).padStart(2, "0")).join("")}`;
  return /^#[0-9a-f]{6}$/i.test(color) ? color.toLowerCase() : undefined;
}

/** Whether the dark theme leaves a colour alone. */
export function isKeptColor(color: string): boolean {
  return KEPT_COLOR.test(color);
}
