import { cellAddress, type CellRange, parseCell, parseRange, rangeAddress } from "../formula/address";
import { dataPart, partData } from "../workbook/data-part";

// What a partner copy keeps of the formulas it turned into values. Pane, page and command write and read the same.

/** Namespace of the custom XML part that holds the kept formulas. */
export const KEPT_NAMESPACE = "urn:balloon-decor-functions:kept-formulas";

/** A value as a cell shows it; an error is its code, blank is the empty text. */
export type KeptValue = number | string | boolean;

/** A formula that a partner copy turned into its value. */
export interface KeptFormula {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  /** As a person types it, with its equals sign. */
  readonly formula: string;
  /** As the file stored it, without an equals sign, where the copy was made from a file. */
  readonly stored?: string;
  /** `array`: entered with Ctrl+Shift+Enter; `dynamic`: spills; absent for any other. */
  readonly kind?: "array" | "dynamic";
  /** What the formula filled, its own cell included; absent for one cell. */
  readonly range?: CellRange;
  /** What stands in these cells instead, rows of cells. */
  readonly values: readonly (readonly KeptValue[])[];
}

/** All that one copy keeps. */
export interface KeptFormulas {
  /** When the copy was made, ISO 8601. */
  readonly taken: string;
  readonly formulas: readonly KeptFormula[];
}

/** The cells that a kept formula filled. */
export function keptRange({ row, column, range }: Pick<KeptFormula, "row" | "column" | "range">): CellRange {
  return range ?? { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
}

/** The custom XML part of kept formulas. */
export function keptPart({ taken, formulas }: KeptFormulas): string {
  return dataPart(KEPT_NAMESPACE, {
    taken,
    formulas: formulas.map(({ sheet, row, column, range, ...rest }) => ({
      sheet,
      cell: cellAddress(row, column),
      ...(range && { range: rangeAddress(range) }),
      ...rest,
    })),
  });
}

/** The kept formulas of such a part; undefined where it is damaged or from something else. */
export function readKeptPart(xml: string): KeptFormulas | undefined {
  const data = partData(KEPT_NAMESPACE, xml);
  if (!isRecord(data) || typeof data["taken"] !== "string" || !Array.isArray(data["formulas"]))
    return undefined;
  const formulas = data["formulas"].map(readKept);
  const whole = formulas.filter((kept) => kept !== undefined);
  return whole.length === formulas.length ? { taken: data["taken"], formulas: whole } : undefined;
}

function isRecord(data: unknown): data is Readonly<Record<string, unknown>> {
  return typeof data === "object" && data !== null && !Array.isArray(data);
}

function isKeptValue(value: unknown): value is KeptValue {
  return (
    typeof value === "string" ||
    typeof value === "boolean" ||
    (typeof value === "number" && Number.isFinite(value))
  );
}

/** What is kept of a formula beside its place and text; undefined where it is damaged. */
export function readDetails(data: unknown): Pick<KeptFormula, "stored" | "kind" | "values"> | undefined {
  if (!isRecord(data)) return undefined;
  const { stored, kind, values } = data;
  const rows: readonly unknown[] = Array.isArray(values) ? values : [];
  const isWhole =
    rows.length > 0 && rows.every((row) => Array.isArray(row) && row.length > 0 && row.every(isKeptValue));
  if (!isWhole) return undefined;
  return {
    ...(typeof stored === "string" && { stored }),
    ...((kind === "array" || kind === "dynamic") && { kind }),
    values: rows as readonly (readonly KeptValue[])[],
  };
}

/** A formula's place and what it filled, from addresses; undefined where one is none. */
export function readPlace(
  cell: unknown,
  range: unknown,
): Pick<KeptFormula, "row" | "column" | "range"> | undefined {
  const place = typeof cell === "string" ? parseCell(cell) : undefined;
  const filled = typeof range === "string" ? parseRange(range) : undefined;
  if (place === undefined || (range !== undefined && filled === undefined)) return undefined;
  return { ...place, ...(filled && { range: filled }) };
}

function readKept(data: unknown): KeptFormula | undefined {
  if (!isRecord(data)) return undefined;
  const { sheet, cell, formula, range } = data;
  const place = readPlace(cell, range);
  const details = readDetails(data);
  if (typeof sheet !== "string" || typeof formula !== "string") return undefined;
  return place && details && { sheet, ...place, formula, ...details };
}
