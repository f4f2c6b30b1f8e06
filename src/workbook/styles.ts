import type { BorderEdge, CellStyle } from "./model";
import type { WorkbookPackage } from "./package";
import { NAMESPACES } from "./namespaces";
import { readXml, type XmlElement } from "./xml";
import { decodeXstring } from "./xstring";

/** Formats that files name by number only (ECMA-376 part 1, 18.8.30). */
export const BUILT_IN_FORMATS: ReadonlyMap<number, string> = new Map([
  [0, "General"],
  [1, "0"],
  [2, "0.00"],
  [3, "#,##0"],
  [4, "#,##0.00"],
  [5, '"$"#,##0_);\\("$"#,##0\\)'],
  [6, '"$"#,##0_);[Red]\\("$"#,##0\\)'],
  [7, '"$"#,##0.00_);\\("$"#,##0.00\\)'],
  [8, '"$"#,##0.00_);[Red]\\("$"#,##0.00\\)'],
  [9, "0%"],
  [10, "0.00%"],
  [11, "0.00E+00"],
  [12, "# ?/?"],
  [13, "# ??/??"],
  [14, "mm-dd-yy"],
  [15, "d-mmm-yy"],
  [16, "d-mmm"],
  [17, "mmm-yy"],
  [18, "h:mm AM/PM"],
  [19, "h:mm:ss AM/PM"],
  [20, "h:mm"],
  [21, "h:mm:ss"],
  [22, "m/d/yy h:mm"],
  [37, "#,##0 ;(#,##0)"],
  [38, "#,##0 ;[Red](#,##0)"],
  [39, "#,##0.00;(#,##0.00)"],
  [40, "#,##0.00;[Red](#,##0.00)"],
  [41, '_(* #,##0_);_(* \\(#,##0\\);_(* "-"_);_(@_)'],
  [42, '_("$"* #,##0_);_("$"* \\(#,##0\\);_("$"* "-"_);_(@_)'],
  [43, '_(* #,##0.00_);_(* \\(#,##0.00\\);_(* "-"??_);_(@_)'],
  [44, '_("$"* #,##0.00_);_("$"* \\(#,##0.00\\);_("$"* "-"??_);_(@_)'],
  [45, "mm:ss"],
  [46, "[h]:mm:ss"],
  [47, "mmss.0"],
  [48, "##0.0E+0"],
  [49, "@"],
]);

// ECMA-376 part 1, 18.8.27: 0 to 7 repeat as 8 to 15.
const BASIC = ["000000", "ffffff", "ff0000", "00ff00", "0000ff", "ffff00", "ff00ff", "00ffff"];
const INDEXED: readonly string[] = [
  ...BASIC,
  ...BASIC,
  ...(
    "800000 008000 000080 808000 800080 008080 c0c0c0 808080 9999ff 993366 ffffcc ccffff 660066 ff8080 0066cc " +
    "ccccff 000080 ff00ff ffff00 00ffff 800080 800000 008080 0000ff 00ccff ccffff ccffcc ffff99 99ccff ff99cc " +
    "cc99ff ffcc99 3366ff 33cccc 99cc00 ffcc00 ff9900 ff6600 666699 969696 003366 339966 003300 333300 993300 " +
    "993366 333399 333333"
  ).split(" "),
];
const SYSTEM_FOREGROUND = 64;

/** The theme's colours in the order in which cells number them: light and dark come in pairs, light first. */
const THEME_ORDER = [
  "lt1",
  "dk1",
  "lt2",
  "dk2",
  "accent1",
  "accent2",
  "accent3",
  "accent4",
  "accent5",
  "accent6",
];
const THEME_LINKS = ["hlink", "folHlink"];

const DEFAULT_STYLE: CellStyle = { numberFormat: "General" };

