import { describe, expect, it } from "vitest";
import { openWorkbook } from "../../src/workbook/read";
import { tintColor } from "../../src/workbook/styles";
import { tinyWorkbook } from "./tiny-package";

const THEME_LINK =
  '<Relationship Id="rId8" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/theme" Target="theme/theme1.xml"/>';
const color = (name: string, value: string): string => `<a:${name}><a:srgbClr val="${value}"/></a:${name}>`;
const THEME = `<a:theme xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"><a:themeElements><a:clrScheme name="x"><a:dk1><a:sysClr val="windowText" lastClr="000000"/></a:dk1><a:lt1><a:sysClr val="window" lastClr="FFFFFF"/></a:lt1>${color("dk2", "1F497D")}${color("lt2", "EEECE1")}${color("accent1", "4F81BD")}${color("accent2", "C0504D")}</a:clrScheme></a:themeElements></a:theme>`;

describe("looks", () => {
  // Theme numbers as in ECMA-376 part 1, 18.8.3 (light 1, dark 1, light 2, dark 2, accents); ids as in 18.8.30.
  it("resolves formats, fonts, fills, borders, alignment and colours of any kind", () => {
    const styles =
      '<numFmts count="1"><numFmt numFmtId="170" formatCode="0.0&quot; m&quot;"/></numFmts>' +
      '<fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><i val="1"/><strike val="0"/><u val="double"/><sz val="14"/><color theme="1"/><name val="Arial"/></font></fonts>' +
      '<fills count="5"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill><fill><patternFill patternType="solid"><fgColor theme="4"/></patternFill></fill><fill><patternFill patternType="solid"><fgColor indexed="10"/></patternFill></fill><fill><patternFill patternType="solid"><fgColor rgb="FF00B050"/></patternFill></fill></fills>' +
      '<borders count="2"><border><left/></border><border><left style="thin"><color auto="1"/></left><right style="none"/><bottom style="double"><color theme="0"/></bottom></border></borders>' +
      '<cellXfs count="4"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/><xf numFmtId="170" fontId="1" fillId="2" borderId="1"><alignment horizontal="center" vertical="top" wrapText="1"/></xf><xf numFmtId="10" fontId="0" fillId="3" borderId="0"><alignment horizontal="fill"/></xf><xf numFmtId="14" fontId="0" fillId="4" borderId="0"/></cellXfs>';
    const { model } = openWorkbook(
      tinyWorkbook({ styles, links: THEME_LINK, parts: { "xl/theme/theme1.xml": THEME } }),
    );
    expect(model.styles).toEqual([
      { numberFormat: "General", fontName: "Calibri", fontSize: 11 },
      {
        numberFormat: '0.0" m"',
        bold: true,
        italic: true,
        underline: true,
        fontName: "Arial",
        fontSize: 14,
        fontColor: "#000000",
        fill: "#4f81bd",
        horizontal: "center",
        vertical: "top",
        wrap: true,
        borders: { left: { style: "thin" }, bottom: { style: "double", color: "#ffffff" } },
      },
      { numberFormat: "0.00%", fontName: "Calibri", fontSize: 11, fill: "#ff0000" },
      { numberFormat: "mm-dd-yy", fontName: "Calibri", fontSize: 11, fill: "#00b050" },
    ]);
  });

  it("gives cells a plain look where the file lists none", () => {
    const { model } = openWorkbook(tinyWorkbook({ rows: '<row r="1"><c r="A1" s="9"><v>1</v></c></row>' }));
    expect(model.styles).toEqual([{ numberFormat: "General" }]);
    expect(model.sheets[0]?.cells[0]?.style).toBe(0);
  });

  // The shades that Excel's colour menu offers for the theme "Office 2007-2010" (from memory, one step of rounding allowed).
  it.each([
    ["#4f81bd", 0.7999816888943144, [0xdc, 0xe6, 0xf1]],
    ["#4f81bd", -0.249977111117893, [0x36, 0x60, 0x92]],
    ["#ffffff", -0.249977111117893, [0xbf, 0xbf, 0xbf]],
    ["#000000", 0.499984740745262, [0x80, 0x80, 0x80]],
    ["#c0504d", 0.5999938962981048, [0xe6, 0xb8, 0xb7]],
  ])("tints %s by %f", (base, tint, channels) => {
    const tinted = tintColor(base, tint);
    channels.forEach((channel, i) => {
      const found = parseInt(tinted.slice(1 + 2 * i, 3 + 2 * i), 16);
      expect(Math.abs(found - channel)).toBeLessThanOrEqual(1);
    });
  });
});
