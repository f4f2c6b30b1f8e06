import { describe, expect, it } from "vitest";
import { dynamicMarks, ensureDynamicMark } from "../../src/workbook/metadata";
import { WorkbookPackage } from "../../src/workbook/package";
import { findWorkbookPart } from "../../src/workbook/workbook-part";
import { readXml } from "../../src/workbook/xml";
import { tinyWorkbook } from "./tiny-package";

// How a cell is marked as a formula that spills: [MS-XLSX] 2.2.4.12 and ECMA-376 part 1, 18.9. An index of `t` counts types from
// one, an index of `v` counts records of the type's own list from zero, and a cell's `cm` counts cell records from one.

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const SPREADSHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml";
const PART = "xl/metadata.xml";

function file(metadata: string | undefined): WorkbookPackage {
  if (metadata === undefined) return WorkbookPackage.open(tinyWorkbook()).copy();
  return WorkbookPackage.open(
    tinyWorkbook({
      links: `<Relationship Id="rId9" Type="${OFFICE}/sheetMetadata" Target="metadata.xml"/>`,
      overrides: `<Override PartName="/${PART}" ContentType="${SPREADSHEET}.sheetMetadata+xml"/>`,
      parts: { [PART]: `<metadata xmlns="${MAIN}">${metadata}</metadata>` },
    }),
  ).copy();
}
const marks = (parts: WorkbookPackage): readonly number[] => [
  ...dynamicMarks(parts, findWorkbookPart(parts)),
];
const localNames = (parts: WorkbookPackage): readonly string[] =>
  readXml(parts.readText(PART), PART).children.map(({ local }) => local);

const types = (...names: readonly string[]): string =>
  `<metadataTypes count="${String(names.length)}">${names.map((name) => `<metadataType name="${name}" minSupportedVersion="120000"/>`).join("")}</metadataTypes>`;
const property = (isDynamic: boolean, isCollapsed = false): string =>
  `<ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray" fDynamic="${isDynamic ? "1" : "0"}" fCollapsed="${isCollapsed ? "1" : "0"}"/></ext>`;
const future = (name: string, ...records: readonly string[]): string =>
  `<futureMetadata name="${name}" count="${String(records.length)}">${records.map((record) => `<bk>${record}</bk>`).join("")}</futureMetadata>`;
const extended = (...each: readonly string[]): string => `<extLst>${each.join("")}</extLst>`;
const cells = (...records: readonly (readonly [type: number, value: number])[]): string =>
  `<cellMetadata count="${String(records.length)}">${records.map(([t, v]) => `<bk><rc t="${String(t)}" v="${String(v)}"/></bk>`).join("")}</cellMetadata>`;

describe("the marks of spilling formulas", () => {
  it("are those whose record says so", () => {
    const records = [
      extended(property(true)),
      extended(property(false)),
      "",
      extended('<ext uri="u"/>', property(true)),
    ];
    const known = file(
      types("XLRICHVALUE", "XLDAPR") +
        future("XLRICHVALUE", extended(property(false)), extended(property(true))) +
        future("XLDAPR", ...records) +
        cells([1, 1], [2, 0], [2, 1], [2, 2], [2, 3], [2, 9], [3, 0], [0, 0]),
    );
    expect(marks(known)).toEqual([2, 5]);
  });

  it("are found among the other records of a cell", () => {
    const two = `<cellMetadata count="1"><bk><rc t="1" v="0"/><rc t="2" v="0"/></bk></cellMetadata>`;
    expect(
      marks(file(types("XLRICHVALUE", "XLDAPR") + future("XLDAPR", extended(property(true))) + two)),
    ).toEqual([1]);
  });

  it("are none where the file has no such part, or one that says less", () => {
    expect(marks(file(undefined))).toEqual([]);
    expect(marks(file(""))).toEqual([]);
    expect(marks(file(types("XLDAPR") + cells([1, 0])))).toEqual([]);
    expect(marks(file(future("XLDAPR", extended(property(true))) + cells([1, 0])))).toEqual([]);
    expect(marks(file(types("XLDAPR") + future("XLDAPR", extended(property(true)))))).toEqual([]);
    const lost = `<Relationship Id="rId9" Type="${OFFICE}/sheetMetadata" Target="metadata.xml"/>`;
    expect(marks(WorkbookPackage.open(tinyWorkbook({ links: lost })))).toEqual([]);
  });
});

