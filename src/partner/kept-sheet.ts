import { cellAddress, rangeAddress } from "../formula/address";
import { fileFormula } from "../formula/names";
import { type KeptFormula, type KeptFormulas, type KeptValue, readDetails, readPlace } from "./kept-formulas";

// The sheet is what a person reads, and the only carrier that every program tried hands on (LibreOffice, also by way of .ods,
// openpyxl, Gnumeric), so formulas are put back from it where the exact part is gone.

/** The sheet on which a person reads the kept formulas. */
export const KEPT_SHEET = "Kept formulas";

/** Columns of that sheet, and their widths in Excel's character units. What the last holds may go on to its right. */
export const KEPT_COLUMNS = [
  "Sheet",
  "Cell",
  "Filled",
  "Formula",
  "Value in this copy",
  "For putting back",
] as const;
export const KEPT_WIDTHS: readonly number[] = [20, 10, 14, 60, 24, 16];

/** Characters in one cell of what goes on: below Excel's 32,767. */
const MOST_CHARACTERS = 32_000;

/** The rows of the readable sheet, from A1 on. */
export function keptSheetRows({ taken, formulas }: KeptFormulas): readonly (readonly string[])[] {
  const rows = [
    [`Values stand in place of these formulas since ${taken.slice(0, 10)}.`],
    ["They can be put back as long as their cells keep the values below."],
    [],
    [...KEPT_COLUMNS],
    ...formulas.map((kept) => [
      kept.sheet,
      cellAddress(kept.row, kept.column),
      kept.range === undefined ? "" : rangeAddress(kept.range),
      kept.formula,
      String(kept.values[0]?.[0] ?? ""),
      ...cut(detailsText(kept)),
    ]),
  ];
  const width = Math.max(...rows.map((row) => row.length));
  return rows.map((row) => [...row, ...Array<string>(width - row.length).fill("")]);
}

/** The kept formulas that rows of such a sheet hold; undefined where they are none or one of them is damaged. */
export function readKeptSheet(rows: readonly (readonly unknown[])[]): KeptFormulas | undefined {
  const text = (cell: unknown): string =>
    cell === null || cell === undefined ? "" : String(cell as KeptValue);
  const heading = rows.findIndex((row) => KEPT_COLUMNS.every((title, at) => text(row[at]) === title));
  if (heading < 0) return undefined;
  const taken =
    /\d{4}-\d\d-\d\d/.exec(
      rows
        .slice(0, heading)
        .map((row) => text(row[0]))
        .join(" "),
    )?.[0] ?? "";
  const filled = rows.slice(heading + 1).filter((row) => row.some((cell) => text(cell) !== ""));
  const formulas = filled.map((row): KeptFormula | undefined => {
    const [sheet = "", cell = "", range = "", formula = "", , ...details] = row.map(text);
    const place = readPlace(cell, range === "" ? undefined : range);
    const rest = readDetails(parsed(details.join("")));
    return place && rest && { sheet, ...place, formula, ...rest };
  });
  const whole = formulas.filter((kept) => kept !== undefined);
  return whole.length === formulas.length && whole.length > 0 ? { taken, formulas: whole } : undefined;
}

/** The formula as the file stored it is left out where it follows from the typed one. */
function detailsText({ kind, stored, formula, values }: KeptFormula): string {
  const isPlain = stored === undefined || stored === fileFormula(formula.slice(1));
  return JSON.stringify({
    ...(kind && { kind }),
    ...(!isPlain && { stored }),
    values: values.map((row) => row.map(atFifteenDigits)),
  });
}

function atFifteenDigits(value: KeptValue): KeptValue {
  const rounded = typeof value === "number" ? Number(value.toPrecision(15)) : value;
  // The largest numbers would round to infinity.
  return rounded === Infinity || rounded === -Infinity ? value : rounded;
}

function cut(text: string): readonly string[] {
  return Array.from({ length: Math.ceil(text.length / MOST_CHARACTERS) }, (_, index) =>
    text.slice(index * MOST_CHARACTERS, (index + 1) * MOST_CHARACTERS),
  );
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}
