import type { BorderEdge, CellStyle } from "./model";
import type { WorkbookPackage } from "./package";
import { appendTo, applyEdits, escapeAttribute, readXml, type XmlEdit, type XmlElement } from "./xml";
import { encodeXstring } from "./xstring";

/** How a cell looks apart from its number format; what is left out is Excel's plain look. */
export type CellLook = Omit<CellStyle, "numberFormat">;

/** A cell that is to look otherwise. */
export interface LookChange {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly look: CellLook;
}

/** The order in which Excel writes what a font is made of. */
const FONT_ORDER =
  "b i strike condense extend outline shadow u vertAlign sz color name family charset scheme".split(" ");
const SIDES = ["left", "right", "top", "bottom"] as const;

/** Styles with other looks; what of a look stays, such as a colour of the theme, stays as the file has it. */
export class LookTable {
  private readonly root: XmlElement;
  private readonly added = new Map<XmlElement, string[]>();
  private readonly made = new Map<string, number>();

  constructor(
    private readonly text: string,
    private readonly part: string,
    private readonly styles: readonly CellStyle[],
  ) {
    this.root = readXml(text, part);
  }

  /** Index of a style like `style` with another look; `style` itself where it looks so already. */
  styleWith(style: number, look: CellLook): number {
    const key = `${String(style)} ${JSON.stringify(look)}`;
    const known = this.made.get(key);
    if (known !== undefined) return known;
    const index = this.make(style, look);
    this.made.set(key, index);
    return index;
  }

  /** Writes the styles that were added into the package. */
  write(parts: WorkbookPackage): void {
    if (this.added.size === 0) return;
    const edits = [...this.added].flatMap(([list, markups]): readonly XmlEdit[] => {
      const count = String(list.children.length + markups.length);
      const { start, contentStart, end, name, isSelfClosing } = list;
      const content = markups.join("");
      if (isSelfClosing) return [{ start, end, text: `${list.openTag({ count })}${content}</${name}>` }];
      return [{ start, end: contentStart, text: list.openTag({ count }) }, appendTo(list, content)];
    });
    parts.writeText(this.part, applyEdits(this.text, edits));
  }

  private make(style: number, look: CellLook): number {
    const before = this.styles[style];
    const list = this.root.child("cellXfs");
    const xf = list?.all("xf")[style];
    if (before === undefined || list === undefined || xf === undefined) return style;
    const attributes: Record<string, string> = {};
    const font = this.font(xf, before, look);
    if (font !== undefined) Object.assign(attributes, { fontId: String(font), applyFont: "1" });
    const fill = this.fill(before, look);
    if (fill !== undefined) Object.assign(attributes, { fillId: String(fill), applyFill: "1" });
    const border = this.border(xf, before, look);
    if (border !== undefined) Object.assign(attributes, { borderId: String(border), applyBorder: "1" });
    const alignment = alignmentMarkup(xf, before, look);
    if (alignment !== undefined) attributes["applyAlignment"] = "1";
    if (Object.keys(attributes).length === 0) return style;
    const kept = xf.children
      .filter((child) => !child.is("alignment") || alignment === undefined)
      .map((child) => this.text.slice(child.start, child.end));
    const content = (alignment ?? "") + kept.join("");
    const markup =
      content === "" ? xf.openTag(attributes, true) : `${xf.openTag(attributes)}${content}</${xf.name}>`;
    return this.add(list, markup);
  }

  private add(list: XmlElement, markup: string): number {
    const added = this.added.get(list) ?? [];
    const same = added.indexOf(markup);
    if (same >= 0) return list.children.length + same;
    added.push(markup);
    this.added.set(list, added);
    return list.children.length + added.length - 1;
  }

  private font(xf: XmlElement, before: CellStyle, look: CellLook): number | undefined {
    const list = this.root.child("fonts");
    const font = list?.all("font")[xf.number("fontId") ?? 0];
    if (list === undefined || font === undefined) return undefined;
    const pieces = new Map(
      font.children.map((child) => [child.local, this.text.slice(child.start, child.end)]),
    );
    const set = (local: string, attributes: string | undefined): void => {
      if (attributes === undefined) pieces.delete(local);
      else pieces.set(local, font.wrap(local, attributes, ""));
    };
    let isChanged = false;
    const change = (isOther: boolean, local: string, attributes: string | undefined): void => {
      if (!isOther) return;
      isChanged = true;
      set(local, attributes);
    };
    const flags = [
      ["bold", "b"],
      ["italic", "i"],
      ["underline", "u"],
      ["strike", "strike"],
    ] as const;
    for (const [name, local] of flags)
      change((before[name] ?? false) !== (look[name] ?? false), local, look[name] === true ? "" : undefined);
    const { fontColor, fontSize, fontName } = look;
    change(inkOf(before.fontColor) !== inkOf(fontColor), "color", fontColor && `rgb="${argb(fontColor)}"`);
    change(
      fontSize !== undefined && fontSize !== before.fontSize,
      "sz",
      fontSize === undefined ? undefined : `val="${String(fontSize)}"`,
    );
    const hasOtherName = fontName !== undefined && fontName !== before.fontName;
    change(hasOtherName, "name", fontName && `val="${escapeAttribute(encodeXstring(fontName))}"`);
    // A theme's font would win over the name.
    change(hasOtherName, "scheme", undefined);
    if (!isChanged) return undefined;
    const ordered = [...pieces].sort(([a], [b]) => FONT_ORDER.indexOf(a) - FONT_ORDER.indexOf(b));
    return this.add(list, font.wrap("font", "", ordered.map(([, markup]) => markup).join("")));
  }

