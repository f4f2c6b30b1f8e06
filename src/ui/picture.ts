import { otherUnits } from "../functions/echo";
import type { DrawnBalloon } from "../functions/definition";
import {
  framed,
  GROUND,
  idOf,
  INK,
  label,
  MARGIN,
  paintOf,
  PICTURE_ID,
  PERSON_METRES,
  PERSON_WIDTH,
  px,
  roundLength,
} from "./svg";

export interface PictureOptions {
  /** CSS colours of the palette; `#rrggbb` and `#rgb` are shaded, others are drawn flat. */
  readonly colours?: readonly string[];
  /** Each balloon takes the next colour in the order given, or each row of balloons does. */
  readonly order?: "balloons" | "rows";
  /** What the picture shows, for those who hear it. */
  readonly title: string;
  readonly description?: string;
  /** Width of the picture, px. */
  readonly width?: number;
}

/** Colours for a piece whose palette nobody has said yet. */
export const PLAIN_COLOURS: readonly string[] = ["#c8553d", "#f2d0a4", "#588b8b", "#f4f1ea"];

const FOOT = 64;
const TALLEST_TO_WIDE = 0.85;

function isDrawable({ x, y, z, radius }: DrawnBalloon): boolean {
  return [x, y, z, radius].every(Number.isFinite) && radius > 0;
}

function bounds(balloons: readonly DrawnBalloon[]): {
  left: number;
  right: number;
  bottom: number;
  top: number;
} {
  let [left, right, bottom, top] = [Infinity, -Infinity, 0, 0];
  for (const { x, y, radius } of balloons) {
    left = Math.min(left, x - radius);
    right = Math.max(right, x + radius);
    bottom = Math.min(bottom, y - radius);
    top = Math.max(top, y + radius);
  }
  return { left, right, bottom, top };
}

/**
 * A front view of a piece, to scale, as the text of an SVG file: balloons from back to front, a scale bar in metres and
 * feet, a bar as tall as a person of 1.7 m.
 *
 * @param balloons centres and radii in metres; those that cannot be drawn are left out
 * @param options colours, title and size
 */
export function pictureSvg(balloons: readonly DrawnBalloon[], options: PictureOptions): string {
  const { colours = PLAIN_COLOURS, order = "balloons", width = 640 } = options;
  const drawable = balloons.filter(isDrawable);
  const palette = colours.length === 0 ? PLAIN_COLOURS : colours;
  const id = idOf(`${options.title} ${palette.join(" ")} ${drawable.length} ${width}`);
  if (drawable.length === 0) {
    const words = label(width / 2, 64, "middle", "Nothing to draw yet");
    return framed(width, 120, options, id, `<g fill="${INK}">${words}</g>`);
  }
  const { left, right, bottom, top } = bounds(drawable);
  const gap = Math.max(0.3, (right - left) * 0.06);
  const across = right - left + gap + PERSON_WIDTH;
  const up = Math.max(top, PERSON_METRES) - bottom;
  const inside = width - 2 * MARGIN;
  const scale = Math.min(inside / across, (inside * TALLEST_TO_WIDE) / up);
  const height = up * scale + 2 * MARGIN + FOOT;
  const start = (width - across * scale) / 2;
  const X = (x: number): number => start + (x - left) * scale;
  const Y = (y: number): number => MARGIN + (up - (y - bottom)) * scale;

  const paints = palette.map((colour, index) => paintOf(colour, `${id}-${index}`));
  const circles = drawable
    .map((balloon, index) => ({ balloon, index }))
    .sort((a, b) => a.balloon.z - b.balloon.z)
    .map(({ balloon, index }) => {
      const turn = order === "rows" ? Math.abs(Math.trunc(balloon.row)) || 0 : index;
      const paint = paints[turn % paints.length];
      return `<circle cx="${px(X(balloon.x))}" cy="${px(Y(balloon.y))}" r="${px(balloon.radius * scale)}" ${paint?.attributes ?? ""}/>`;
    });

  const person = { x: X(right + gap), y: Y(PERSON_METRES), width: Math.max(2, PERSON_WIDTH * scale) };
  const length = roundLength(Math.max(inside / scale / 3, 1e-6));
  const bar = { x: MARGIN, y: height - 48, end: MARGIN + length * scale };
  const feet = otherUnits("m", length);
  return framed(
    width,
    height,
    options,
    id,
    `<defs>${paints.map(({ definition }) => definition).join("")}</defs>` +
      `<path d="M${px(MARGIN / 2)} ${px(Y(0))}H${px(width - MARGIN / 2)}" stroke="${GROUND}" stroke-width="2"/>` +
      `<rect x="${px(person.x)}" y="${px(person.y)}" width="${px(person.width)}" height="${px(PERSON_METRES * scale)}" ` +
      `rx="${px(person.width / 2)}" fill="${GROUND}"/>` +
      `<g stroke-width="0.6">${circles.join("")}</g>` +
      `<path d="M${px(bar.x)} ${px(bar.y - 5)}v10M${px(bar.x)} ${px(bar.y)}H${px(bar.end)}M${px(bar.end)} ${px(bar.y - 5)}v10" ` +
      `stroke="${INK}" stroke-width="1.5" fill="none"/>` +
      `<g fill="${INK}">` +
      label(bar.x, bar.y + 20, "start", `${length} m${feet === undefined ? "" : ` = ${feet}`}`) +
      label(MARGIN, bar.y + 38, "start", `grey bar: a person of ${PERSON_METRES} m`) +
      `</g>`,
  );
}

let shownPictures = 0;

/**
 * The element of a picture, made without putting markup into the page as text. Its ids are its own: the same picture may
 * stand twice on a page, and colours of one that is hidden are none for the other.
 */
export function pictureElement(svg: string): SVGSVGElement {
  shownPictures += 1;
  const own = svg.replace(PICTURE_ID, `$&n${shownPictures}`);
  const parsed = new DOMParser().parseFromString(own, "image/svg+xml").documentElement;
  return document.importNode(parsed, true) as unknown as SVGSVGElement;
}

/** Hands a picture to the person as a file. */
export function saveFile(content: Blob, name: string): void {
  const address = URL.createObjectURL(content);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // The download has read the address once this task is over; at once would be too early.
  setTimeout(() => {
    URL.revokeObjectURL(address);
  }, 10_000);
}

/** A picture as an SVG file. */
export function svgBlob(svg: string): Blob {
  return new Blob([svg], { type: "image/svg+xml" });
}

/**
 * A picture as a PNG file. The page's content security policy must allow `img-src blob:`.
 *
 * @param svg text of an SVG file with a width and a height
 * @param width of the PNG, px
 */
export async function svgToPng(svg: string, width: number): Promise<Blob> {
  const address = URL.createObjectURL(svgBlob(svg));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = width;
    canvas.height = Math.max(1, Math.round((width * image.naturalHeight) / image.naturalWidth));
    canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((resolve, reject) => {
      canvas.toBlob((blob) => {
        if (blob === null) reject(new Error("the browser could not make a PNG of this size"));
        else resolve(blob);
      }, "image/png");
    });
  } finally {
    URL.revokeObjectURL(address);
  }
}
