import { describe, expect, it } from "vitest";
import { partKey, relationshipsPart, resolveTarget } from "../../src/workbook/part-names";
import { readXml } from "../../src/workbook/xml";

// ECMA-376 part 2, 9.3.4: the links of a part stand beside it in a folder _rels.
it.each([
  ["", "_rels/.rels"],
  ["xl/workbook.xml", "xl/_rels/workbook.xml.rels"],
  ["xl/worksheets/sheet1.xml", "xl/worksheets/_rels/sheet1.xml.rels"],
  ["data.xml", "_rels/data.xml.rels"],
])("keeps the links of %j in %s", (source, part) => {
  expect(relationshipsPart(source)).toBe(part);
});

// Where a reference leads: RFC 3986, 5.2 to 5.4, its examples with the base "b/c/d".
it.each([
  ["g", "b/c/g"],
  ["./g", "b/c/g"],
  ["g/", "b/c/g"],
  ["/g", "g"],
  ["g#s", "b/c/g"],
  [".", "b/c"],
  ["..", "b"],
  ["../g", "b/g"],
  ["../../g", "g"],
  ["../../../g", "g"],
  ["g/./h", "b/c/g/h"],
  ["g/../h", "b/c/h"],
  ["..g", "b/c/..g"],
])("resolves %s", (target, part) => {
  expect(resolveTarget("b/c/d", readXml(`<Relationship Target="${target}"/>`, "rels"))).toBe(part);
});

it("knows links that lead out of the file, however they are spelled", () => {
  const link = (attributes: string): string | undefined =>
    resolveTarget("xl/workbook.xml", readXml(`<Relationship ${attributes}/>`, "rels"));
  expect(link('Target="https://example.org/" TargetMode="External"')).toBeUndefined();
  expect(link('Target="x" TargetMode="external"')).toBeUndefined();
  expect(link('Target="x.xml" TargetMode="Internal"')).toBe("xl/x.xml");
  expect(link("")).toBe("xl");
});

describe("the name of a part", () => {
  it("is the same in small letters and capitals (ECMA-376 part 2, 9.1.1)", () => {
    expect(partKey("XL/Workbook.xml")).toBe(partKey("xl/workbook.XML"));
    expect(partKey("xl/media/")).toBe("xl/media/");
  });

  it.each([
    "/a",
    "a//b",
    "a/../b",
    "../a",
    "./a",
    "a/.",
    "a\\b",
    "c:/a",
    "a\u0001b",
    "a\u007fb",
    "",
    "/",
    "a//",
  ])("is refused as %j", (name) => {
    expect(() => partKey(name)).toThrow(
      `the file is refused: its part ${JSON.stringify(name)} has an unsafe name`,
    );
  });
});
