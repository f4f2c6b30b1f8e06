import type { IBorderStyleData, IStyleData, Nullable } from "@univerjs/core";
import {
  BooleanNumber,
  BorderStyleTypes,
  HorizontalAlign,
  VerticalAlign,
  WrapStrategy,
} from "@univerjs/core";
import type { CellLook } from "../workbook/cell-looks";
import type { BorderEdge, CellStyle } from "../workbook/model";
import { fontFamily } from "../paper/font-family";
import { fileColor, keptColor } from "./grid-colors";

const BORDERS: Readonly<Record<string, BorderStyleTypes>> = {
  thin: BorderStyleTypes.THIN,
  hair: BorderStyleTypes.HAIR,
  dotted: BorderStyleTypes.DOTTED,
  dashed: BorderStyleTypes.DASHED,
  dashDot: BorderStyleTypes.DASH_DOT,
  dashDotDot: BorderStyleTypes.DASH_DOT_DOT,
  double: BorderStyleTypes.DOUBLE,
  medium: BorderStyleTypes.MEDIUM,
  mediumDashed: BorderStyleTypes.MEDIUM_DASHED,
  mediumDashDot: BorderStyleTypes.MEDIUM_DASH_DOT,
  mediumDashDotDot: BorderStyleTypes.MEDIUM_DASH_DOT_DOT,
  slantDashDot: BorderStyleTypes.SLANT_DASH_DOT,
  thick: BorderStyleTypes.THICK,
};
const HORIZONTAL = {
  left: HorizontalAlign.LEFT,
  center: HorizontalAlign.CENTER,
  right: HorizontalAlign.RIGHT,
  justify: HorizontalAlign.JUSTIFIED,
};
const VERTICAL = { top: VerticalAlign.TOP, center: VerticalAlign.MIDDLE, bottom: VerticalAlign.BOTTOM };

/** A fill keeps its colour in the dark theme, and with it the ink on it; ink on no fill turns light there. */
export function inkAndFill(ink: string | undefined, fill: string | undefined): Pick<IStyleData, "cl" | "bg"> {
  if (fill === undefined) return ink === undefined ? {} : { cl: { rgb: ink } };
  return { cl: { rgb: keptColor(ink ?? "#000000") }, bg: { rgb: keptColor(fill) } };
}

function border(edge: BorderEdge): IBorderStyleData {
  return { s: BORDERS[edge.style] ?? BorderStyleTypes.THIN, cl: { rgb: edge.color ?? "#000000" } };
}

/** A look as the grid takes it. */
export function gridStyle(style: CellStyle): IStyleData {
  const { borders } = style;
  return {
    ...(style.numberFormat !== "General" && { n: { pattern: style.numberFormat } }),
    ...(style.bold && { bl: BooleanNumber.TRUE }),
    ...(style.italic && { it: BooleanNumber.TRUE }),
    ...(style.underline && { ul: { s: BooleanNumber.TRUE } }),
    ...(style.strike && { st: { s: BooleanNumber.TRUE } }),
    ...(style.fontName !== undefined && { ff: fontFamily(style.fontName) }),
    ...(style.fontSize !== undefined && { fs: style.fontSize }),
    ...inkAndFill(style.fontColor, style.fill),
    ...(style.horizontal && { ht: HORIZONTAL[style.horizontal] }),
    vt: VERTICAL[style.vertical ?? "bottom"],
    pd: { l: 3, r: 3 },
    ...(style.wrap && { tb: WrapStrategy.WRAP }),
    ...(borders && {
      bd: {
        ...(borders.top && { t: border(borders.top) }),
        ...(borders.right && { r: border(borders.right) }),
        ...(borders.bottom && { b: border(borders.bottom) }),
        ...(borders.left && { l: border(borders.left) }),
      },
    }),
  };
}

/** All that a look of this page may say, so that it takes the place of another one and does not add to it. */
export function wholeStyle(style: Nullable<IStyleData>): IStyleData {
  const names = ["n", "bl", "it", "ul", "st", "ff", "fs", "cl", "bg", "ht", "vt", "pd", "tb"] as const;
  const plain = Object.fromEntries(names.map((name) => [name, null]));
  return { ...plain, ...style, bd: { t: null, r: null, b: null, l: null, ...style?.bd } } as IStyleData;
}

const BORDER_NAMES = new Map(Object.entries(BORDERS).map(([name, style]) => [style, name]));

function edgeOf(edge: Nullable<IBorderStyleData>): BorderEdge | undefined {
  const style = BORDER_NAMES.get(edge?.s ?? BorderStyleTypes.NONE);
  if (style === undefined) return undefined;
  const color = fileColor(edge?.cl.rgb);
  return { style, ...(color !== undefined && { color }) };
}

function keyOf<T extends string, V>(table: Readonly<Record<T, V>>, value: Nullable<V>): T | undefined {
  return (Object.keys(table) as T[]).find((key) => table[key] === value);
}

/** The look that the file is to hold for what the grid shows. */
export function lookOf(style: Nullable<IStyleData>): CellLook {
  const fill = fileColor(style?.bg?.rgb);
  const ink = fileColor(style?.cl?.rgb);
  const fontName = /^["']?([^"',]+)/.exec(style?.ff ?? "")?.[1];
  const horizontal = keyOf(HORIZONTAL, style?.ht);
  const vertical = keyOf(VERTICAL, style?.vt);
  const edges = {
    top: edgeOf(style?.bd?.t),
    right: edgeOf(style?.bd?.r),
    bottom: edgeOf(style?.bd?.b),
    left: edgeOf(style?.bd?.l),
  };
  const borders = Object.fromEntries(Object.entries(edges).filter(([, edge]) => edge !== undefined));
  return {
    ...(style?.bl === BooleanNumber.TRUE && { bold: true }),
    ...(style?.it === BooleanNumber.TRUE && { italic: true }),
    ...(style?.ul?.s === BooleanNumber.TRUE && { underline: true }),
    ...(style?.st?.s === BooleanNumber.TRUE && { strike: true }),
    ...(fontName !== undefined && { fontName }),
    ...(style?.fs !== undefined && { fontSize: style.fs }),
    ...(ink !== undefined && ink !== "#000000" && { fontColor: ink }),
    ...(fill !== undefined && { fill }),
    ...(horizontal && { horizontal }),
    ...(vertical && vertical !== "bottom" && { vertical }),
    ...(style?.tb === WrapStrategy.WRAP && { wrap: true }),
    ...(Object.keys(borders).length > 0 && { borders }),
  };
}
