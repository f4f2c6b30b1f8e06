import { type SaxesAttributeNS, SaxesParser } from "saxes";
import { WorkbookError } from "./model";

const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006";

/** Namespaces of the transitional form; the strict form is mapped to them while scanning. */
export const NAMESPACES = {
  main: "http://schemas.openxmlformats.org/spreadsheetml/2006/main",
  relationships: `${OFFICE}/relationships`,
  packageRelationships: "http://schemas.openxmlformats.org/package/2006/relationships",
  contentTypes: "http://schemas.openxmlformats.org/package/2006/content-types",
  drawing: "http://schemas.openxmlformats.org/drawingml/2006/main",
} as const;

/** What strict files (ISO/IEC 29500 part 1) write instead. */
export const STRICT_RELATIONSHIPS = "http://purl.oclc.org/ooxml/officeDocument/relationships";
export const STRICT_MAIN = "http://purl.oclc.org/ooxml/spreadsheetml/main";
const STRICT: ReadonlyMap<string, string> = new Map([
  [STRICT_MAIN, NAMESPACES.main],
  [STRICT_RELATIONSHIPS, NAMESPACES.relationships],
  ["http://purl.oclc.org/ooxml/drawingml/main", NAMESPACES.drawing],
]);

const MAX_DEPTH = 200;
const MAX_ATTRIBUTES = 500;
const MAX_ELEMENTS = 8_000_000;
const MAX_TREE_ELEMENTS = 500_000;

/** Writes elements, with or without a prefix. */
export interface ElementWriter {
  /** Markup of an element; attributes and content are markup already. */
  wrap(name: string, attributes: string, content: string): string;
}

/** Writes elements without a prefix. */
export const PLAIN: ElementWriter = {
  wrap(name, attributes, content) {
    const open = attributes === "" ? name : `${name} ${attributes}`;
    return content === "" ? `<${open}/>` : `<${open}>${content}</${name}>`;
  },
};

/** The first line of every XML part that is written anew. */
export const XML_DECLARATION = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

/** An element with the offsets of its markup in the part's text. */
export class XmlElement implements ElementWriter {
  /** Direct text, complete once the element has closed. */
  text = "";
  /** Offset of the closing tag; equals `contentStart` for an element that closes itself. */
  contentEnd = 0;
  /** Offset behind the element. */
  end = 0;
  /** Child elements; filled by `readXml` only. */
  readonly children: XmlElement[] = [];

  constructor(
    /** As written, with its prefix. */
    readonly name: string,
    readonly local: string,
    readonly uri: string,
    readonly parent: XmlElement | undefined,
    private readonly attributes: Readonly<Record<string, SaxesAttributeNS>>,
    readonly start: number,
    readonly contentStart: number,
    readonly isSelfClosing: boolean,
  ) {}

  /** An attribute by its name as written. */
  get(name: string): string | undefined {
    return this.attributes[name]?.value;
  }

  /** An attribute by namespace, whatever its prefix. */
  getQualified(uri: string, local: string): string | undefined {
    return Object.values(this.attributes).find((a) => a.local === local && canonical(a.uri) === uri)?.value;
  }

  /** Whether a boolean attribute is set, `otherwise` where it is absent. */
  flag(name: string, otherwise = false): boolean {
    const value = this.get(name);
    return value === undefined ? otherwise : value === "1" || value === "true" || value === "on";
  }

  /** A number in an attribute, where there is one. */
  number(name: string): number | undefined {
    const value = this.get(name);
    const number = value === undefined || value.trim() === "" ? NaN : Number(value);
    return Number.isFinite(number) ? number : undefined;
  }

  /** Whether white space at the ends of the text counts. */
  keepsSpace(): boolean {
    return (this.get("xml:space") ?? (this.parent?.keepsSpace() === true ? "preserve" : "")) === "preserve";
  }

  is(local: string, uri: string = NAMESPACES.main): boolean {
    return this.local === local && this.uri === uri;
  }

  child(local: string, uri: string = NAMESPACES.main): XmlElement | undefined {
    return this.children.find((child) => child.is(local, uri));
  }

  all(local: string, uri: string = NAMESPACES.main): readonly XmlElement[] {
    return this.children.filter((child) => child.is(local, uri));
  }

  /** The opening tag, with some attributes replaced, added (a text) or dropped (null). */
  openTag(changes: Readonly<Record<string, string | null>>, selfClosing = false): string {
    const values = new Map(Object.values(this.attributes).map((a) => [a.name, a.value]));
    for (const [name, value] of Object.entries(changes)) {
      if (value === null) values.delete(name);
      else values.set(name, value);
    }
    const written = [...values].map(([name, value]) => ` ${name}="${escapeAttribute(value)}"`).join("");
    return `<${this.name}${written}${selfClosing ? "/" : ""}>`;
  }

  /** The name of a sibling or child element, with this element's prefix. */
  named(local: string): string {
    return this.name.slice(0, this.name.length - this.local.length) + local;
  }