/** The looks that cells refer to by number; one plain look where the file has none. */
export function readStyles(parts: WorkbookPackage, workbookPart: string): readonly CellStyle[] {
  const [part] = parts.linked(workbookPart, "styles");
  if (part === undefined || !parts.has(part)) return [DEFAULT_STYLE];
  const root = readXml(parts.readText(part), part);
  const colors = colorsOf(parts, workbookPart, root);
  const formats = new Map(BUILT_IN_FORMATS);
  for (const format of root.child("numFmts")?.all("numFmt") ?? []) {
    const id = format.number("numFmtId");
    if (id !== undefined) formats.set(id, decodeXstring(format.get("formatCode") ?? "General"));
  }
  const fonts = (root.child("fonts")?.all("font") ?? []).map((font) => readFont(font, colors));
  const fills = (root.child("fills")?.all("fill") ?? []).map((fill) => readFill(fill, colors));
  const borders = (root.child("borders")?.all("border") ?? []).map((border) => readBorders(border, colors));
  const styles = (root.child("cellXfs")?.all("xf") ?? []).map((xf): CellStyle => {
    const fill = fills[xf.number("fillId") ?? 0];
    const edges = borders[xf.number("borderId") ?? 0];
    return {
      numberFormat: formats.get(xf.number("numFmtId") ?? 0) ?? "General",
      ...fonts[xf.number("fontId") ?? 0],
      ...(fill === undefined ? {} : { fill }),
      ...readAlignment(xf.child("alignment")),
      ...(edges === undefined ? {} : { borders: edges }),
    };
  });
  return styles.length > 0 ? styles : [DEFAULT_STYLE];
}

/** Looks and colours that a cell takes on under a condition. */
export interface ConditionalLooks {
  /** By number, as conditions refer to them; only what differs from the cell's own look. */
  readonly looks: readonly ConditionalLook[];
  color(element: XmlElement | undefined): string | undefined;
}

/** What differs under a condition; `isWhole` is false where the file says more than this model holds. */
export interface ConditionalLook {
  readonly look: Partial<CellStyle>;
  readonly isWhole: boolean;
}

/** The looks that conditions refer to (ECMA-376 part 1, 18.8.14). */
export function readConditionalLooks(parts: WorkbookPackage, workbookPart: string): ConditionalLooks {
  const [part] = parts.linked(workbookPart, "styles");
  if (part === undefined || !parts.has(part))
    return { looks: [], color: (element) => hex(element?.get("rgb")) };
  const root = readXml(parts.readText(part), part);
  const colors = colorsOf(parts, workbookPart, root);
  const looks = (root.child("dxfs")?.all("dxf") ?? []).map((dxf): ConditionalLook => {
    const [font, border] = [dxf.child("font"), dxf.child("border")];
    const pattern = dxf.child("fill")?.child("patternFill");
    // Here the colour of a plain fill stands as that of the background.
    const isPlain = ["solid", undefined].includes(pattern?.get("patternType"));
    const fill = isPlain ? colors.read(pattern?.child("bgColor") ?? pattern?.child("fgColor")) : undefined;
    const borders = border && readBorders(border, colors);
    return {
      look: {
        ...(font && readFont(font, colors)),
        ...(fill !== undefined && { fill }),
        ...(borders && { borders }),
      },
      isWhole:
        isPlain &&
        dxf.child("numFmt") === undefined &&
        dxf.child("fill")?.child("gradientFill") === undefined,
    };
  });
  return { looks, color: (element) => colors.read(element) };
}

function colorsOf(parts: WorkbookPackage, workbookPart: string, styles: XmlElement): ColorReader {
  return new ColorReader(readTheme(parts, workbookPart), readPalette(styles));
}

function readFont(font: XmlElement, colors: ColorReader): Partial<CellStyle> {
  const isSet = (local: string): boolean => font.child(local)?.flag("val", true) === true;
  const name = font.child("name")?.get("val");
  const size = font.child("sz")?.number("val");
  const color = colors.read(font.child("color"));
  const underline = font.child("u");
  return {
    ...(isSet("b") ? { bold: true } : {}),
    ...(isSet("i") ? { italic: true } : {}),
    ...(underline !== undefined && underline.get("val") !== "none" ? { underline: true } : {}),
    ...(isSet("strike") ? { strike: true } : {}),
    ...(name === undefined ? {} : { fontName: decodeXstring(name) }),
    ...(size === undefined ? {} : { fontSize: size }),
    ...(color === undefined ? {} : { fontColor: color }),
  };
}

function readFill(fill: XmlElement, colors: ColorReader): string | undefined {
  const pattern = fill.child("patternFill");
  return pattern?.get("patternType") === "solid" ? colors.read(pattern.child("fgColor")) : undefined;
}

