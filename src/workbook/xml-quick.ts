import {
  attributesIn,
  isXmlSpace,
  resolveReferences,
  XML_NAMESPACE,
  XmlScope,
  XMLNS_NAMESPACE,
} from "./xml-markup";
import type { XmlEvents } from "./xml-saxes";

const TAB = 9;
const NEWLINE = 10;
const QUOTE = 34;
const AMPERSAND = 38;
const APOSTROPHE = 39;
const SLASH = 47;
const LESS = 60;
const EQUALS = 61;
const GREATER = 62;
const BRACKET = 93;
const FIRST_SURROGATE = 0xd800;

/** Elements with more attributes than files have are left to the full parser, as comparing them takes long. */
const MOST_ATTRIBUTES = 32;

const DECLARATION =
  /^\uFEFF?(?:<\?xml[ \t\n]+version=(["'])1\.0\1(?:[ \t\n]+encoding=(["'])[Uu][Tt][Ff]-8\2)?(?:[ \t\n]+standalone=(["'])(?:yes|no)\3)?[ \t\n]*\?>)?/;

/**
 * Walks over elements, texts and the references that XML itself defines, as nearly all parts of workbooks have nothing else.
 * Stops in front of whatever else it meets, faults among it, having reported all before.
 *
 * @returns the offset in front of which it stopped; undefined where it came to the end
 */
export function scanQuickly(xml: string, events: XmlEvents): number | undefined {
  const { length } = xml;
  let scope = XmlScope.of(xml);
  /** Names of the open elements, and how many of them are open around each element that declares prefixes. */
  const open: string[] = [];
  const declaring: number[] = [];
  let hasRoot = false;
  const tag = { attributesEnd: 0, isNamespaced: false };
  let at = DECLARATION.exec(xml)?.[0].length ?? 0;
  const leave = (): void => {
    if (declaring.at(-1) === open.length) {
      declaring.pop();
      scope = scope.parent ?? scope;
    }
    open.pop();
  };

  for (;;) {
    // Text up to the next tag.
    const textStart = at;
    let hasReference = false;
    let isBlank = true;
    let code = xml.charCodeAt(at);
    while (at < length && code !== LESS) {
      if (code > 32) {
        isBlank = false;
        if (code === AMPERSAND) hasReference = true;
        else if (code === BRACKET && xml.startsWith("]]>", at)) return textStart;
        else if (code >= FIRST_SURROGATE) {
          const next = usualEnd(xml, at, code);
          if (next === undefined) return textStart;
          at = next - 1;
        }
      } else if (code !== 32 && code !== NEWLINE && code !== TAB) return textStart;
      code = xml.charCodeAt(++at);
    }
    if (open.length === 0) {
      if (!isBlank) return textStart;
      if (at >= length) return hasRoot ? undefined : textStart;
    } else {
      if (at >= length) return textStart;
      if (at > textStart) {
        const written = xml.slice(textStart, at);
        const text = hasReference ? resolveReferences(written) : written;
        if (text === undefined) return textStart;
        events.text(text);
      }
    }

    const start = at;
    code = xml.charCodeAt(start + 1);
    if (code === SLASH) {
      const name = open.at(-1);
      if (name === undefined || !xml.startsWith(name, start + 2)) return start;
      at = start + 2 + name.length;
      while (isXmlSpace(xml.charCodeAt(at))) at++;
      if (xml.charCodeAt(at) !== GREATER) return start;
      at++;
      events.close(start, at);
      leave();
      continue;
    }

    if (hasRoot && open.length === 0) return start;
    let name = scope.recent[code];
    let nameEnd = start + 1 + (name?.name.length ?? 0);
    if (name === undefined || !xml.startsWith(name.name, start + 1) || isNameAt(xml, nameEnd)) {
      nameEnd = endOfName(xml, start + 1);
      if (nameEnd < 0) return start;
      name = scope.nameOf(xml.slice(start + 1, nameEnd));
    }
    if (!walkAttributes(xml, nameEnd, tag)) return start;
    if (tag.isNamespaced) {
      const within = scopeWithin(scope, xml, nameEnd, tag.attributesEnd);
      if (within === undefined) return start;
      if (within !== scope) {
        declaring.push(open.length + 1);
        scope = within;
        name = scope.nameOf(xml.slice(start + 1, nameEnd));
      }
    }
    if (name === undefined) return start;
    scope.recent[code] = name;
    const isSelfClosing = xml.charCodeAt(tag.attributesEnd) === SLASH;
    at = tag.attributesEnd + (isSelfClosing ? 2 : 1);
    hasRoot = true;
    open.push(name.name);
    events.open(name, scope, start, at, isSelfClosing);
    if (!isSelfClosing) continue;
    events.close(at, at);
    leave();
  }
}

/** Behind a character beyond the first planes' letters, where XML allows it. */
function usualEnd(xml: string, at: number, code: number): number | undefined {
  if (code >= 0xe000) return code <= 0xfffd ? at + 1 : undefined;
  if (code > 0xdbff) return undefined;
  const low = xml.charCodeAt(at + 1);
  return low >= 0xdc00 && low <= 0xdfff ? at + 2 : undefined;
}

