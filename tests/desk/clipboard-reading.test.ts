import { describe, expect, it } from "vitest";
import { readClipboard } from "../../src/desk/clipboard-reading";
import { readerLocale } from "../../src/desk/typed-value";

const locale = readerLocale("en-GB");
const rowsOf = (html: string, text = ""): unknown => readClipboard(html, text, locale)?.rows;

describe("cells from another program", () => {
  it("come from Excel with their number formats (shape of its HTML, from memory)", () => {
    const html = `<html xmlns:x="urn:schemas-microsoft-com:office:excel"><head><style><!--table {mso-displayed-decimal-separator:"\\.";}
.xl65 {mso-number-format:"\\#\\,\\#\\#0\\.00";} .xl66 {mso-number-format:"dd\\/mm\\/yyyy";} .xl67 {mso-number-format:"\\@";}--></style></head>
<body><table border=0><col width=64><tr height=20><td class=xl64 width=64>red &amp; gold<br>satin</td><td class=xl65 align=right>1,234.50</td></tr>
<tr><td class=xl66 align=right>19/06/2027</td><td class=xl67>007</td></tr><tr><td colspan=2 x:num="0.333333">0.33</td></tr></table></body></html>`;
    expect(rowsOf(html)).toEqual([
      [{ content: "red & gold\nsatin" }, { content: 1234.5, numberFormat: "#,##0.00" }],
      // 19 June 2027 is day 46557 (ECMA-376 part 1, 18.17.4.1).
      [{ content: 46_557, numberFormat: "dd/mm/yyyy" }, { content: "007" }],
      [{ content: 0.333333 }, { content: null }],
    ]);
  });

  it("come from LibreOffice with exact values (shape of its HTML, from memory)", () => {
    const html = `<meta http-equiv="content-type"/><style type="text/css">td {font-size: small}</style><table cellspacing="0"><colgroup width="85"></colgroup>
<tr><td height="17" align="right" sdval="12.3456" sdnum="2057;0;0.00"><font face="Liberation Sans">12.35</font></td><td align="left"><b>bags</b></td></tr></table>`;
    expect(rowsOf(html)).toEqual([[{ content: 12.3456, numberFormat: "0.00" }, { content: "bags" }]]);
  });

  it("come from a web sheet (shape of its HTML, from memory)", () => {
    const html = `<google-sheets-html-origin><style type="text/css"><!--td {border: 1px solid #cccccc;}--></style><table xmlns="http://www.w3.org/1999/xhtml" data-sheets-root="1"><tbody>
<tr style="height:21px;"><td style="overflow:hidden" data-sheets-value="{&quot;1&quot;:3,&quot;3&quot;:0.125}" data-sheets-numberformat="{&quot;1&quot;:3,&quot;2&quot;:&quot;0.0%&quot;}">12.5%</td><td rowspan="2">x</td></tr><tr><td>3</td></tr></tbody></table>`;
    expect(rowsOf(html)).toEqual([
      [{ content: 0.125, numberFormat: "0.0%" }, { content: "x" }],
      [{ content: 3 }],
    ]);
  });

  it("come as tabbed text, quotes and line breaks inside included", () => {
    expect(rowsOf("", 'a\t1,5\t"two\nlines ""quoted"""\r\nTRUE\t\t£ 3.20\r\n')).toEqual([
      [{ content: "a" }, { content: "1,5" }, { content: 'two\nlines "quoted"' }],
      [{ content: true }, { content: null }, { content: 3.2, numberFormat: '"£" #,##0.00' }],
    ]);
    expect(readClipboard("", "", locale)).toBeUndefined();
    expect(readClipboard("<p>no table</p>", "plain", locale)?.rows).toEqual([[{ content: "plain" }]]);
  });

  it("bring formulas as they were written", () => {
    expect(rowsOf("", "=A1+1")).toEqual([[{ content: "=A1+1" }]]);
  });
});
