import { strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { nameOtherPackage, nameStranger } from "../../src/workbook/other-files";
import { tinyWorkbook } from "./tiny-package";

const bytes = (...each: readonly number[]): Uint8Array => Uint8Array.from(each);
const utf16 = (text: string): readonly number[] => [...text].flatMap((letter) => [letter.charCodeAt(0), 0]);
// [MS-CFB] 2.2: the signature of a compound file.
const COMPOUND = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];

describe("bytes that are no container of parts", () => {
  it.each<[string, Uint8Array, RegExp]>([
    ["nothing", bytes(), /is empty$/],
    ["a container cut short", bytes(0x50, 0x4b, 3, 4), /is damaged or cut short/],
    ["an old workbook", bytes(...COMPOUND, ...utf16("Workbook")), /is an old Excel workbook \(\.xls\)/],
    [
      "a file with a password",
      bytes(...COMPOUND, ...utf16("xEncryptedPackagex")),
      /protected with a password/,
    ],
    ["another with a password", bytes(...COMPOUND, ...utf16("xEncryptionInfo")), /protected with a password/],
    ["only the beginning of an old workbook", bytes(...COMPOUND.slice(0, 7)), /is not an \.xlsx workbook$/],
    ["a PDF", strToU8("%PDF-1.7"), /is a PDF/],
    ["a page", strToU8("  \n<!DOCTYPE html><p>"), /is a page or XML text/],
    ["a table of a page", strToU8("<TABLE><tr>"), /is a page or XML text/],
    ["XML", strToU8('<?xml version="1.0"?><Workbook/>'), /is a page or XML text/],
    ["a list", strToU8("item;price\r\nred\t3\n"), /is plain text such as \.csv/],
    [
      "a long list in which a letter is cut",
      strToU8(`${"é".repeat(2047)}a${"é".repeat(50)}`),
      /is plain text/,
    ],
    ["a list in letters of its own", strToU8("Größe,¥,日本"), /is plain text/],
    ["a picture", bytes(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10), /is not an \.xlsx workbook$/],
    ["text with a zero", bytes(65, 0, 66), /is not an \.xlsx workbook$/],
  ])("are named: %s", (_what, content, sentence) => {
    expect(nameStranger(content)).toMatch(sentence);
  });

  it("are none where they begin as one", () => {
    expect(nameStranger(tinyWorkbook())).toBeUndefined();
    // The end of a container alone takes 22 bytes.
    expect(nameStranger(zipSync({}))).toBeUndefined();
    expect(nameStranger(zipSync({}).slice(0, 21))).toMatch(/cut short/);
  });
});

describe("containers that hold no workbook", () => {
  const name = (...parts: readonly string[]): string | undefined =>
    nameOtherPackage({ has: (part) => parts.includes(part) });
  const TYPES = "[Content_Types].xml";
  it.each<[readonly string[], RegExp]>([
    [[TYPES, "xl/workbook.bin"], /binary workbook \(\.xlsb\)/],
    [["mimetype", "content.xml"], /OpenDocument file \(\.ods\)/],
    [[TYPES, "word/document.xml"], /text document \(\.docx\)/],
    [[TYPES, "ppt/presentation.xml"], /presentation \(\.pptx\)/],
    [["content.xml"], /ZIP archive/],
    [["mimetype"], /ZIP archive/],
    [["photo.jpg"], /ZIP archive/],
  ])("are named: %j", (parts, sentence) => {
    expect(name(...parts)).toMatch(sentence);
  });

  it("are none with a list of types", () => {
    expect(name(TYPES, "xl/workbook.xml")).toBeUndefined();
    expect(name(TYPES, "xl/workbook.xml", "mimetype")).toBeUndefined();
  });
});
