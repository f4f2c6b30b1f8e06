import { otherUnits } from "../functions/echo";
import type { DrawnPiece } from "../functions/definition";
import { screenColour } from "./colour-words";
import { extentOf, runsOf, type Run } from "./piece-runs";
import {
  channels,
  framed,
  GROUND,
  idOf,
  INK,
  label,
  MARGIN,
  mixed,
  paintOf,
  PERSON_METRES,
  PERSON_WIDTH,
  px,
  roundLength,
  type Named,
  type Paint,
} from "./svg";

export interface EventPictureOptions extends Named {
  /** Width of the picture, px. */
  readonly width?: number;
}

/** Widest row of a picture, m; longer garlands are drawn in lengths, wider pieces widen it. */
const ROW_METRES = 8;
const GAP = 28;
const LINE = 17;
/** Width of a letter of the labels, px, on the safe side. */
const LETTER = 7.2;
const HIGHEST_TO_WIDE = 0.8;
const SWATCH = 7;
/** Ribbons are thinner than a line can be drawn to scale, px. */
const RIBBON = 0.8;
const QUIET = "#6d655a";

/** A run with its room in a row, px. */
interface Slot {
  readonly run: Run;
  readonly width: number;
  readonly name: readonly string[];
  readonly size: string;
}

interface Row {
  readonly slots: readonly Slot[];
  readonly hasPerson: boolean;
}

const sizeOf = (length: number): string => length.toFixed(2);

function linesOf(text: string, most: number): readonly string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + word.length < most) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines.slice(0, 3);
}

function slotOf(run: Run, scale: number): Slot {
  const { left, right, bottom, top } = extentOf(run);
  const room = (right - left) * scale;
  const { name, quantity, option, isFromAbove, size: finished } = run.piece;
  const [wide, high] = finished ?? [right - left, top - bottom];
  const many = quantity !== undefined && quantity > 1 ? `${quantity} x ` : "";
  const ofOption = option === "" ? "" : ` (option ${option})`;
  const lines = linesOf(`${many}${name}${ofOption}`, Math.max(14, Math.floor(room / LETTER)));
  const above = isFromAbove ? " from above" : "";
  const size = run.length === undefined ? `${sizeOf(wide)} x ${sizeOf(high)} m${above}` : run.length;
  const text = Math.max(size.length, ...lines.map((line) => line.length)) * LETTER;
  return { run, width: Math.max(room, text), name: lines, size };
}

/** Slots in rows as wide as the picture; the bar as tall as a person stands in the first. */
function rowsOf(slots: readonly Slot[], inside: number, person: number): readonly Row[] {
  const rows: { slots: Slot[]; hasPerson: boolean }[] = [];
  let used = 0;
  for (const slot of slots) {
    const row = rows.at(-1);
    if (row !== undefined && used + GAP + slot.width <= inside) {
      row.slots.push(slot);
      used += GAP + slot.width;
      continue;
    }
    const hasPerson = rows.length === 0;
    rows.push({ slots: [slot], hasPerson });
    used = slot.width + (hasPerson ? GAP + person : 0);
  }
  return rows;
}

/** Pixels of a metre: a row fills the picture, the tallest piece does not leave it. */
function scaleOf(runs: readonly Run[], inside: number): number {
  const extents = runs.map(extentOf);
  const widths = extents.map(({ left, right }) => right - left);
  const bar = PERSON_WIDTH + 0.3;
  const all = widths.reduce((sum, width) => sum + width + 0.4, bar);
  const across = Math.max(Math.min(all, ROW_METRES), ...widths.map((width) => width + bar));
  const up = Math.max(PERSON_METRES, ...extents.map(({ top, bottom }) => top - bottom));
  return Math.min(inside / across, (inside * HIGHEST_TO_WIDE) / up);
}

interface Paints {
  readonly of: (name: string) => Paint;
  readonly definitions: string;
}

function paintsOf(names: readonly string[], id: string): Paints {
  const paints = new Map(
    names.map((name, index) => [name, paintOf(colourOf(name), `${id}-${index}`)] as const),
  );
  return {
    of: (name) => paints.get(name) ?? paintOf(colourOf(name), id),
    definitions: [...paints.values()].map(({ definition }) => definition).join(""),
  };
}

const colourOf = (name: string): string => screenColour(name).colour;