  /** Markup of a new element with this element's prefix. */
  wrap(local: string, attributes: string, content: string): string {
    return PLAIN.wrap(this.named(local), attributes, content);
  }
}

/** Called in document order. */
export interface XmlHandler {
  open?(element: XmlElement): void;
  close?(element: XmlElement): void;
}

/** Walks over a part. Throws WorkbookError for text that is not well-formed, declares a document type, or nests too deep. */
export function scanXml(xml: string, part: string, handler: XmlHandler): void {
  // Offsets come from `position`, which counts with or without the tracking that `position: true` adds to errors.
  const parser = new SaxesParser({ xmlns: true, position: false });
  let current: XmlElement | undefined;
  let depth = 0;
  let attributes = 0;
  let elements = 0;
  const tooMany = (what: string): never => {
    throw new WorkbookError(`the file is too large to open: its part ${part} has too many ${what}`);
  };
  parser.on("error", (error) => {
    throw new WorkbookError(`the part ${part} of the file is damaged: ${error.message.replace(/\.$/, "")}`);
  });
  parser.on("doctype", () => {
    throw new WorkbookError(`the part ${part} of the file declares a document type, which is refused`);
  });
  parser.on("xmldecl", ({ encoding }) => {
    if (encoding !== undefined && !/^(?:utf-?8|utf-?16(?:le|be)?|us-ascii)$/i.test(encoding)) {
      throw new WorkbookError(`the part ${part} of the file is written in ${encoding} instead of UTF-8`);
    }
  });
  parser.on("opentagstart", () => {
    attributes = 0;
    if (++elements > MAX_ELEMENTS) tooMany("elements");
    if (++depth > MAX_DEPTH) {
      throw new WorkbookError(`the part ${part} of the file nests deeper than ${String(MAX_DEPTH)} elements`);
    }
  });
  parser.on("attribute", () => {
    if (++attributes > MAX_ATTRIBUTES) tooMany("attributes in one element");
  });
  parser.on("opentag", (tag) => {
    const { position } = parser;
    // Neither a name nor an attribute's value can contain the sign, so the last one begins this tag.
    const start = xml.lastIndexOf("<", position - 1);
    current = new XmlElement(
      tag.name,
      tag.local,
      canonical(tag.uri),
      current,
      tag.attributes,
      start,
      position,
      tag.isSelfClosing,
    );
    handler.open?.(current);
  });
  const text = (chunk: string): void => {
    if (current !== undefined) current.text += chunk;
  };
  parser.on("text", text);
  parser.on("cdata", text);
  parser.on("closetag", () => {
    if (current === undefined) return;
    depth--;
    current.end = parser.position;
    current.contentEnd = current.isSelfClosing
      ? current.contentStart
      : xml.lastIndexOf("<", parser.position - 1);
    handler.close?.(current);
    current = current.parent;
  });
  parser.write(xml).close();
}

/** A part as a tree: for parts that stay small. Throws WorkbookError as `scanXml` does. */
export function readXml(xml: string, part: string): XmlElement {
  let root: XmlElement | undefined;
  let elements = 0;
  scanXml(xml, part, {
    open(element) {
      if (++elements > MAX_TREE_ELEMENTS) {
        throw new WorkbookError(`the file is too large to open: its part ${part} has too many elements`);
      }
      root ??= element;
      element.parent?.children.push(element);
    },
  });
  if (root === undefined) throw new WorkbookError(`the part ${part} of the file is empty`);
  return root;
}

/** A replacement in a part's text; an insertion where `start` equals `end`. */
export interface XmlEdit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** Applies edits that do not overlap; insertions at one place keep their order and come before a replacement there. */
export function applyEdits(xml: string, edits: readonly XmlEdit[]): string {
  const pieces: string[] = [];
  let at = 0;
  for (const edit of [...edits].sort((a, b) => a.start - b.start || a.end - b.end)) {
    pieces.push(xml.slice(at, edit.start), edit.text);
    at = edit.end;
  }
  pieces.push(xml.slice(at));
  return pieces.join("");
}

/** The edit that adds markup as an element's last content. */
export function appendTo(element: XmlElement, markup: string): XmlEdit {
  return element.isSelfClosing
    ? { start: element.start, end: element.end, text: `${element.openTag({})}${markup}</${element.name}>` }
    : { start: element.contentEnd, end: element.contentEnd, text: markup };
}

const ESCAPES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "\t": "&#9;",
  "\n": "&#10;",
  "\r": "&#13;",
};

/** Text for element content. */
export function escapeText(text: string): string {
  return text.replace(/[&<>\r]/g, (character) => ESCAPES[character] ?? character);
}

/** Text for an attribute in double quotes. */
export function escapeAttribute(text: string): string {
  return text.replace(/[&<>"\t\n\r]/g, (character) => ESCAPES[character] ?? character);
}

function canonical(uri: string): string {
  return STRICT.get(uri) ?? uri;
}
