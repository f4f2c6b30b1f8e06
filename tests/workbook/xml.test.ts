import { describe, expect, it } from "vitest";
import { WorkbookError } from "../../src/workbook/model";
import { NAMESPACES } from "../../src/workbook/namespaces";
import {
  appendTo,
  applyEdits,
  escapeAttribute,
  escapeText,
  readXml,
  scanXml,
  type XmlElement,
} from "../../src/workbook/xml";

const sentence = (xml: string): string => {
  try {
    readXml(xml, "part.xml");
  } catch (error) {
    if (error instanceof WorkbookError) return error.message;
    throw error;
  }
  return "";
};

describe("XML", () => {
  it("tells where every element begins and ends, with entities, comments and any line ends between", () => {
    const xml = `\ufeff<?xml version="1.0"?>\r\n<!-- <a> --><r xmlns:p="urn:p">\r\n é&amp;🎈<p:a t='x>"y'  /><b\n>t<![CDATA[<c>]]></b ></r>\n`;
    const seen: [string, string, string][] = [];
    scanXml(xml, "part.xml", {
      close(element) {
        seen.push([
          element.name,
          xml.slice(element.start, element.end),
          xml.slice(element.contentStart, element.contentEnd),
        ]);
      },
    });
    expect(seen[0]).toEqual(["p:a", `<p:a t='x>"y'  />`, ""]);
    expect(seen[1]).toEqual(["b", `<b\n>t<![CDATA[<c>]]></b >`, "t<![CDATA[<c>]]>"]);
    expect(seen[2]?.[1]).toBe(xml.slice(xml.indexOf("<r "), -1));
    const root = readXml(xml, "part.xml");
    expect(root.text).toBe("\n é&🎈");
    expect(root.children.map((child) => [child.local, child.uri, child.text])).toEqual([
      ["a", "urn:p", ""],
      ["b", "", "t<c>"],
    ]);
  });

  it("maps the strict namespaces to the transitional ones", () => {
    const root = readXml(
      `<x:workbook xmlns:x="http://purl.oclc.org/ooxml/spreadsheetml/main" xmlns:q="http://purl.oclc.org/ooxml/officeDocument/relationships"><x:sheet q:id="rId7"/></x:workbook>`,
      "part.xml",
    );
    expect(root.is("workbook")).toBe(true);
    expect(root.child("sheet")?.getQualified(NAMESPACES.relationships, "id")).toBe("rId7");
  });

  it.each([
    ["<!DOCTYPE a><a/>", /document type/],
    [`<!DOCTYPE a [<!ENTITY x "xx"><!ENTITY y "&x;&x;">]><a>&y;</a>`, /document type/],
    ["<a>&undefined;</a>", /damaged/],
    ["<a><b></a>", /damaged/],
    ["<a", /damaged/],
    ["", /damaged/],
    ["<a/><b/>", /damaged/],
    ["text", /damaged/],
    ["<p:a/>", /damaged/],
    ["<a b='1' b='2'/>", /damaged/],
    ["<a>\u0001</a>", /damaged/],
    [`<?xml version="1.0" encoding="EBCDIC-CP-US"?><a/>`, /EBCDIC/],
    ["<a>".repeat(5_000), /nests deeper/],
    [`<a ${Array.from({ length: 2_000 }, (_, i) => `a${String(i)}=""`).join(" ")}/>`, /attributes/],
  ])("refuses %#", (xml, why) => {
    expect(sentence(xml)).toMatch(why);
  });

  it("edits a text at its offsets", () => {
    expect(
      applyEdits("abcdef", [
        { start: 4, end: 5, text: "E" },
        { start: 1, end: 1, text: "-" },
      ]),
    ).toBe("a-bcdEf");
    const append = (xml: string): string => applyEdits(xml, [appendTo(readXml(xml, "part.xml"), "<x/>")]);
    expect(append("<a b='1'/>")).toBe('<a b="1"><x/></a>');
    expect(append("<a>t</a>")).toBe("<a>t<x/></a>");
  });

  it("replaces, adds and drops attributes of a tag", () => {
    const root = readXml(`<p:c xmlns:p="urn:p" r="A1" t="s" s="3"/>`, "part.xml");
    expect(root.openTag({ t: null, cm: "1", s: "4" }, true)).toBe(
      `<p:c xmlns:p="urn:p" r="A1" s="4" cm="1"/>`,
    );
    expect(root.wrap("v", "", "1")).toBe("<p:v>1</p:v>");
  });

  it("escapes text so that it reads back", () => {
    const text = `<&>"'\t\n\r]]>`;
    const root: XmlElement = readXml(`<a b="${escapeAttribute(text)}">${escapeText(text)}</a>`, "part.xml");
    expect(root.get("b")).toBe(text);
    expect(root.text).toBe(text);
  });
});
