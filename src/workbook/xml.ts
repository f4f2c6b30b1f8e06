import { WorkbookError } from "./model";
import { canonical, NAMESPACES } from "./namespaces";
import type { AttributeSource, XmlAttribute, XmlName } from "./xml-markup";
import { scanQuickly } from "./xml-quick";
import { scanBySaxes, type XmlEvents } from "./xml-saxes";

const MAX_DEPTH = 200;
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

const NO_ELEMENTS: readonly XmlElement[] = [];

/** An element with the offsets of its markup in the part's text. */
export class XmlElement implements ElementWriter {
  /** Direct text, complete once the element has closed. */
  text = "";
  /** Offset of the closing tag; equals `contentStart` for an element that closes itself. */
  contentEnd = 0;
  /** Offset behind the element. */
  end = 0;
  private adopted: XmlElement[] | undefined;

  constructor(
    private readonly tag: XmlName,
    readonly parent: XmlElement | undefined,
    private readonly attributes: AttributeSource,
    readonly start: number,
    readonly contentStart: number,
    readonly isSelfClosing: boolean,
  ) {}

  /** As written, with its prefix. */
  get name(): string {
    return this.tag.name;
  }

  get local(): string {
    return this.tag.local;
  }

  get uri(): string {
    return this.tag.uri;
  }

  /** Child elements; filled by `readXml` only. */
  get children(): readonly XmlElement[] {
    return this.adopted ?? NO_ELEMENTS;
  }

  adopt(child: XmlElement): void {
    (this.adopted ??= []).push(child);
  }

  /** An attribute by its name as written. */
  get(name: string): string | undefined {
    return this.attributes.value(name, this.start + 1 + this.tag.name.length, this.contentStart);
  }

  /** An attribute by namespace, whatever its prefix. */
  getQualified(uri: string, local: string): string | undefined {
    return this.written().find((a) => a.local === local && canonical(a.uri) === uri)?.value;
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
    return this.tag.local === local && this.tag.uri === uri;
  }

  child(local: string, uri: string = NAMESPACES.main): XmlElement | undefined {
    return this.children.find((child) => child.is(local, uri));
  }

  all(local: string, uri: string = NAMESPACES.main): readonly XmlElement[] {
    return this.children.filter((child) => child.is(local, uri));
  }

  /** The opening tag, with some attributes replaced, added (a text) or dropped (null). */
  openTag(changes: Readonly<Record<string, string | null>>, selfClosing = false): string {
    const values = new Map(this.written().map((a) => [a.name, a.value]));
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

  private written(): readonly XmlAttribute[] {
    return this.attributes.all(this.start + 1 + this.tag.name.length, this.contentStart);
  }
}

/** Called in document order. */
export interface XmlHandler {
  open?(element: XmlElement): void;
  close?(element: XmlElement): void;
}

/**
 * Walks over a part. Throws WorkbookError for text that is not well-formed, declares a document type, or nests too deep.
 * What lies before the fault was handed to `handler` already.
 */
export function scanXml(xml: string, part: string, handler: XmlHandler): void {
  const events = new ElementMaker(part, handler);
  const rest = scanQuickly(xml, events);
  if (rest !== undefined) scanBySaxes(xml, part, events, rest);
}

/** Makes elements of what is met in a part. */
class ElementMaker implements XmlEvents {
  private current: XmlElement | undefined;
  private depth = 0;
  private elements = 0;

  constructor(
    private readonly part: string,
    private readonly handler: XmlHandler,
  ) {}

  open(
    name: XmlName,
    attributes: AttributeSource,
    start: number,
    contentStart: number,
    isSelfClosing: boolean,
  ): void {
    if (++this.elements > MAX_ELEMENTS) throw tooManyElements(this.part);
    if (++this.depth > MAX_DEPTH) {
      throw new WorkbookError(
        `the part ${this.part} of the file nests deeper than ${String(MAX_DEPTH)} elements`,
      );
    }
    this.current = new XmlElement(name, this.current, attributes, start, contentStart, isSelfClosing);
    this.handler.open?.(this.current);
  }

  text(text: string): void {
    if (this.current !== undefined) this.current.text += text;
  }

  close(contentEnd: number, end: number): void {
    const { current } = this;
    if (current === undefined) return;
    this.depth--;
    current.contentEnd = contentEnd;
    current.end = end;
    this.handler.close?.(current);
    this.current = current.parent;
  }
}

function tooManyElements(part: string): WorkbookError {
  return new WorkbookError(`the file is too large to open: its part ${part} has too many elements`);
}

/** A part as a tree: for parts that stay small. Throws WorkbookError as `scanXml` does. */
export function readXml(xml: string, part: string): XmlElement {
  let root: XmlElement | undefined;
  let elements = 0;
  scanXml(xml, part, {
    open(element) {
      if (++elements > MAX_TREE_ELEMENTS) throw tooManyElements(part);
      root ??= element;
      element.parent?.adopt(element);
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
