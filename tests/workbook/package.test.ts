import fc from "fast-check";
import { strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { WorkbookError } from "../../src/workbook/model";
import { WorkbookPackage } from "../../src/workbook/package";
import { openWorkbook } from "../../src/workbook/read";
import { PACKAGE_LIMITS } from "../../src/workbook/zip";
import { tinyParts, tinyWorkbook, zipParts } from "./tiny-package";

/** The sentence with which a file is refused; the file's bytes must stay as they were. */
function refusal(bytes: Uint8Array, limits = PACKAGE_LIMITS): string {
  const before = bytes.slice();
  let sentence = "";
  try {
    openWorkbook(bytes, { limits });
  } catch (error) {
    if (!(error instanceof WorkbookError)) throw error;
    sentence = error.message;
  }
  expect(Buffer.compare(bytes, before)).toBe(0);
  return sentence;
}

/** Where a signature first stands, counted from an offset. */
function find(bytes: Uint8Array, signature: readonly number[], from = 0): number {
  for (let at = from; at < bytes.length; at++)
    if (signature.every((byte, i) => bytes[at + i] === byte)) return at;
  throw new Error("no such signature");
}

const utf16 = (text: string): Uint8Array => Uint8Array.from([...text].flatMap((c) => [c.charCodeAt(0), 0]));
const ole = (stream: string): Uint8Array => {
  return Uint8Array.from([
    0xd0,
    0xcf,
    0x11,
    0xe0,
    0xa1,
    0xb1,
    0x1a,
    0xe1,
    ...new Array<number>(504).fill(0),
    ...utf16(stream),
  ]);
};
const CENTRAL = [0x50, 0x4b, 1, 2];

describe("a file that is no .xlsx workbook", () => {
  it.each<[string, Uint8Array, RegExp]>([
    ["nothing", new Uint8Array(), /empty/],
    ["an encrypted workbook", ole("EncryptedPackage"), /protected with a password/],
    ["an old workbook", ole("Workbook"), /\.xls\)/],
    ["a binary workbook", zipParts({ ...tinyParts(), "xl/workbook.bin": "x" }), /\.xlsb/],
    [
      "an OpenDocument file",
      zipParts({ mimetype: "application/vnd.oasis.opendocument.spreadsheet", "content.xml": "<a/>" }),
      /\.ods/,
    ],
    [
      "a text document",
      zipParts({ "[Content_Types].xml": "<Types/>", "word/document.xml": "<a/>" }),
      /\.docx/,
    ],
    [
      "a presentation",
      zipParts({ "[Content_Types].xml": "<Types/>", "ppt/presentation.xml": "<a/>" }),
      /\.pptx/,
    ],
    ["another archive", zipParts({ "readme.txt": "hello" }), /ZIP archive/],
    ["comma-separated values", strToU8("colour,price\nred,1.5\nblé,2\n"), /\.csv/],
    ["a page", strToU8("<html><table></table></html>"), /page or XML/],
    ["an XML workbook", strToU8('<?xml version="1.0"?><Workbook/>'), /page or XML/],
    ["a PDF", strToU8("%PDF-1.7"), /PDF/],
    ["noise", Uint8Array.from({ length: 400 }, (_, i) => (i * 71) % 256), /not an \.xlsx/],
    ["no workbook part", tinyWorkbook({ parts: { "xl/workbook.xml": null } }), /no workbook part/],
    ["no links", tinyWorkbook({ parts: { "_rels/.rels": null } }), /no workbook part/],
    ["no content types", tinyWorkbook({ parts: { "[Content_Types].xml": null } }), /ZIP archive/],
    [
      "a workbook part of another type",
      zipParts({
        ...tinyParts(),
        "[Content_Types].xml":
          "<Types xmlns='http://schemas.openxmlformats.org/package/2006/content-types'><Default Extension='xml' ContentType='text/xml'/></Types>",
      }),
      /main part is text\/xml/,
    ],
    [
      "a sheet part of another type",
      tinyWorkbook({
        overrides: "",
        parts: {
          "[Content_Types].xml": String(tinyParts()["[Content_Types].xml"]).replace(
            "spreadsheetml.worksheet+xml",
            "spreadsheetml.table+xml",
          ),
        },
      }),
      /sheet "Sheet one" is .*table/,
    ],
    ["a sheet without part", tinyWorkbook({ parts: { "xl/worksheets/sheet1.xml": null } }), /missing/],
    [
      "a workbook part that holds something else",
      tinyWorkbook({ parts: { "xl/workbook.xml": "<a/>" } }),
      /something else/,
    ],
    [
      "a sheet part that holds something else",
      tinyWorkbook({ parts: { "xl/worksheets/sheet1.xml": "<a/>" } }),
      /something else/,
    ],
    [
      "a part that is not text",
      tinyWorkbook({ parts: { "xl/workbook.xml": Uint8Array.from([60, 0xff, 0xff, 62]) } }),
      /not text/,
    ],
  ])("%s is named", (_name, bytes, sentence) => {
    expect(refusal(bytes)).toMatch(sentence);
  });
});