  private fill(before: CellStyle, look: CellLook): number | undefined {
    const list = this.root.child("fills");
    if (list === undefined || before.fill === look.fill) return undefined;
    if (look.fill === undefined) return 0;
    const colors =
      list.wrap("fgColor", `rgb="${argb(look.fill)}"`, "") + list.wrap("bgColor", 'indexed="64"', "");
    return this.add(list, list.wrap("fill", "", list.wrap("patternFill", 'patternType="solid"', colors)));
  }

  private border(xf: XmlElement, before: CellStyle, look: CellLook): number | undefined {
    const list = this.root.child("borders");
    const border = list?.all("border")[xf.number("borderId") ?? 0];
    const isOther = SIDES.some((side) => !isSameEdge(before.borders?.[side], look.borders?.[side]));
    if (list === undefined || border === undefined || !isOther) return undefined;
    const sides = SIDES.map((side) => {
      const edge = look.borders?.[side];
      const old =
        border.child(side) ?? border.child(side === "left" ? "start" : side === "right" ? "end" : side);
      if (isSameEdge(before.borders?.[side], edge)) return old ? this.text.slice(old.start, old.end) : "";
      if (edge === undefined) return list.wrap(side, "", "");
      const color = list.wrap(
        "color",
        edge.color === undefined ? 'auto="1"' : `rgb="${argb(edge.color)}"`,
        "",
      );
      return list.wrap(side, `style="${edge.style}"`, color);
    });
    const rest = border.children
      .filter(({ local }) => !["left", "right", "start", "end", "top", "bottom"].includes(local))
      .map((child) => this.text.slice(child.start, child.end));
    return this.add(list, `${border.openTag({})}${[...sides, ...rest].join("")}</${border.name}>`);
  }
}

function alignmentMarkup(xf: XmlElement, before: CellStyle, look: CellLook): string | undefined {
  const isSame =
    before.horizontal === look.horizontal &&
    (before.vertical ?? "bottom") === (look.vertical ?? "bottom") &&
    (before.wrap ?? false) === (look.wrap ?? false);
  if (isSame) return undefined;
  const changes = {
    horizontal: look.horizontal ?? null,
    vertical: look.vertical ?? null,
    wrapText: look.wrap === true ? "1" : null,
  };
  const old = xf.child("alignment");
  if (old !== undefined) return old.openTag(changes, true);
  const attributes = Object.entries(changes).flatMap(([name, value]) =>
    value === null ? [] : [`${name}="${value}"`],
  );
  return attributes.length === 0 ? "" : xf.wrap("alignment", attributes.join(" "), "");
}

/** A font without a colour is black. */
function inkOf(color: string | undefined): string {
  return color ?? "#000000";
}

function argb(color: string): string {
  return `FF${color.slice(1).toUpperCase()}`;
}

function isSameEdge(a: BorderEdge | undefined, b: BorderEdge | undefined): boolean {
  return a?.style === b?.style && inkOf(a?.color) === inkOf(b?.color);
}

/** Whether a style of a file looks as it is meant to, as far as a look says it: a font that it does not name may be any. */
export function isSameLook(style: CellStyle, look: CellLook): boolean {
  const flags = ["bold", "italic", "underline", "strike", "wrap"] as const;
  return (
    flags.every((flag) => (style[flag] ?? false) === (look[flag] ?? false)) &&
    inkOf(style.fontColor) === inkOf(look.fontColor) &&
    (look.fontSize === undefined || look.fontSize === style.fontSize) &&
    (look.fontName === undefined || look.fontName === style.fontName) &&
    style.fill === look.fill?.toLowerCase() &&
    style.horizontal === look.horizontal &&
    (style.vertical ?? "bottom") === (look.vertical ?? "bottom") &&
    SIDES.every((side) => isSameEdge(style.borders?.[side], look.borders?.[side]))
  );
}