describe("a mark that a file lacks", () => {
  it.each<[string, string | undefined, number, readonly string[]]>([
    ["without such a part", undefined, 1, ["metadataTypes", "futureMetadata", "cellMetadata"]],
    ["with an empty one", "", 1, ["metadataTypes", "futureMetadata", "cellMetadata"]],
    [
      "with pictures in cells",
      types("XLRICHVALUE") + future("XLRICHVALUE", extended(property(true))) + cells([1, 0]),
      2,
      ["metadataTypes", "futureMetadata", "futureMetadata", "cellMetadata"],
    ],
    [
      // The order of lists: ECMA-376 part 1, 18.9.1.
      "with lists around those that it needs",
      `${types("XLMDX")}<metadataStrings count="0"/><mdxMetadata count="0"/><valueMetadata count="0"/><extLst/>`,
      1,
      [
        "metadataTypes",
        "metadataStrings",
        "mdxMetadata",
        "futureMetadata",
        "cellMetadata",
        "valueMetadata",
        "extLst",
      ],
    ],
    [
      "with formulas that do not spill",
      types("XLDAPR") + future("XLDAPR", extended(property(false))) + cells([1, 0], [1, 0]),
      3,
      ["metadataTypes", "futureMetadata", "cellMetadata"],
    ],
    [
      "with a type and no list",
      types("XLRICHVALUE", "XLDAPR"),
      1,
      ["metadataTypes", "futureMetadata", "cellMetadata"],
    ],
  ])("is added to a file %s", (_what, metadata, mark, lists) => {
    const parts = file(metadata);
    expect(ensureDynamicMark(parts, findWorkbookPart(parts))).toBe(mark);
    expect(marks(parts)).toEqual([mark]);
    expect(localNames(parts)).toEqual(lists);
    // Every list says how many entries it has.
    for (const list of readXml(parts.readText(PART), PART).children)
      if (list.get("count") !== undefined)
        expect([list.local, list.number("count")]).toEqual([list.local, list.children.length]);
    // The second formula takes the mark that is there.
    const text = parts.readText(PART);
    expect(ensureDynamicMark(parts, findWorkbookPart(parts))).toBe(mark);
    expect(parts.readText(PART)).toBe(text);
  });

  it("keeps the marks that others have", () => {
    const parts = file(
      types("XLRICHVALUE") + future("XLRICHVALUE", extended(property(true))) + cells([1, 0]),
    );
    ensureDynamicMark(parts, findWorkbookPart(parts));
    const root = readXml(parts.readText(PART), PART);
    const all = root
      .child("cellMetadata")
      ?.all("bk")
      .map((record) => record.child("rc"));
    expect(all?.map((record) => [record?.number("t"), record?.number("v")])).toEqual([
      [1, 0],
      [2, 0],
    ]);
    expect(
      root
        .child("metadataTypes")
        ?.all("metadataType")
        .map((type) => type.get("name")),
    ).toEqual(["XLRICHVALUE", "XLDAPR"]);
  });

  it("gets a part beside one of that name that nothing links to", () => {
    const parts = WorkbookPackage.open(
      tinyWorkbook({
        overrides: `<Override PartName="/${PART}" ContentType="application/xml"/>`,
        parts: { [PART]: "<other/>" },
      }),
    ).copy();
    expect(ensureDynamicMark(parts, findWorkbookPart(parts))).toBe(1);
    expect(parts.readText(PART)).toBe("<other/>");
    expect(parts.linked(findWorkbookPart(parts), "sheetMetadata")).toEqual(["xl/metadata1.xml"]);
    expect(parts.contentType("xl/metadata1.xml")).toBe(`${SPREADSHEET}.sheetMetadata+xml`);
  });
});