describe("a hostile or damaged file", () => {
  it("is refused at every length that it can be cut to", () => {
    const whole = tinyWorkbook({ rows: '<row r="1"><c r="A1"><v>1</v></c></row>' });
    for (let length = 0; length < whole.length; length += 7)
      expect(refusal(whole.slice(0, length))).not.toBe("");
  });

  it("gives a sentence or opens, whichever bytes are damaged", () => {
    const whole = tinyWorkbook({
      rows: '<row r="1"><c r="A1"><v>1</v></c></row>',
      strings: "<si><t>x</t></si>",
    });
    const damage = fc.array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(damage, (changes) => {
        const bytes = whole.slice();
        for (const [at, byte] of changes) bytes[at] = byte;
        refusal(bytes);
      }),
      { numRuns: 400 },
    );
  });

  it.each(["../evil.xml", "/abs.xml", "xl\\evil.xml", "a/../../b", "C:/x", "a//b", "./a", "x\u0000y"])(
    "with a part named %j is refused",
    (name) => {
      expect(refusal(tinyWorkbook({ parts: { [name]: "x" } }))).toMatch(/unsafe name|damaged/);
    },
  );

  it("with one part under two spellings is refused", () => {
    expect(refusal(tinyWorkbook({ parts: { "XL/Workbook.xml": "x" } }))).toMatch(/twice/);
  });

  it("with a link that leads out of the package stays at its root, as RFC 3986 5.2.4 says", () => {
    const rels = String(tinyParts()["xl/_rels/workbook.xml.rels"]).replace(
      "worksheets/",
      "../../worksheets/",
    );
    expect(refusal(tinyWorkbook({ parts: { "xl/_rels/workbook.xml.rels": rels } }))).toMatch(
      /damaged: sheet "Sheet one" is/,
    );
  });

  it("with a part that another name hides is refused", () => {
    const bytes = tinyWorkbook();
    const at = find(bytes, [...strToU8("xl/workbook.xml")]);
    bytes[at] = 0x79;
    expect(refusal(bytes)).toMatch(/two different names/);
  });

  it("with parts over each other is refused", () => {
    const bytes = zipSync({ "a.xml": strToU8("<a>1</a>"), "b.xml": strToU8("<a>1</a>") }, { level: 0 });
    const second = find(bytes, CENTRAL, find(bytes, CENTRAL) + 1);
    bytes.set([0, 0, 0, 0], second + 42);
    bytes.set(strToU8("a.xml"), second + 46);
    expect(refusal(bytes)).toMatch(/over each other|twice/);
  });

  it("with an encrypted part is refused", () => {
    const bytes = tinyWorkbook();
    const at = find(bytes, CENTRAL);
    bytes[at + 8] = (bytes[at + 8] ?? 0) | 1;
    expect(refusal(bytes)).toMatch(/password/);
  });

  it("with an unknown compression is refused", () => {
    const bytes = tinyWorkbook();
    bytes[find(bytes, CENTRAL) + 10] = 12;
    expect(refusal(bytes)).toMatch(/compressed in a way/);
  });

  it("that unpacks to more than the limits is refused before it is unpacked", () => {
    const bomb = tinyWorkbook({ parts: { "xl/worksheets/sheet1.xml": new Uint8Array(4_000_000) } });
    expect(bomb.length).toBeLessThan(20_000);
    expect(refusal(bomb, { ...PACKAGE_LIMITS, partBytes: 1_000_000 })).toMatch(/too large/);
    expect(refusal(bomb, { ...PACKAGE_LIMITS, totalBytes: 1_000_000 })).toMatch(/too large/);
    expect(refusal(bomb, { ...PACKAGE_LIMITS, parts: 2 })).toMatch(/more than 2 parts/);
  });

  it("that is just as large as the limits is opened", () => {
    const parts = tinyParts();
    const sizes = Object.values(parts).map((content) => content.length);
    const limits = {
      parts: sizes.length,
      partBytes: Math.max(...sizes),
      totalBytes: sizes.reduce((sum, size) => sum + size, 0),
    };
    const bytes = zipParts(parts);
    expect(refusal(bytes, limits)).toBe("");
    expect(refusal(bytes, { ...limits, parts: limits.parts - 1 })).toMatch(/has more than \d+ parts/);
    expect(refusal(bytes, { ...limits, partBytes: limits.partBytes - 1 })).toMatch(/too large/);
    expect(refusal(bytes, { ...limits, totalBytes: limits.totalBytes - 1 })).toMatch(/too large/);
  });

  it.each([10, 3_999_999])(
    "that says %i bytes where 4 million are is refused while it is unpacked",
    (said) => {
      const bomb = tinyWorkbook({ parts: { "xl/worksheets/sheet1.xml": new Uint8Array(4_000_000) } });
      for (let at = find(bomb, CENTRAL); ; at = find(bomb, CENTRAL, at + 1)) {
        const view = new DataView(bomb.buffer, bomb.byteOffset);
        if (view.getUint32(at + 24, true) !== 4_000_000) continue;
        view.setUint32(at + 24, said, true);
        break;
      }
      expect(refusal(bomb)).toMatch(/sheet1\.xml of the file is damaged/);
    },
  );

  it("that says more bytes than its data can give is refused", () => {
    const bytes = tinyWorkbook();
    const view = new DataView(bytes.buffer, bytes.byteOffset);
    view.setUint32(find(bytes, CENTRAL) + 24, 90_000_000, true);
    expect(refusal(bytes)).toMatch(/size is not the one/);
  });

  it("with sheets that share a part is refused", () => {
    const workbook = String(tinyParts()["xl/workbook.xml"]);
    const twice = workbook.replace("</sheets>", '<sheet name="Two" sheetId="2" r:id="rId1"/></sheets>');
    expect(refusal(tinyWorkbook({ parts: { "xl/workbook.xml": twice } }))).toMatch(/share/);
  });

  it("with millions of spaces or an endless shared formula is answered at once", () => {
    const spaces = `a${" ".repeat(3_000_000)}a`;
    expect(refusal(tinyWorkbook({ rows: `<row r="1"><c r="A1" t="str"><v> ${spaces} </v></c></row>` }))).toBe(
      "",
    );
    const text = `"${"x".repeat(200_000)}`;
    const rows = `<row r="1"><c r="A1"><f t="shared" ref="A1:B1" si="0">${text}</f></c><c r="B1"><f t="shared" si="0"/></c></row>`;
    expect(refusal(tinyWorkbook({ rows }))).toMatch(/too long/);
  });

  it("whose content does not fit its check sum is refused", () => {
    const bytes = zipParts(tinyParts());
    const at = find(bytes, CENTRAL) + 16;
    bytes[at] = (bytes[at] ?? 0) ^ 1;
    expect(refusal(bytes)).toMatch(/damaged/);
  });
});