/** Everything of a run from back to front. */
function bodyOf(
  run: Run,
  X: (x: number) => number,
  Y: (y: number) => number,
  scale: number,
  paints: Paints,
): string {
  const balls = run.balls.map((ball) => {
    const { x, y, z, radius, colour, isFoil } = ball;
    const circle = `<circle cx="${px(X(x))}" cy="${px(Y(y))}" r="${px(radius * scale)}" ${paints.of(colour).attributes}/>`;
    const seam = `<circle cx="${px(X(x))}" cy="${px(Y(y))}" r="${px(radius * scale * 0.88)}" fill="none" stroke="#fff" stroke-opacity="0.55"/>`;
    return { z, mark: isFoil ? circle + seam : circle };
  });
  const lines = run.lines.map(({ what, from, to, width, colour }) => {
    const path = `M${px(X(from[0]))} ${px(Y(from[1]))}L${px(X(to[0]))} ${px(Y(to[1]))}`;
    const thick = Math.max(3, width * scale);
    if (what === "ribbon")
      return { z: from[2] - 1e-3, mark: `<path d="${path}" stroke="${QUIET}" stroke-width="${RIBBON}"/>` };
    const tint = what === "weight" ? GROUND : colourOf(colour);
    const edge = mixed(channels(tint) ?? [128, 128, 128], 0, 0.35);
    const mark =
      `<path d="${path}" stroke="${edge}" stroke-width="${px(thick + 1.2)}"/>` +
      `<path d="${path}" stroke="${tint}" stroke-width="${px(thick)}"/>`;
    return { z: Math.max(from[2], to[2]), mark };
  });
  return [...lines, ...balls]
    .sort((one, other) => one.z - other.z)
    .map(({ mark }) => mark)
    .join("");
}

function rowMarkup(
  row: Row,
  top: number,
  width: number,
  scale: number,
  paints: Paints,
): {
  readonly markup: string;
  readonly height: number;
} {
  const extents = row.slots.map(({ run }) => extentOf(run));
  const up = Math.max(row.hasPerson ? PERSON_METRES : 0, ...extents.map((extent) => extent.top));
  const ground = top + up * scale;
  const marks: string[] = [
    `<path d="M${px(MARGIN / 2)} ${px(ground)}H${px(width - MARGIN / 2)}" stroke="${GROUND}" stroke-width="2"/>`,
  ];
  const person = row.hasPerson ? Math.max(3, PERSON_WIDTH * scale) : 0;
  const used = row.slots.reduce((sum, slot) => sum + slot.width + GAP, person) - (row.hasPerson ? 0 : GAP);
  let at = Math.max(MARGIN, (width - used) / 2);
  for (const [index, { run, width: room, name, size }] of row.slots.entries()) {
    const { left = 0, right = 0 } = extents[index] ?? {};
    const middle = at + room / 2;
    const X = (x: number): number => middle + (x - (left + right) / 2) * scale;
    const Y = (y: number): number => ground - y * scale;
    marks.push(`<g stroke-width="0.6">${bodyOf(run, X, Y, scale, paints)}</g>`);
    const words = name.map((line, place) => label(middle, ground + LINE * (place + 1), "middle", line));
    const under = label(middle, ground + LINE * (name.length + 1), "middle", size);
    marks.push(`<g fill="${INK}">${words.join("")}</g><g fill="${QUIET}">${under}</g>`);
    at += room + GAP;
  }
  if (row.hasPerson) {
    const bar = { width: person, height: PERSON_METRES * scale };
    marks.push(
      `<rect x="${px(at)}" y="${px(ground - bar.height)}" width="${px(bar.width)}" height="${px(bar.height)}" ` +
        `rx="${px(bar.width / 2)}" fill="${GROUND}"/>`,
    );
  }
  const lines = Math.max(...row.slots.map(({ name }) => name.length)) + 1;
  return { markup: marks.join(""), height: up * scale + LINE * lines + GAP };
}

