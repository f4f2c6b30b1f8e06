/** What the pictures of pieces share: one scale, one paper, one bar as tall as a person. */

export const PERSON_METRES = 1.7;
export const PERSON_WIDTH = 0.12;
export const MARGIN = 24;
export const PAPER = "#fbfaf7";
export const INK = "#3a342c";
export const GROUND = "#b9b1a3";
const SCALE_STEPS = [1, 2, 5];

export function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`);
}

export function px(value: number): string {
  return String(Math.round(value * 100) / 100 || 0);
}

export function channels(colour: string): readonly number[] | undefined {
  const digits = /^#([0-9a-f]{3}|[0-9a-f]{6})$/i.exec(colour.trim())?.[1];
  if (digits === undefined) return undefined;
  const full = digits.length === 3 ? digits.replace(/./g, "$&$&") : digits;
  return [0, 2, 4].map((start) => Number.parseInt(full.slice(start, start + 2), 16));
}

export function mixed(colour: readonly number[], towards: number, share: number): string {
  const parts = colour.map((part) => Math.round(part + (towards - part) * share));
  return `#${parts.map((part) => part.toString(16).padStart(2, "0")).join("")}`;
}

export interface Paint {
  readonly definition: string;
  readonly attributes: string;
}

export function paintOf(colour: string, id: string): Paint {
  const parts = channels(colour);
  if (parts === undefined) return { definition: "", attributes: `fill="${escaped(colour)}" stroke="${INK}"` };
  const stops = [mixed(parts, 255, 0.28), mixed(parts, 255, 0), mixed(parts, 0, 0.2)]
    .map((stop, index) => `<stop offset="${[0, 0.55, 1][index] ?? 0}" stop-color="${stop}"/>`)
    .join("");
  return {
    definition: `<radialGradient id="${id}" cx="0.5" cy="0.35" r="0.7">${stops}</radialGradient>`,
    attributes: `fill="url(#${id})" stroke="${mixed(parts, 0, 0.35)}"`,
  };
}

/** The longest of 1, 2, 5, 10, ... that fits, so that a scale bar says a round number. */
export function roundLength(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  return (SCALE_STEPS.findLast((step) => step * power <= most) ?? 1) * power;
}

export function label(x: number, y: number, anchor: "start" | "middle", text: string): string {
  return `<text x="${px(x)}" y="${px(y)}" text-anchor="${anchor}">${escaped(text)}</text>`;
}

/** What a picture shows, for those who hear it. */
export interface Named {
  readonly title: string;
  readonly description?: string;
}

export function framed(width: number, height: number, named: Named, id: string, body: string): string {
  const { title, description } = named;
  const told = description === undefined ? `${id}-title` : `${id}-title ${id}-description`;
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${px(width)} ${px(height)}" width="${px(width)}" ` +
    `height="${px(height)}" role="img" aria-labelledby="${told}" font-family="system-ui, sans-serif" font-size="13">` +
    `<title id="${id}-title">${escaped(title)}</title>` +
    (description === undefined ? "" : `<desc id="${id}-description">${escaped(description)}</desc>`) +
    `<rect width="100%" height="100%" fill="${PAPER}"/>${body}</svg>`
  );
}

/** Every id of a picture begins so. */
export const PICTURE_ID = /bln-picture-[0-9a-z]+/g;

// Two pictures in one document must not share the ids of their colours.
export function idOf(text: string): string {
  let hash = 5381;
  for (const sign of text) hash = (hash * 33 + (sign.codePointAt(0) ?? 0)) % 4294967296;
  return `bln-picture-${hash.toString(36)}`;
}