/** Walks over a tag's attributes up to its `>` or `/>`; false where something is not as it must or mostly is. */
function walkAttributes(
  xml: string,
  from: number,
  tag: { attributesEnd: number; isNamespaced: boolean },
): boolean {
  const names: number[] = [];
  tag.isNamespaced = false;
  let at = from;
  for (;;) {
    const before = at;
    let code = xml.charCodeAt(at);
    while (code === 32 || code === NEWLINE || code === TAB) code = xml.charCodeAt(++at);
    if (code === GREATER || (code === SLASH && xml.charCodeAt(at + 1) === GREATER)) {
      tag.attributesEnd = at;
      return true;
    }
    const start = at;
    at = endOfName(xml, start);
    if (start === before || at < 0 || names.length >= 2 * MOST_ATTRIBUTES) return false;
    for (let i = 0; i < names.length; i += 2) {
      const other = names[i] ?? 0;
      if ((names[i + 1] ?? 0) - other === at - start && isSameText(xml, other, start, at - start))
        return false;
    }
    names.push(start, at);
    tag.isNamespaced ||= isNamespaced(xml, start, at);
    code = xml.charCodeAt(at);
    while (code === 32 || code === NEWLINE || code === TAB) code = xml.charCodeAt(++at);
    if (code !== EQUALS) return false;
    code = xml.charCodeAt(++at);
    while (code === 32 || code === NEWLINE || code === TAB) code = xml.charCodeAt(++at);
    if (code !== QUOTE && code !== APOSTROPHE) return false;
    at = endOfValue(xml, at + 1, code);
    if (at < 0) return false;
  }
}

/** Behind the quotes that close a value; -1 where something is not as it must or mostly is. */
function endOfValue(xml: string, from: number, quote: number): number {
  const { length } = xml;
  let hasReference = false;
  for (let at = from; at < length; at++) {
    const code = xml.charCodeAt(at);
    if (code === quote) {
      const isKnown = !hasReference || resolveReferences(xml.slice(from, at)) !== undefined;
      return isKnown ? at + 1 : -1;
    }
    if (code === AMPERSAND) hasReference = true;
    else if (code === LESS || (code < 32 && code !== NEWLINE && code !== TAB)) return -1;
    else if (code >= FIRST_SURROGATE) {
      const next = usualEnd(xml, at, code);
      if (next === undefined) return -1;
      at = next - 1;
    }
  }
  return -1;
}

function isSameText(xml: string, one: number, other: number, length: number): boolean {
  for (let i = 0; i < length; i++) if (xml.charCodeAt(one + i) !== xml.charCodeAt(other + i)) return false;
  return true;
}

/** Whether an attribute's name has a prefix or declares one. */
function isNamespaced(xml: string, start: number, end: number): boolean {
  if (end - start === 5 && xml.startsWith("xmlns", start)) return true;
  for (let at = start; at < end; at++) if (xml.charCodeAt(at) === 58) return true;
  return false;
}

// 1: may stand in a name; 3: may begin one. Other letters than those of English are left to the full parser.
const NAME_CODES = Uint8Array.from({ length: 128 }, (_, code) => {
  const character = String.fromCharCode(code);
  return /[A-Za-z_]/.test(character) ? 3 : /[0-9.:-]/.test(character) ? 1 : 0;
});

function isNameAt(xml: string, at: number): boolean {
  const code = xml.charCodeAt(at);
  return code > 127 || (NAME_CODES[code] ?? 0) > 0;
}

/** Behind a name with at most one prefix; -1 where there is none, or one with letters beyond those of English. */
function endOfName(xml: string, from: number): number {
  if (NAME_CODES[xml.charCodeAt(from)] !== 3) return -1;
  let at = from + 1;
  let colon = -1;
  for (; ; at++) {
    const code = xml.charCodeAt(at);
    if (code > 127) return -1;
    if ((NAME_CODES[code] ?? 0) === 0) break;
    if (code !== 58) continue;
    // Both sides of a colon are names.
    if (colon >= 0 || NAME_CODES[xml.charCodeAt(at + 1)] !== 3) return -1;
    colon = at;
  }
  return at;
}

/** The scope of an element with prefixed attributes: its own where it declares prefixes; undefined where one is not declared. */
function scopeWithin(scope: XmlScope, xml: string, from: number, to: number): XmlScope | undefined {
  const attributes = attributesIn(xml, from, to);
  const declared = new Map<string, string>();
  for (const [name, value] of attributes) {
    if (name !== "xmlns" && !name.startsWith("xmlns:")) continue;
    const prefix = name.slice("xmlns:".length);
    const isSpecial = ["xml", "xmlns"].includes(prefix) || [XML_NAMESPACE, XMLNS_NAMESPACE].includes(value);
    if (isSpecial || value !== value.trim() || (value === "" && prefix !== "")) return undefined;
    declared.set(prefix, value);
  }
  const within = declared.size === 0 ? scope : scope.within(declared);
  const seen = new Set<string>();
  for (const [name] of attributes) {
    const colon = name.indexOf(":");
    if (colon < 0) continue;
    const uri = within.resolve(name.slice(0, colon));
    const full = `{${uri ?? ""}}${name.slice(colon + 1)}`;
    if (uri === undefined || seen.has(full)) return undefined;
    seen.add(full);
  }
  return within;
}
