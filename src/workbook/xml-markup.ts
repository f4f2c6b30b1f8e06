import { canonical } from "./namespaces";

// What a tag's markup says, read from a text that is known to be well-formed XML (W3C, Extensible Markup Language 1.0).

/** An attribute with the namespace that its prefix stands for; one without a prefix has none. */
export interface XmlAttribute {
  readonly name: string;
  readonly local: string;
  readonly uri: string;
  readonly value: string;
}

/** Attributes of elements, wherever they are kept. */
export interface AttributeSource {
  /** Value of an attribute by its name as written; `from` and `to` enclose the attributes in the part's text. */
  value(name: string, from: number, to: number): string | undefined;
  all(from: number, to: number): readonly XmlAttribute[];
}

/** A name with what its prefix stands for, in the transitional form. */
export interface XmlName {
  /** As written, with its prefix. */
  readonly name: string;
  readonly local: string;
  readonly uri: string;
}

export const XML_NAMESPACE = "http://www.w3.org/XML/1998/namespace";
export const XMLNS_NAMESPACE = "http://www.w3.org/2000/xmlns/";

/** What prefixes stand for in a part of the text, and the attributes of the elements there. */
export class XmlScope implements AttributeSource {
  private readonly names = new Map<string, XmlName>();
  /** The last name that began with each letter: most tags have the name of one before. */
  readonly recent: (XmlName | undefined)[] = [];

  private constructor(
    private readonly xml: string,
    readonly parent: XmlScope | undefined,
    private readonly declared: ReadonlyMap<string, string>,
  ) {}

  /** What prefixes stand for before any is declared (W3C, Namespaces in XML 1.0, section 3). */
  static of(xml: string): XmlScope {
    const known = { xml: XML_NAMESPACE, xmlns: XMLNS_NAMESPACE, "": "" };
    return new XmlScope(xml, undefined, new Map(Object.entries(known)));
  }

  /** The scope of an element that declares prefixes. */
  within(declared: ReadonlyMap<string, string>): XmlScope {
    return new XmlScope(this.xml, this, declared);
  }

  resolve(prefix: string): string | undefined {
    return this.declared.get(prefix) ?? this.parent?.resolve(prefix);
  }

  /** An element's name; undefined where its prefix is not declared. */
  nameOf(name: string): XmlName | undefined {
    const known = this.names.get(name);
    if (known !== undefined) return known;
    const colon = name.indexOf(":");
    const prefix = name.slice(0, Math.max(0, colon));
    const uri = this.resolve(prefix);
    if (uri === undefined || prefix === "xmlns" || (uri === "" && prefix !== "")) return undefined;
    const made = { name, local: name.slice(colon + 1), uri: canonical(uri) };
    this.names.set(name, made);
    return made;
  }

  value(name: string, from: number, to: number): string | undefined {
    const { xml } = this;
    for (let at = nameStart(xml, from, to); at < to;) {
      const end = nameEnd(xml, at);
      const isWanted = end - at === name.length && xml.startsWith(name, at);
      const open = quoteAt(xml, end);
      const close = xml.indexOf(xml.charAt(open), open + 1);
      if (isWanted) return attributeValue(xml.slice(open + 1, close));
      at = nameStart(xml, close + 1, to);
    }
    return undefined;
  }

  all(from: number, to: number): readonly XmlAttribute[] {
    return attributesIn(this.xml, from, to).map(([name, value]) => {
      const colon = name.indexOf(":");
      const prefix = colon < 0 ? (name === "xmlns" ? name : undefined) : name.slice(0, colon);
      const uri = prefix === undefined ? "" : (this.resolve(prefix) ?? "");
      return { name, local: name.slice(colon + 1), uri, value };
    });
  }
}

/** Names and values of a tag's attributes as they stand. */
export function attributesIn(xml: string, from: number, to: number): (readonly [string, string])[] {
  const found: (readonly [string, string])[] = [];
  for (let at = nameStart(xml, from, to); at < to;) {
    const end = nameEnd(xml, at);
    const open = quoteAt(xml, end);
    const close = xml.indexOf(xml.charAt(open), open + 1);
    found.push([xml.slice(at, end), attributeValue(xml.slice(open + 1, close))]);
    at = nameStart(xml, close + 1, to);
  }
  return found;
}

const SLASH = 47;
const EQUALS = 61;
const GREATER = 62;

export function isXmlSpace(code: number): boolean {
  return code === 32 || code === 10 || code === 9;
}

/** Where the next attribute begins; `to` where there is none. */
function nameStart(xml: string, from: number, to: number): number {
  let at = from;
  while (at < to && isXmlSpace(xml.charCodeAt(at))) at++;
  const code = xml.charCodeAt(at);
  return code === SLASH || code === GREATER ? to : at;
}

function nameEnd(xml: string, from: number): number {
  let at = from;
  for (let code = xml.charCodeAt(at); code !== EQUALS && !isXmlSpace(code); code = xml.charCodeAt(at)) at++;
  return at;
}

/** Where the quotes of the value behind a name open. */
function quoteAt(xml: string, from: number): number {
  let at = from;
  for (let code = xml.charCodeAt(at); code === EQUALS || isXmlSpace(code); code = xml.charCodeAt(at)) at++;
  return at;
}

/** A value as written becomes what it says (section 3.3.3): white space is blanks, references are resolved. */
function attributeValue(written: string): string {
  if (!/[&\t\n]/.test(written)) return written;
  const blank = written.replace(/[\t\n]/g, " ");
  return resolveReferences(blank) ?? blank;
}

const ENTITIES: ReadonlyMap<string, string> = new Map([
  ["amp", "&"],
  ["lt", "<"],
  ["gt", ">"],
  ["quot", '"'],
  ["apos", "'"],
]);

/** Text with its references resolved; undefined where one has no meaning by itself (section 4.1 and 4.6). */
export function resolveReferences(text: string): string | undefined {
  let resolved = "";
  let done = 0;
  for (let at = text.indexOf("&"); at >= 0; at = text.indexOf("&", done)) {
    const end = text.indexOf(";", at);
    if (end < 0) return undefined;
    const name = text.slice(at + 1, end);
    const character = ENTITIES.get(name) ?? characterOf(name);
    if (character === undefined) return undefined;
    resolved += text.slice(done, at) + character;
    done = end + 1;
  }
  return resolved + text.slice(done);
}

function characterOf(reference: string): string | undefined {
  const [, hex, decimal] = /^#(?:x([0-9a-fA-F]{1,6})|([0-9]{1,7}))$/.exec(reference) ?? [];
  const code = hex === undefined ? Number(decimal ?? NaN) : parseInt(hex, 16);
  return isXmlCharacter(code) ? String.fromCodePoint(code) : undefined;
}

/** Whether a code point may stand in XML (section 2.2). */
function isXmlCharacter(code: number): boolean {
  if (code < 0x20) return code === 9 || code === 10 || code === 13;
  return code <= 0xd7ff || (code >= 0xe000 && code <= 0xfffd) || (code >= 0x10000 && code <= 0x10ffff);
}