/** Names of the colours beside their tints, in as many lines as they need. */
function legend(
  names: readonly string[],
  top: number,
  inside: number,
  paints: Paints,
): {
  readonly markup: string;
  readonly height: number;
} {
  let [x, y] = [MARGIN, top + SWATCH];
  const marks = names.map((name) => {
    const text = `${name === "" ? "colour not known" : name}${screenColour(name).isKnown ? "" : " *"}`;
    const width = 2 * SWATCH + 6 + text.length * LETTER + 14;
    if (x > MARGIN && x + width > MARGIN + inside) [x, y] = [MARGIN, y + LINE + 4];
    const mark =
      `<circle cx="${px(x + SWATCH)}" cy="${px(y)}" r="${SWATCH}" stroke-width="0.6" ${paints.of(name).attributes}/>` +
      label(x + 2 * SWATCH + 6, y + 4.5, "start", text);
    x += width;
    return mark;
  });
  const hasStandIn = names.some((name) => !screenColour(name).isKnown);
  if (hasStandIn) marks.push(label(MARGIN, (y += LINE + 4) + 4.5, "start", "* a stand-in tint"));
  return { markup: `<g fill="${INK}">${marks.join("")}</g>`, height: y + LINE - top };
}

/** Colours of pieces in the order in which they first come. */
function namesOf(pieces: readonly DrawnPiece[]): readonly string[] {
  const poles = pieces.flatMap(({ lines }) => lines.filter(({ what }) => what === "pole"));
  return [...new Set([...pieces.flatMap(({ balls }) => balls), ...poles].map(({ colour }) => colour))];
}

/**
 * A front view of pieces side by side at one scale, as the text of an SVG file: each with its name, number and size, the names
 * of the colours, a scale bar, and a bar as tall as a person of 1.7 m. Garlands longer than a row are drawn in lengths.
 *
 * @param pieces of a job; those with nothing to draw are left out
 * @param options title and width
 */
export function eventSvg(pieces: readonly DrawnPiece[], options: EventPictureOptions): string {
  const { width = 960 } = options;
  const drawable = pieces.filter(({ balls, lines }) => balls.length + lines.length > 0);
  const names = namesOf(drawable);
  const counts = drawable.map(({ name, balls }) => `${name} ${balls.length}`).join();
  const id = idOf(`${options.title} ${names.join()} ${counts} ${width}`);
  if (drawable.length === 0) {
    const words = label(width / 2, 64, "middle", "Nothing to draw yet");
    return framed(width, 120, options, id, `<g fill="${INK}">${words}</g>`);
  }
  const inside = width - 2 * MARGIN;
  const runs = drawable.flatMap((piece) => runsOf(piece, ROW_METRES));
  const ordered = [
    ...runs.filter(({ length }) => length === undefined),
    ...runs.filter(({ length }) => length !== undefined),
  ];
  const scale = scaleOf(ordered, inside);
  const paints = paintsOf(names, id);
  const slots = ordered.map((run) => slotOf(run, scale));
  let y = MARGIN;
  const marks = [`<defs>${paints.definitions}</defs>`];
  for (const row of rowsOf(slots, inside, PERSON_WIDTH * scale)) {
    const { markup, height } = rowMarkup(row, y, width, scale, paints);
    marks.push(markup);
    y += height;
  }
  const key = legend(names, y, inside, paints);
  marks.push(key.markup);
  y += key.height + 8;
  const length = roundLength(Math.max(inside / scale / 4, 1e-6));
  const feet = otherUnits("m", length);
  const bar = { y: y + 5, end: MARGIN + length * scale };
  marks.push(
    `<path d="M${MARGIN} ${px(bar.y - 5)}v10M${MARGIN} ${px(bar.y)}H${px(bar.end)}M${px(bar.end)} ${px(bar.y - 5)}v10" ` +
      `stroke="${INK}" stroke-width="1.5" fill="none"/>` +
      `<g fill="${INK}">` +
      label(MARGIN, bar.y + 20, "start", `${length} m${feet === undefined ? "" : ` = ${feet}`}`) +
      label(MARGIN, bar.y + 38, "start", `grey bar: a person of ${PERSON_METRES} m`) +
      `</g>`,
  );
  return framed(width, bar.y + 38 + MARGIN, options, id, marks.join(""));
}

/** What a picture of pieces shows, in words. */
export function eventWords(pieces: readonly DrawnPiece[]): string {
  return pieces
    .map(({ name, quantity, balls }) => {
      const counts = new Map<string, number>();
      for (const { colour } of balls) counts.set(colour, (counts.get(colour) ?? 0) + 1);
      const colours = [...counts].map(
        ([colour, count]) => `${count} ${colour === "" ? "of unknown colour" : colour}`,
      );
      return `${quantity ?? "unknown number of"} x ${name}: ${colours.join(", ")}`;
    })
    .join("; ");
}
