import type { WorkbookPackage } from "./package";
import { BUILT_IN_FORMATS } from "./styles";
import { appendTo, applyEdits, escapeAttribute, readXml, type XmlEdit, type XmlElement } from "./xml";
import { encodeXstring } from "./xstring";

/** Numbers below this are Excel's own formats (ECMA-376 part 1, 18.8.30). */
const FIRST_OWN_FORMAT = 164;

/** Styles that differ from those of the file in their number format only. They are written into the package as asked for. */
export class NumberFormats {
  private readonly made = new Map<string, number>();

  constructor(
    private readonly parts: WorkbookPackage,
    private readonly workbookPart: string,
    private readonly beforeAdding: () => void,
  ) {}

  /** Index of a style that looks like `style` with another number format; `style` itself in a file without styles. */
  styleWith(style: number, format: string): number {
    const key = `${String(style)} ${format}`;
    const known = this.made.get(key);
    if (known !== undefined) return known;
    this.beforeAdding();
    const index = this.make(style, format);
    this.made.set(key, index);
    return index;
  }

  private make(style: number, format: string): number {
    const [part] = this.parts.linked(this.workbookPart, "styles");
    if (part === undefined || !this.parts.has(part)) return style;
    const text = this.parts.readText(part);
    const root = readXml(text, part);
    const list = root.child("cellXfs");
    const styles = list?.all("xf") ?? [];
    const like = styles[style];
    if (list === undefined || like === undefined) return style;
    const edits: XmlEdit[] = [];
    const id = formatId(root, format, edits);
    const open = like.openTag({ numFmtId: String(id), applyNumberFormat: "1" }, like.isSelfClosing);
    const copy = open + (like.isSelfClosing ? "" : text.slice(like.contentStart, like.end));
    edits.push(...grow(list, styles.length, copy));
    this.parts.writeText(part, applyEdits(text, edits));
    return styles.length;
  }
}

/** The number of a format, added to the file's own formats where it is none of them and none of Excel's. */
function formatId(root: XmlElement, format: string, edits: XmlEdit[]): number {
  const list = root.child("numFmts");
  const stored = encodeXstring(format);
  const own = list?.all("numFmt") ?? [];
  // A file may give a format of its own the number of one of Excel's.
  const taken = new Set(own.map((element) => element.number("numFmtId")));
  for (const [id, code] of BUILT_IN_FORMATS) if (code === format && !taken.has(id)) return id;
  const known = own.find((element) => element.get("formatCode") === stored)?.number("numFmtId");
  if (known !== undefined) return known;
  const id = Math.max(FIRST_OWN_FORMAT - 1, ...own.map((element) => element.number("numFmtId") ?? 0)) + 1;
  const attributes = `numFmtId="${String(id)}" formatCode="${escapeAttribute(stored)}"`;
  const markup = root.wrap("numFmt", attributes, "");
  if (list !== undefined) edits.push(...grow(list, own.length, markup));
  else {
    const at = root.contentStart;
    edits.push({ start: at, end: at, text: root.wrap("numFmts", 'count="1"', markup) });
  }
  return id;
}

function grow(list: XmlElement, size: number, markup: string): readonly XmlEdit[] {
  const { start, contentStart, end, name } = list;
  const open = list.openTag({ count: String(size + 1) });
  if (list.isSelfClosing) return [{ start, end, text: `${open}${markup}</${name}>` }];
  return [{ start, end: contentStart, text: open }, appendTo(list, markup)];
}
