import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openWorkbook } from "../../src/workbook/read";
import { readFeatures } from "../../src/workbook/sheet-features";
import type { CellCheck } from "../../src/workbook/cell-checks";
import { tinyWorkbook } from "./tiny-package";

function checksOf(bytes: Uint8Array): readonly CellCheck[] {
  const { parts, model } = openWorkbook(bytes);
  return readFeatures(parts, model.sheets)[0]?.checks ?? [];
}

// Attributes and their defaults: ECMA-376 part 1, 18.3.1.32.
describe("the checks of a sheet's cells", () => {
  it("reads kind, comparison, ranges, formulas and words, whatever is in the rows", () => {
    const [check] = checksOf(
      tinyWorkbook({
        rows: '<row r="1"><c r="A1" t="inlineStr"><is><t>&lt;dataValidation&gt;</t></is></c></row>',
        behind:
          '<dataValidations count="1"><dataValidation type="whole" operator="greaterThan" allowBlank="1" showErrorMessage="1" errorTitle="Clusters" error="Whole ones" showInputMessage="1" prompt="How many?" sqref="B2:B9 D4"><formula1>A1</formula1></dataValidation></dataValidations>',
      }),
    );
    expect(check).toEqual({
      ranges: [
        { firstRow: 1, firstColumn: 1, lastRow: 8, lastColumn: 1 },
        { firstRow: 3, firstColumn: 3, lastRow: 3, lastColumn: 3 },
      ],
      kind: "whole",
      comparison: "greaterThan",
      formula1: "A1",
      formula2: "",
      allowsBlank: true,
      strictness: "stop",
      isOffered: false,
      prompt: "How many?",
      fault: "Clusters: Whole ones",
    });
  });

  it("offers a list unless the file hides its arrow, and refuses nothing unless the file says so", () => {
    const list = (attributes: string): string =>
      `<dataValidation type="list" ${attributes} sqref="A1"><formula1>"a,b"</formula1></dataValidation>`;
    const behind = `<dataValidations>${list("")}${list('showDropDown="1"')}${list('showErrorMessage="1" errorStyle="warning"')}</dataValidations>`;
    expect(checksOf(tinyWorkbook({ behind })).map((check) => [check.isOffered, check.strictness])).toEqual([
      [true, "none"],
      [false, "none"],
      [true, "warning"],
    ]);
  });

  // [MS-XLSX] 2.6.13 and 2.6.14: lists that point at another sheet.
  it("reads those that stand in an extension", () => {
    const behind =
      '<extLst><ext xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main" uri="{CCE6A557-97BC-4b89-ADB6-D9C93CAAB3DF}"><x14:dataValidations xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main" count="1"><x14:dataValidation type="list" allowBlank="1" showErrorMessage="1"><x14:formula1><xm:f>Lists!$A$1:$A$3</xm:f></x14:formula1><xm:sqref>C3:C5</xm:sqref></x14:dataValidation></x14:dataValidations></ext></extLst>';
    expect(checksOf(tinyWorkbook({ behind }))).toMatchObject([
      { kind: "list", formula1: "Lists!$A$1:$A$3", ranges: [{ firstRow: 2, lastRow: 4 }], isOffered: true },
    ]);
  });

  it("says only what the file wants to be said", () => {
    const said = (attributes: string): unknown => {
      const behind = `<dataValidations><dataValidation type="whole" sqref=" A1  B2 " ${attributes}><formula1> 1 </formula1></dataValidation></dataValidations>`;
      const [check] = checksOf(tinyWorkbook({ behind }));
      expect(check?.ranges).toHaveLength(2);
      expect(check).toMatchObject({ comparison: "between", formula1: "1", formula2: "", allowsBlank: false });
      return [
        check?.prompt,
        check?.fault,
        Object.keys(check ?? {}).filter((key) => key === "prompt" || key === "fault"),
      ];
    };
    expect(said('prompt="x" error="y" promptTitle="X" errorTitle="Y"')).toEqual([undefined, undefined, []]);
    expect(said('showInputMessage="1" showErrorMessage="1"')).toEqual([undefined, undefined, []]);
    expect(said('showInputMessage="1" promptTitle="X" error="y"')).toEqual(["X", undefined, ["prompt"]]);
    expect(said('showErrorMessage="1" error="y" prompt="x"')).toEqual([undefined, "y", ["fault"]]);
  });

  it("passes over checks of any value and ranges that are none", () => {
    const behind =
      '<dataValidations><dataValidation sqref="A1" showInputMessage="1" prompt="x"/><dataValidation type="list" sqref="#REF!"><formula1>1</formula1></dataValidation><dataValidation type="list"/></dataValidations>';
    expect(checksOf(tinyWorkbook({ behind }))).toEqual([]);
  });
});

// A real file beside this repository; LIST.md there says what is in it.
const FILE = join(
  import.meta.dirname,
  "../../../shared/reference/xlsx/StructuredRefs-lots-with-lookups.xlsx",
);

it.skipIf(!existsSync(FILE))("finds the lists of a real file", () => {
  const { parts, model } = openWorkbook(new Uint8Array(readFileSync(FILE)));
  const checks = readFeatures(parts, model.sheets).flatMap((sheet) => sheet?.checks ?? []);
  // As many as `<dataValidation ` stands in its parts.
  expect(checks.filter(({ kind }) => kind === "list")).toHaveLength(7);
});
