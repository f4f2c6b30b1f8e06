import { strFromU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import type { LookChange } from "../../src/workbook/cell-looks";
import { openWorkbook } from "../../src/workbook/read";
import { tinyWorkbook } from "./tiny-package";

const bytes = tinyWorkbook({
  rows: '<row r="1"><c r="A1" s="1"><v>1</v></c><c r="B1"><v>2</v></c></row>',
  styles:
    '<numFmts count="1"><numFmt numFmtId="164" formatCode="0.000"/></numFmts>' +
    '<fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><color theme="1"/><name val="Calibri"/><family val="2"/><scheme val="minor"/></font></fonts>' +
    '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>' +
    '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>' +
    '<cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/><xf numFmtId="164" fontId="1" fillId="0" borderId="0"><protection locked="0"/></xf></cellXfs>',
});
const withLooks = (file: Uint8Array, looks: readonly LookChange[]): Uint8Array =>
  openWorkbook(file).patched(looks);
const lookOf = (file: Uint8Array, row: number, column: number): unknown => {
  const { sheets, styles } = openWorkbook(file).model;
  return styles[sheets[0]?.cells.find((cell) => cell.row === row && cell.column === column)?.style ?? 0];
};

describe("looks written into the file", () => {
  const look = {
    bold: true,
    italic: true,
    fontColor: "#ff0000",
    fill: "#ffff00",
    fontSize: 11,
    fontName: "Calibri",
    horizontal: "center",
    wrap: true,
    borders: { bottom: { style: "thin", color: "#00ff00" } },
  } as const;
  const changed = withLooks(bytes, [
    { sheet: 0, row: 0, column: 0, look },
    { sheet: 0, row: 4, column: 2, look },
  ]);

  it("are read back, with the number format and all else of the cell kept", () => {
    expect(lookOf(changed, 0, 0)).toEqual({ ...look, numberFormat: "0.000" });
    expect(lookOf(changed, 4, 2)).toEqual({ ...look, numberFormat: "General" });
    const styles = strFromU8(unzipSync(changed)["xl/styles.xml"] ?? new Uint8Array());
    expect(styles).toContain('<protection locked="0"/>');
    // Children of a font in the order in which Excel writes them.
    expect(styles).toContain(
      '<font><b/><i/><sz val="11"/><color rgb="FFFF0000"/><name val="Calibri"/><family val="2"/><scheme val="minor"/></font>',
    );
    expect(styles).toMatch(/<fonts count="4">.*<fills count="3">.*<borders count="2">.*<cellXfs count="4">/s);
  });

  it("come off again", () => {
    const plain = withLooks(changed, [
      { sheet: 0, row: 0, column: 0, look: { fontSize: 11, fontName: "Calibri" } },
    ]);
    expect(lookOf(plain, 0, 0)).toEqual({ numberFormat: "0.000", fontSize: 11, fontName: "Calibri" });
  });

  it("change nothing where the cell looks so already", () => {
    expect(
      withLooks(bytes, [{ sheet: 0, row: 0, column: 1, look: { fontSize: 11, fontName: "Calibri" } }]),
    ).toEqual(bytes);
    const size = withLooks(bytes, [
      { sheet: 0, row: 0, column: 0, look: { bold: true, fontSize: 14, fontName: "Calibri" } },
    ]);
    expect(strFromU8(unzipSync(size)["xl/styles.xml"] ?? new Uint8Array())).toContain(
      '<sz val="14"/><color theme="1"/>',
    );
  });
});