function readBorders(border: XmlElement, colors: ColorReader): CellStyle["borders"] {
  const edge = (...names: readonly string[]): BorderEdge | undefined => {
    const element = names.map((name) => border.child(name)).find((found) => found !== undefined);
    const style = element?.get("style");
    if (style === undefined || style === "none") return undefined;
    const color = colors.read(element?.child("color"));
    return { style, ...(color === undefined ? {} : { color }) };
  };
  // Strict files call the sides start and end.
  const edges = {
    top: edge("top"),
    right: edge("right", "end"),
    bottom: edge("bottom"),
    left: edge("left", "start"),
  };
  const found = Object.entries(edges).filter(([, value]) => value !== undefined);
  return found.length > 0 ? Object.fromEntries(found) : undefined;
}

function readAlignment(alignment: XmlElement | undefined): Partial<CellStyle> {
  if (alignment === undefined) return {};
  const across = alignment.get("horizontal");
  const horizontal = (["left", "center", "right", "justify"] as const).find((word) => word === across);
  const upright = alignment.get("vertical");
  const vertical = (["top", "center", "bottom"] as const).find((word) => word === upright);
  return {
    ...(horizontal === undefined ? {} : { horizontal }),
    ...(vertical === undefined ? {} : { vertical }),
    ...(alignment.flag("wrapText") ? { wrap: true } : {}),
  };
}

function readTheme(parts: WorkbookPackage, workbookPart: string): readonly (string | undefined)[] {
  const [part] = parts.linked(workbookPart, "theme");
  if (part === undefined || !parts.has(part)) return [];
  const root = readXml(parts.readText(part), part);
  const scheme = root.child("themeElements", NAMESPACES.drawing)?.child("clrScheme", NAMESPACES.drawing);
  return [...THEME_ORDER, ...THEME_LINKS].map((name) => {
    const [color] = scheme?.child(name, NAMESPACES.drawing)?.children ?? [];
    return hex(color?.get("lastClr") ?? color?.get("val"));
  });
}

function readPalette(styles: XmlElement): readonly (string | undefined)[] {
  const own = styles.child("colors")?.child("indexedColors")?.all("rgbColor") ?? [];
  return own.length > 0 ? own.map((color) => hex(color.get("rgb"))) : INDEXED.map(hex);
}

/** Turns a colour of any kind into `#rrggbb`. */
class ColorReader {
  constructor(
    private readonly theme: readonly (string | undefined)[],
    private readonly palette: readonly (string | undefined)[],
  ) {}

  read(element: XmlElement | undefined): string | undefined {
    if (element === undefined) return undefined;
    const theme = element.number("theme");
    const index = element.number("indexed");
    const base =
      theme !== undefined
        ? this.theme[theme]
        : index !== undefined && index < SYSTEM_FOREGROUND
          ? this.palette[index]
          : hex(element.get("rgb"));
    const tint = element.number("tint") ?? 0;
    return base === undefined || tint === 0 ? base : tintColor(base, Math.max(-1, Math.min(1, tint)));
  }
}

/** Lightens (tint above 0) or darkens a colour by its HSL luminance (ECMA-376 part 1, 18.8.19). */
export function tintColor(color: string, tint: number): string {
  const channels = [1, 3, 5].map((at) => parseInt(color.slice(at, at + 2), 16) / 255);
  const most = Math.max(...channels);
  const least = Math.min(...channels);
  const luminance = (most + least) / 2;
  const tinted = tint < 0 ? luminance * (1 + tint) : luminance * (1 - tint) + tint;
  const room = 1 - Math.abs(2 * luminance - 1);
  const saturation = room === 0 ? 0 : (most - least) / room;
  const spread = saturation * (1 - Math.abs(2 * tinted - 1));
  // Hue and saturation stay: every channel keeps its relative place between the least and the most.
  const moved = channels.map((channel) => {
    const place = most === least ? 0.5 : (channel - least) / (most - least);
    return tinted + spread * (place - 0.5);
  });
  return `#${moved
    .map((value) =>
      Math.round(value * 255)
        .toString(16)
        .padStart(2, "0"),
    )
    .join("")}`;
}

function hex(value: string | undefined): string | undefined {
  const match = /^(?:[0-9a-f]{2})?([0-9a-f]{6})$/i.exec(value ?? "");
  return match?.[1] === undefined ? undefined : `#${match[1].toLowerCase()}`;
}
