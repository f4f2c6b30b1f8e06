import { SaxesParser } from "saxes";
import { WorkbookError } from "./model";
import { canonical } from "./namespaces";
import type { AttributeSource, XmlAttribute, XmlName } from "./xml-markup";

/** What is met in a part, in the order of its text. */
export interface XmlEvents {
  /** An opening tag from `start` up to `contentStart`; one that closes itself is followed by its end. */
  open(
    name: XmlName,
    attributes: AttributeSource,
    start: number,
    contentStart: number,
    isSelfClosing: boolean,
  ): void;
  text(text: string): void;
  /** The end of the element that was opened last: where its closing tag begins, and behind it. */
  close(contentEnd: number, end: number): void;
}

const MAX_ATTRIBUTES = 500;
const LESS = 60;

/** Attributes as the parser gives them. */
class GivenAttributes implements AttributeSource {
  constructor(private readonly given: Readonly<Record<string, XmlAttribute>>) {}

  value(name: string): string | undefined {
    return this.given[name]?.value;
  }

  all(): readonly XmlAttribute[] {
    return Object.values(this.given);
  }
}

/**
 * Walks over a whole part by the full parser. Throws WorkbookError for text that is not well-formed or declares a document type.
 *
 * @param from an offset in front of a tag or text: what lies before was reported already
 */
export function scanBySaxes(xml: string, part: string, events: XmlEvents, from = 0): void {
  // Offsets come from `position`, which counts with or without the tracking that `position: true` adds to errors.
  const parser = new SaxesParser({ xmlns: true, position: false });
  let attributes = 0;
  const isKnown = (): boolean => parser.position <= from;
  parser.on("error", (error) => {
    throw new WorkbookError(`the part ${part} of the file is damaged: ${error.message.replace(/\.$/, "")}`);
  });
  // With more listeners than it needs here the parser takes four times as long: engines keep it in another form then.
  const mayHold = (sign: string): boolean => xml.includes(sign);
  if (mayHold("<!DOCTYPE")) {
    parser.on("doctype", () => {
      throw new WorkbookError(`the part ${part} of the file declares a document type, which is refused`);
    });
  }
  parser.on("xmldecl", ({ encoding }) => {
    if (encoding !== undefined && !/^(?:utf-?8|utf-?16(?:le|be)?|us-ascii)$/i.test(encoding)) {
      throw new WorkbookError(`the part ${part} of the file is written in ${encoding} instead of UTF-8`);
    }
  });
  parser.on("attribute", () => {
    if (++attributes > MAX_ATTRIBUTES) {
      throw new WorkbookError(
        `the file is too large to open: its part ${part} has too many attributes in one element`,
      );
    }
  });
  let isSelfClosing = false;
  parser.on("opentag", (tag) => {
    attributes = 0;
    if (isKnown()) return;
    const { position } = parser;
    ({ isSelfClosing } = tag);
    const start = tagStart(xml, position);
    const name = { name: tag.name, local: tag.local, uri: canonical(tag.uri) };
    events.open(name, new GivenAttributes(tag.attributes), start, position, isSelfClosing);
  });
  const onText = (chunk: string): void => {
    // Text is reported with the sign behind it.
    if (parser.position > from + 1) events.text(chunk);
  };
  parser.on("text", onText);
  if (mayHold("<![CDATA[")) parser.on("cdata", onText);
  parser.on("closetag", () => {
    if (isKnown()) return;
    const { position } = parser;
    events.close(isSelfClosing ? position : tagStart(xml, position), position);
    isSelfClosing = false;
  });
  parser.write(xml).close();
}

/** Where the tag begins that ends at an offset: neither a name nor an attribute's value can contain the sign. */
function tagStart(xml: string, end: number): number {
  let at = end - 1;
  // Several times as quick as lastIndexOf, which is asked for every tag.
  while (at > 0 && xml.charCodeAt(at) !== LESS) at--;
  return at;
}
