import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { strFromU8, unzipSync } from "fflate";
import { SaxesParser } from "saxes";
import { describe, expect, it } from "vitest";
import { WorkbookError } from "../../src/workbook/model";
import { scanXml } from "../../src/workbook/xml";
import { scanQuickly } from "../../src/workbook/xml-quick";

// The full parser saxes, asked here without any code of ours between, is what every walk is held against.

/** What a walk met, up to its end or its fault. */
interface Walk {
  readonly met: readonly unknown[];
  readonly fault: string | undefined;
}

function faultOf(walk: () => void): string | undefined {
  try {
    walk();
    return undefined;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

function bySaxes(xml: string): Walk {
  const met: unknown[] = [];
  const texts: string[] = [];
  const starts: number[] = [];
  const parser = new SaxesParser({ xmlns: true, position: false });
  const fault = faultOf(() => {
    parser.on("error", (error) => {
      throw new Error(error.message.replace(/\.$/, ""));
    });
    parser.on("doctype", () => {
      throw new Error("declares a document type");
    });
    parser.on("opentag", (tag) => {
      const start = xml.lastIndexOf("<", parser.position - 1);
      const attributes = Object.values(tag.attributes).map(({ name, uri, local, value }) => {
        return { name, uri, local, value };
      });
      met.push(["open", tag.name, tag.local, tag.uri, tag.isSelfClosing, start, parser.position, attributes]);
      starts.push(parser.position);
      texts.push("");
    });
    const onText = (text: string): void => {
      if (texts.length > 0) texts.push((texts.pop() ?? "") + text);
    };
    parser.on("text", onText);
    parser.on("cdata", onText);
    parser.on("closetag", (tag) => {
      const contentStart = starts.pop();
      const contentEnd = tag.isSelfClosing ? contentStart : xml.lastIndexOf("<", parser.position - 1);
      met.push(["close", tag.name, texts.pop(), contentEnd, parser.position]);
    });
    parser.write(xml).close();
  });
  return { met, fault };
}

const SENTENCE = /^the part part\.xml of the file (?:is damaged: )?(.*?)(?:, which is refused)?$/;

function byUs(xml: string): Walk {
  const met: unknown[] = [];
  const fault = faultOf(() => {
    scanXml(xml, "part.xml", {
      open(element) {
        const { name, local, uri, isSelfClosing, start, contentStart } = element;
        const tag = element.openTag({});
        met.push(["open", name, local, uri, isSelfClosing, start, contentStart, element, tag]);
      },
      close(element) {
        met.push(["close", element.name, element.text, element.contentEnd, element.end]);
      },
    });
  });
  return { met, fault: fault?.replace(SENTENCE, "$1") };
}

/** Holds what we meet against what saxes meets: elements, attributes by both ways of asking, texts, offsets and the fault. */
function expectSame(xml: string): void {
  const [theirs, ours] = [bySaxes(xml), byUs(xml)];
  expect(ours.fault, xml).toBe(theirs.fault);
  expect(ours.met.length, xml).toBe(theirs.met.length);
  for (const [index, event] of theirs.met.entries()) {
    const own = ours.met[index] as unknown[];
    const [kind, , , , , , , attributes] = event as unknown[];
    if (kind === "close") {
      if (JSON.stringify(own) !== JSON.stringify(event)) expect(own, xml).toEqual(event);
      continue;
    }
    const same = (event as unknown[]).slice(0, 7);
    if (JSON.stringify(own.slice(0, 7)) !== JSON.stringify(same)) expect(own.slice(0, 7), xml).toEqual(same);
    const element = own[7] as {
      get(name: string): unknown;
      getQualified(uri: string, local: string): unknown;
    };
    for (const { name, uri, local, value } of attributes as Record<
      "name" | "uri" | "local" | "value",
      string
    >[]) {
      if (element.get(name) !== value) expect([name, element.get(name)], xml).toEqual([name, value]);
      if (uri !== "" && element.getQualified(uri, local) !== value)
        expect([uri, local], xml).toEqual([value]);
    }
    // In a long part the first of many alike say enough.
    for (const absent of index < 2000 ? ["r", "s", "t", "cm", "xmlns", "p:a"] : []) {
      const isGiven = (attributes as { name: string }[]).some(({ name }) => name === absent);
      if (!isGiven) expect(element.get(absent), xml).toBeUndefined();
    }
  }
}

const PIECES = [
  ..."<>/=\"'&;!?[]-:# \n\tax1é🎈",
  "\r",
  "\r\n",
  "\u0001",
  "\ud800",
  "\uffff",
  "]]>",
  "<a",
  "<b ",
  "<p:c",
  "</a>",
  "</b\n>",
  "</p:c>",
  "/>",
  ' a="1"',
  " s='x>y'",
  ' p:a="2"',
  ' q:a="2"',
  ' xml:space="preserve"',
  ' xmlns:p="urn:p"',
  ' xmlns:q="urn:p"',
  ' xmlns="urn:d"',
  ' xmlns:p=""',
  ' xmlns=" urn:d "',
  "&amp;",
  "&#9;",
  "&#x1F388;",
  "&#0;",
  "&#xD800;",
  "&nbsp;",
  "<!-- c -->",
  "<![CDATA[<x>]]>",
  "<?pi x?>",
  "<!DOCTYPE a>",
];

const TEXT = fc.constantFrom("", "1", " 2.5\n", "é&amp;🎈", "&lt;&#10;", "]] >", "a>b");
const VALUE = fc.constantFrom("", "A1", "x>y", "a&quot;b", "t\n\tt", "&#9;&#x41;", "é🎈", " ");
const NAME = fc.constantFrom("a", "c", "row", "p:c", "p:a", "x14ac.b-1", "é");
const SPACE = fc.constantFrom("", " ", "\n", "\t ");

const ATTRIBUTES = fc
  .uniqueArray(
    fc.tuple(fc.constantFrom("r", "s", "rr", "p:a", "p:r", "xml:space", "xmlns", "xmlns:p"), VALUE, SPACE),
    {
      selector: ([name]) => name,
      maxLength: 5,
    },
  )
  .map((list) =>
    list
      .map(
        ([name, value, space]) =>
          ` ${space}${name}${space}=${space}"${name === "xmlns:p" ? "urn:q" : value}"`,
      )
      .join(""),
  );

const { element: ELEMENT } = fc.letrec<{ element: string }>((tie) => ({
  element: fc.oneof(
    { depthSize: "small", withCrossShrink: true },
    fc.tuple(NAME, ATTRIBUTES, SPACE).map(([name, attributes, space]) => `<${name}${attributes}${space}/>`),
    fc
      .tuple(NAME, ATTRIBUTES, SPACE, fc.array(fc.oneof(TEXT, tie("element")), { maxLength: 4 }))
      .map(
        ([name, attributes, space, content]) =>
          `<${name}${attributes}${space}>${content.join("")}</${name}${space}>`,
      ),
  ),
}));

const DECLARATION = fc.constantFrom(
  "",
  "\ufeff",
  '<?xml version="1.0"?>\n',
  `<?xml version='1.0' encoding="utf-8" standalone='yes' ?>\r\n`,
  '<?xml version="1.1"?>',
  '<?XML version="1.0"?>',
  '<?xml encoding="UTF-8"?>',
  ' <?xml version="1.0"?>',
);

describe("the quick walk meets what saxes meets", { timeout: 60_000 }, () => {
  it("in well-formed parts", () => {
    let plain = 0;
    fc.assert(
      fc.property(DECLARATION, ELEMENT, (declaration, element) => {
        const xml = `${declaration}<root xmlns:p="urn:p">${element}</root>\n`;
        expectSame(xml);
        const nothing = { open: () => undefined, text: () => undefined, close: () => undefined };
        if (scanQuickly(xml, nothing) === undefined) plain++;
      }),
      { numRuns: 3000 },
    );
    // Many of them are plain, or nothing would be tried here.
    expect(plain).toBeGreaterThan(400);
  });

  it("in well-formed parts with one thing put in, taken out or cut off", () => {
    fc.assert(
      fc.property(
        ELEMENT,
        fc.nat(),
        fc.nat(3),
        fc.constantFrom(...PIECES),
        (element, place, taken, piece) => {
          const xml = `<root xmlns:p="urn:p">${element}</root>`;
          const at = place % (xml.length + 1);
          expectSame(xml.slice(0, at) + piece + xml.slice(at + taken));
          expectSame(xml.slice(0, at));
        },
      ),
      { numRuns: 6000 },
    );
  });

  it("in whatever is thrown together", () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...PIECES), { maxLength: 12 }), (pieces) => {
        expectSame(pieces.join(""));
        expectSame(`<a xmlns:p="urn:p">${pieces.join("")}</a>`);
      }),
      { numRuns: 6000 },
    );
  });

  // Real workbooks from public repositories are kept beside this repository.
  const folders = ["sample-workbooks", join(import.meta.dirname, "../../../shared/reference/xlsx")].filter(
    (folder) => existsSync(folder),
  );
  const files = folders.flatMap((folder) => readdirSync(folder).map((name) => join(folder, name)));
  it.each(files.filter((file) => file.endsWith(".xlsx")))(
    "in every part of %s",
    { timeout: 60_000 },
    (file) => {
      for (const [name, content] of Object.entries(unzipSync(readFileSync(file)))) {
        if (/\.(?:xml|rels|vml)$/.test(name)) expectSame(strFromU8(content));
      }
    },
  );
});

it.each([
  [
    "too many elements to compare",
    `<a ${Array.from({ length: 2_000 }, (_, i) => `a${i}=""`).join(" ")}/>`,
    /attributes/,
  ],
  ["a fault behind many elements", `<a>${"<b c='d'>1</b>".repeat(1000)}<b c=d>`, /unquoted attribute value/],
])("refuses %s as saxes would", (_what, xml, why) => {
  const refused = (): void => {
    scanXml(xml, "part.xml", {});
  };
  expect(refused).toThrow(WorkbookError);
  expect(refused).toThrow(why);
});
