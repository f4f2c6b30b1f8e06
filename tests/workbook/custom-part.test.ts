import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { customPart, setCustomPart } from "../../src/workbook/custom-part";
import { openWorkbook } from "../../src/workbook/read";
import { tinyWorkbook } from "./tiny-package";

const OURS = "urn:example:ours";
const xml = (text: string): string => `<kept xmlns="${OURS}">${text}</kept>`;

describe("data of ours in a file", () => {
  const file = tinyWorkbook({
    parts: { "customXml/item1.xml": "<broken", "customXml/item2.xml": '<a xmlns="urn:example:theirs"/>' },
    links: [1, 2]
      .map(
        (n) =>
          `<Relationship Id="c${String(n)}" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/customXml" Target="../customXml/item${String(n)}.xml"/>`,
      )
      .join(""),
  });
  const read = (bytes: Uint8Array): string | undefined => customPart(openWorkbook(bytes).parts, OURS);

  it("is set, replaced and removed beside the data of others", () => {
    expect(read(file)).toBeUndefined();
    const set = setCustomPart(file, OURS, xml("one"));
    expect(read(set)).toBe(xml("one"));
    expect(setCustomPart(file, OURS, xml("one"))).toEqual(set);
    const replaced = setCustomPart(set, OURS, xml("two"));
    expect(read(replaced)).toBe(xml("two"));
    expect(Object.keys(unzipSync(replaced))).toEqual(Object.keys(unzipSync(set)));
    expect(customPart(openWorkbook(replaced).parts, "urn:example:theirs")).toBe(
      '<a xmlns="urn:example:theirs"/>',
    );
    expect(unzipSync(setCustomPart(replaced, OURS, undefined))).toEqual(unzipSync(file));
    expect(setCustomPart(file, OURS, undefined)).toEqual(file);
  });

  it("must be XML in its namespace", () => {
    expect(() => setCustomPart(file, OURS, "<a/>")).toThrow(/namespace/);
    expect(() => setCustomPart(file, OURS, "<a")).toThrow(/damaged/);
  });
});
