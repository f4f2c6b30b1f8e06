import type { BorderEdge, CellStyle } from "./model";
import { BUILT_IN_FORMATS } from "./styles";
import { NAMESPACES } from "./namespaces";
import { escapeAttribute, PLAIN, XML_DECLARATION } from "./xml";
import { encodeXstring } from "./xstring";

const FIRST_OWN_FORMAT = 164;
const DEFAULT_FONT = { fontName: "Calibri", fontSize: 11 };
/** What Excel expects as the first two fills. */
const FIXED_FILLS = ["none", "gray125"].map((type) => {
  return PLAIN.wrap("fill", "", PLAIN.wrap("patternFill", `patternType="${type}"`, ""));
});

/** Collects the looks of a new workbook and numbers them. Number 0 is the plain look. */
export class StyleTable {
  private readonly formats = new MarkupList();
  private readonly fonts = new MarkupList();
  private readonly fills = new MarkupList(FIXED_FILLS);
  private readonly borders = new MarkupList();
  private readonly looks = new MarkupList();

  constructor() {
    this.add({});
  }

  /** The number of a look. */
  add(style: Partial<CellStyle>): number {
    const format = this.formatId(style.numberFormat ?? "General");
    const font = this.fonts.add(fontMarkup({ ...DEFAULT_FONT, ...style }));
    const fill = style.fill === undefined ? 0 : this.fills.add(fillMarkup(style.fill));
    const border = this.borders.add(bordersMarkup(style.borders ?? {}));
    const alignment = [
      ...(style.horizontal === undefined ? [] : [`horizontal="${style.horizontal}"`]),
      ...(style.vertical === undefined ? [] : [`vertical="${style.vertical}"`]),
      ...(style.wrap === true ? ['wrapText="1"'] : []),
    ].join(" ");
    const ids = { numFmtId: format, fontId: font, fillId: fill, borderId: border };
    const applied = [
      ...Object.entries(ids).map(([name, id]) => `${name}="${String(id)}"`),
      'xfId="0"',
      ...(format === 0 ? [] : ['applyNumberFormat="1"']),
      ...(font === 0 ? [] : ['applyFont="1"']),
      ...(fill === 0 ? [] : ['applyFill="1"']),
      ...(border === 0 ? [] : ['applyBorder="1"']),
      ...(alignment === "" ? [] : ['applyAlignment="1"']),
    ];
    const child = alignment === "" ? "" : PLAIN.wrap("alignment", alignment, "");
    return this.looks.add(PLAIN.wrap("xf", applied.join(" "), child));
  }

  /** The styles part. */
  markup(): string {
    const normal = PLAIN.wrap("xf", 'numFmtId="0" fontId="0" fillId="0" borderId="0"', "");
    const content = [
      this.formats.count > 0 ? this.formats.markup("numFmts") : "",
      this.fonts.markup("fonts"),
      this.fills.markup("fills"),
      this.borders.markup("borders"),
      PLAIN.wrap("cellStyleXfs", 'count="1"', normal),
      this.looks.markup("cellXfs"),
      PLAIN.wrap(
        "cellStyles",
        'count="1"',
        PLAIN.wrap("cellStyle", 'name="Normal" xfId="0" builtinId="0"', ""),
      ),
      PLAIN.wrap("dxfs", 'count="0"', ""),
    ];
    return XML_DECLARATION + PLAIN.wrap("styleSheet", `xmlns="${NAMESPACES.main}"`, content.join(""));
  }

  private formatId(format: string): number {
    for (const [id, code] of BUILT_IN_FORMATS) if (code === format) return id;
    const code = escapeAttribute(encodeXstring(format));
    // The markup holds its own number, so an equal format must be found by its code.
    const known = this.formats.find((markup) => markup.endsWith(` formatCode="${code}"/>`));
    if (known >= 0) return FIRST_OWN_FORMAT + known;
    const id = FIRST_OWN_FORMAT + this.formats.count;
    this.formats.add(PLAIN.wrap("numFmt", `numFmtId="${String(id)}" formatCode="${code}"`, ""));
    return id;
  }
}

/** Different pieces of markup in the order of their first use. */
class MarkupList {
  private readonly items: string[];

  constructor(fixed: readonly string[] = []) {
    this.items = [...fixed];
  }

  get count(): number {
    return this.items.length;
  }

  add(markup: string): number {
    const known = this.items.indexOf(markup);
    return known >= 0 ? known : this.items.push(markup) - 1;
  }

  find(isWanted: (markup: string) => boolean): number {
    return this.items.findIndex(isWanted);
  }

  markup(name: string): string {
    return PLAIN.wrap(name, `count="${String(this.items.length)}"`, this.items.join(""));
  }
}

function fontMarkup(style: Partial<CellStyle>): string {
  const content = [
    style.bold === true ? "<b/>" : "",
    style.italic === true ? "<i/>" : "",
    style.strike === true ? "<strike/>" : "",
    style.underline === true ? "<u/>" : "",
    PLAIN.wrap("sz", `val="${String(style.fontSize)}"`, ""),
    style.fontColor === undefined ? "" : PLAIN.wrap("color", `rgb="${argb(style.fontColor)}"`, ""),
    PLAIN.wrap("name", `val="${escapeAttribute(style.fontName ?? "")}"`, ""),
    PLAIN.wrap("family", 'val="2"', ""),
  ];
  return PLAIN.wrap("font", "", content.join(""));
}

function fillMarkup(color: string): string {
  const colors =
    PLAIN.wrap("fgColor", `rgb="${argb(color)}"`, "") + PLAIN.wrap("bgColor", 'indexed="64"', "");
  return PLAIN.wrap("fill", "", PLAIN.wrap("patternFill", 'patternType="solid"', colors));
}

function bordersMarkup(borders: NonNullable<CellStyle["borders"]>): string {
  const edge = (name: string, { style, color }: Partial<BorderEdge> = {}): string => {
    if (style === undefined) return PLAIN.wrap(name, "", "");
    return PLAIN.wrap(name, `style="${style}"`, PLAIN.wrap("color", `rgb="${argb(color ?? "#000000")}"`, ""));
  };
  const { left, right, top, bottom } = borders;
  const edges = [edge("left", left), edge("right", right), edge("top", top), edge("bottom", bottom)];
  return PLAIN.wrap("border", "", `${edges.join("")}<diagonal/>`);
}

/** `#rrggbb` as files write it, fully opaque. */
export function argb(color: string): string {
  return `FF${color.slice(1).toUpperCase()}`;
}
