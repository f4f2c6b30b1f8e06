/** How a spreadsheet writes a call: what stands before the function's name, between arguments and inside an array. */
export interface FormulaStyle {
  /** In front of a function's own name. */
  readonly prefix: string;
  /** Between arguments. */
  readonly separator: string;
  /** Between the cells of one row of an array constant. */
  readonly across: string;
  /** Between the rows of an array constant. */
  readonly down: string;
  readonly decimal: "." | ",";
}

/** The namespace of every function in a cell of Excel: `=BLN.NAME(...)`. */
export const NAMESPACE = "BLN";

/** Formulas as a file keeps them and an English Excel shows them. */
export const EXCEL_STYLE: FormulaStyle = {
  prefix: `${NAMESPACE}.`,
  separator: ", ",
  across: ",",
  down: ";",
  decimal: ".",
};

/** The same where the comma is the decimal mark, so that the semicolon parts arguments. */
export const EXCEL_COMMA_STYLE: FormulaStyle = {
  ...EXCEL_STYLE,
  separator: "; ",
  across: "\\",
  decimal: ",",
};

/** Formulas of Excel as a person types them whose decimal mark is `decimal`. */
export function excelStyle(decimal: string): FormulaStyle {
  return decimal === "," ? EXCEL_COMMA_STYLE : EXCEL_STYLE;
}

/** The same functions where a name holds no dot. */
export const UNDERSCORE_STYLE: FormulaStyle = { ...EXCEL_STYLE, prefix: `${NAMESPACE}_` };

/** Names without a dot, with the comma as decimal mark. */
export const UNDERSCORE_COMMA_STYLE: FormulaStyle = { ...EXCEL_COMMA_STYLE, prefix: `${NAMESPACE}_` };

/** A number as a formula of this style writes it. */
export function numberText(value: number, style: FormulaStyle): string {
  return style.decimal === "," ? String(value).replace(".", ",") : String(value);
}
