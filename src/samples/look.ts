import { cellAddress } from "../formula/address";
import type { NewCell } from "../workbook/create-sheet";
import type { CellStyle, CellValue } from "../workbook/model";

/** Colours of the sample workbooks: what is typed, what is computed, what is a heading. */
const INK = "#2b2a33";
const QUIET = "#6b6875";
const INPUT_FILL = "#fff4d6";
const HEAD_FILL = "#2f5d62";
const RULE = "#c9c4b8";

/** Lines of papers: black, so that a print without colour keeps them. */
const LINE = "#000000";

const edge = { style: "thin", color: RULE } as const;
const inkEdge = { style: "thin", color: LINE } as const;
const boxed = { borders: { top: edge, right: edge, bottom: edge, left: edge } } as const;

/** The looks that cells of the sample workbooks have. */
export const LOOKS = {
  title: { bold: true, fontSize: 18, fontColor: INK },
  heading: { bold: true, fontSize: 13, fontColor: HEAD_FILL },
  text: { fontColor: INK },
  wrapped: { fontColor: INK, wrap: true, vertical: "top" },
  quiet: { italic: true, fontColor: QUIET },
  quietWrapped: { italic: true, fontColor: QUIET, wrap: true, vertical: "top" },
  label: { fontColor: INK, bold: true },
  labelTop: { fontColor: INK, bold: true, vertical: "top" },
  head: { bold: true, fontColor: "#ffffff", fill: HEAD_FILL, wrap: true, vertical: "center", ...boxed },
  inputNumber: { fill: INPUT_FILL, fontColor: INK, horizontal: "center", ...boxed },
  input: { fill: INPUT_FILL, fontColor: INK, ...boxed },
  inputMoney: { fill: INPUT_FILL, fontColor: INK, numberFormat: "#,##0.00", ...boxed },
  inputShare: { fill: INPUT_FILL, fontColor: INK, numberFormat: "0%", ...boxed },
  inputDate: { fill: INPUT_FILL, fontColor: INK, numberFormat: "yyyy-mm-dd", ...boxed },
  inputDateTime: { fill: INPUT_FILL, fontColor: INK, numberFormat: "yyyy-mm-dd hh:mm", ...boxed },
  number: { numberFormat: "#,##0", fontColor: INK },
  size: { numberFormat: "General", fontColor: INK, horizontal: "center" },
  decimal: { numberFormat: "#,##0.00", fontColor: INK },
  money: { numberFormat: "#,##0.00", fontColor: INK },
  moneyTotal: { numberFormat: "#,##0.00", bold: true, fontSize: 13, fontColor: INK },
  share: { numberFormat: "0.0%", fontColor: INK },
  verdict: { bold: true, fontSize: 16, fontColor: INK },
  paperHead: { bold: true, wrap: true, vertical: "center", borders: { top: inkEdge, bottom: inkEdge } },
  paperHeadNumber: {
    bold: true,
    horizontal: "right",
    vertical: "center",
    borders: { top: inkEdge, bottom: inkEdge },
  },
  paperHeadUnit: {
    bold: true,
    horizontal: "center",
    vertical: "center",
    borders: { top: inkEdge, bottom: inkEdge },
  },
  paperText: { horizontal: "left" },
  paperStrong: { bold: true },
  paperNumber: { horizontal: "right" },
  paperMoney: { numberFormat: "#,##0.00", horizontal: "right" },
  paperUnit: { horizontal: "center" },
  paperCount: { numberFormat: "0", horizontal: "left" },
  paperDate: { numberFormat: "yyyy-mm-dd", horizontal: "left" },
  paperDateTime: { numberFormat: "yyyy-mm-dd hh:mm", horizontal: "left" },
  dateTime: { numberFormat: "yyyy-mm-dd hh:mm", fontColor: INK },
} as const satisfies Record<string, Partial<CellStyle>>;

type CellStyleParts = Partial<CellStyle>;

/** The name of a look. */
export type LookName = keyof typeof LOOKS;

/** Cells of a sheet while it is put together, by address. */
export class SheetDraft {
  readonly cells: Record<string, NewCell> = {};

  /** Writes a constant; rows and columns count from 1. */
  put(row: number, column: number, value: CellValue, look: LookName = "text"): this {
    this.cells[cellAddress(row - 1, column - 1)] = { value, style: LOOKS[look] };
    return this;
  }

  /** Writes a formula in file form, without equals sign. */
  formula(row: number, column: number, text: string, look: LookName = "number"): this {
    this.cells[cellAddress(row - 1, column - 1)] = { formula: text, style: LOOKS[look] };
    return this;
  }

  /** Writes a formula that spills over `rows` by `columns` cells, one look for each column and one for each heading. */
  spill(
    row: number,
    column: number,
    text: string,
    rows: number,
    looks: readonly LookName[],
    heads: readonly LookName[] = [],
  ): this {
    const headLook = (c: number): CellStyleParts => LOOKS[heads[c] ?? "head"];
    for (let r = 0; r < rows; r += 1) {
      looks.forEach((look, c) => {
        this.cells[cellAddress(row - 1 + r, column - 1 + c)] = { style: r === 0 ? headLook(c) : LOOKS[look] };
      });
    }
    const range = {
      firstRow: row - 1,
      firstColumn: column - 1,
      lastRow: row + rows - 2,
      lastColumn: column + looks.length - 2,
    };
    this.cells[cellAddress(row - 1, column - 1)] = {
      formula: { text, kind: "dynamic", range },
      style: headLook(0),
    };
    return this;
  }

  /** Writes rows of constants, the first as heads of a table. */
  rows(
    row: number,
    column: number,
    heads: readonly string[],
    rows: readonly (readonly CellValue[])[],
    looks: readonly LookName[],
  ): this {
    heads.forEach((head, index) => this.put(row, column + index, head, "head"));
    rows.forEach((values, down) => {
      values.forEach((value, across) => {
        const look = looks[across] ?? "input";
        this.put(
          row + 1 + down,
          column + across,
          value,
          look === "input" && typeof value === "number" ? "inputNumber" : look,
        );
      });
    });
    return this;
  }
}
