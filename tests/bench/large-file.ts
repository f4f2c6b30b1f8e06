import { tinyWorkbook } from "../workbook/tiny-package";

/** Every how many rows a formula stands beside the values. */
const FORMULA_ROWS = 10;

/** Numbers from 0 to 1 that are the same in every run (xorshift, G. Marsaglia, 2003). */
function numbersFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

const letters = (column: number): string =>
  (column < 26 ? "" : String.fromCharCode(64 + Math.floor(column / 26))) +
  String.fromCharCode(65 + (column % 26));

/**
 * A job file as it grows over the years: rows of texts, dates and amounts with a formula now and then, one of ours among them;
 * 20,000 rows of 30 cells make 600,000 cells and 8.3 MB, 25,000 make 750,000 and 10.4 MB.
 */
export function largeFile(rows = 20_000, columns = 30): Uint8Array {
  const next = numbersFrom(7);
  const word = (): string => Math.floor(next() * 2 ** 32).toString(36);
  const texts: string[] = [];
  const textCell = (address: string): string => {
    texts.push(`${word()} ${word()}`);
    return `<c r="${address}" s="1" t="s"><v>${texts.length - 1}</v></c>`;
  };
  const cell = (address: string, row: number, column: number): string => {
    if (column < 5) return textCell(address);
    if (column === 5) return `<c r="${address}" s="2"><v>${40_000 + Math.floor(next() * 6000)}</v></c>`;
    if (column === columns - 1 && row % FORMULA_ROWS === 0)
      return `<c r="${address}" s="3"><f>SUM(G${row}:J${row})</f><v>0</v></c>`;
    const amount = next() * 10 ** (column % 5);
    if (column === columns - 2 && row % FORMULA_ROWS === 0)
      return `<c r="${address}" s="3"><f>_xldudf_BLN_COUNT_SPHERE(1+G${row}/1000,11)</f><v>0</v></c>`;
    // Amounts that a person typed, and such as a formula left with all their digits.
    return `<c r="${address}" s="3"><v>${column % 12 === 0 ? Number(amount.toFixed(2)) : amount}</v></c>`;
  };
  const lines = Array.from({ length: rows }, (_, index) => {
    const row = index + 1;
    const cells = Array.from({ length: columns }, (__, column) =>
      cell(`${letters(column)}${row}`, row, column),
    );
    return `<row r="${row}" spans="1:${columns}">${cells.join("")}</row>`;
  });
  return tinyWorkbook({
    before:
      `<dimension ref="A1:${letters(columns - 1)}${rows}"/><sheetViews><sheetView workbookViewId="0"/></sheetViews>` +
      '<sheetFormatPr defaultRowHeight="15"/><cols><col min="1" max="2" width="20" customWidth="1"/></cols>',
    rows: lines.join(""),
    behind: '<pageMargins left="0.7" right="0.7" top="0.75" bottom="0.75" header="0.3" footer="0.3"/>',
    strings: texts.map((text) => `<si><t>${text}</t></si>`).join(""),
    styles:
      '<numFmts count="1"><numFmt numFmtId="164" formatCode="0.000"/></numFmts>' +
      '<fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts>' +
      '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>' +
      '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>' +
      '<cellXfs count="4"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/><xf numFmtId="0" fontId="1" fillId="0" borderId="0"/>' +
      '<xf numFmtId="14" fontId="0" fillId="0" borderId="0"/><xf numFmtId="4" fontId="0" fillId="0" borderId="0"/></cellXfs>',
  });
}