describe("a package", () => {
  const parts = tinyParts({
    parts: { "xl/media/image1.png": Uint8Array.from([1, 2, 3, 255]), "docs/": new Uint8Array() },
  });

  it("is saved with its parts in their order and every untouched part as it was", () => {
    const file = zipParts(parts);
    const opened = WorkbookPackage.open(file);
    expect(opened.toBytes()).toEqual(file);
    const changed = opened.copy();
    changed.writeText("xl/workbook.xml", "<changed/>");
    const before = unzipSync(file);
    const after = unzipSync(changed.toBytes());
    expect(Object.keys(after)).toEqual(Object.keys(before));
    expect(after).toEqual({ ...before, "xl/workbook.xml": strToU8("<changed/>") });
    expect(changed.toBytes()).toEqual(changed.toBytes());
    expect(opened.toBytes()).toEqual(file);
  });

  it("opens with its directory in the 64-bit form", () => {
    // ZIP64 records as in PKWARE's APPNOTE 4.3.14 and 4.3.15, and the field 0x0001 of 4.5.3.
    const short = zipSync({ "[Content_Types].xml": strToU8("<a/>") }, { level: 0 });
    const old = new DataView(short.buffer);
    const central = find(short, CENTRAL);
    const end = find(short, [0x50, 0x4b, 5, 6]);
    const record = short.slice(central, end);
    const name = record.length - 46;
    const bytes = new Uint8Array(central + record.length + 20 + 56 + 20 + 22);
    bytes.set(short.subarray(0, central));
    bytes.set(record, central);
    const view = new DataView(bytes.buffer);
    view.setUint16(central + 30, 20, true);
    view.setUint32(central + 20, 0xffffffff, true);
    view.setUint32(central + 24, 0xffffffff, true);
    const field = central + 46 + name;
    view.setUint16(field, 1, true);
    view.setUint16(field + 2, 16, true);
    view.setBigUint64(field + 4, BigInt(old.getUint32(central + 24, true)), true);
    view.setBigUint64(field + 12, BigInt(old.getUint32(central + 20, true)), true);
    const end64 = field + 20;
    view.setUint32(end64, 0x06064b50, true);
    view.setBigUint64(end64 + 32, 1n, true);
    view.setBigUint64(end64 + 40, BigInt(record.length + 20), true);
    view.setBigUint64(end64 + 48, BigInt(central), true);
    view.setUint32(end64 + 56, 0x07064b50, true);
    view.setBigUint64(end64 + 64, BigInt(end64), true);
    view.setUint32(end64 + 76, 0x06054b50, true);
    for (const at of [10, 12, 14, 16, 18]) view.setUint16(end64 + 76 + at, 0xffff, true);
    expect(WorkbookPackage.open(bytes).readText("[Content_Types].xml")).toBe("<a/>");
  });

  it("keeps what was written, whatever it is", () => {
    fc.assert(
      fc.property(
        fc.uint8Array({ maxLength: 2_000 }),
        fc.string({ unit: "grapheme", maxLength: 50 }),
        (content, text) => {
          const changed = WorkbookPackage.empty();
          changed.write("a/data.bin", content);
          changed.writeText("a/text.xml", text);
          const bytes = changed.toBytes();
          expect(unzipSync(bytes)["a/data.bin"]).toEqual(content);
          const opened = WorkbookPackage.open(bytes);
          expect(opened.read("A/data.BIN")).toEqual(content);
          expect(opened.readText("a/text.xml")).toBe(text);
        },
      ),
    );
  });

  it("adds and removes parts with their links and content types", () => {
    const changed = WorkbookPackage.open(zipParts(parts)).copy();
    const before = unzipSync(changed.toBytes());
    changed.add("xl/extra1.xml", "application/x-extra+xml", "<a/>");
    expect(changed.link("xl/workbook.xml", "extra", "xl/extra1.xml")).toBe("rId4");
    expect(changed.freeName("xl/extra", ".xml")).toBe("xl/extra2.xml");
    const opened = WorkbookPackage.open(changed.toBytes());
    expect(opened.contentType("xl/extra1.xml")).toBe("application/x-extra+xml");
    expect(opened.linked("xl/workbook.xml", "extra")).toEqual(["xl/extra1.xml"]);
    const back = opened.copy();
    back.remove("xl/extra1.xml", "xl/workbook.xml");
    expect(unzipSync(back.toBytes())).toEqual(before);
  });

  it("keeps the encoding of a part in UTF-16", () => {
    const text = '\ufeff<?xml version="1.0" encoding="UTF-16"?><a>é🎈</a>';
    for (const isLittle of [true, false]) {
      const content = new Uint8Array(text.length * 2);
      const view = new DataView(content.buffer);
      for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), isLittle);
      const opened = WorkbookPackage.open(zipParts({ ...parts, "custom.xml": content })).copy();
      expect(opened.readText("custom.xml")).toBe(text);
      opened.writeText("custom.xml", text);
      expect(opened.read("custom.xml")).toEqual(content);
    }
  });
});
