import fc from "fast-check";
import { cellAddress, columnLetters } from "../../src/formula/address";
import type { CellEdit } from "../../src/sheet/engine-comparison";
import type { CellFormula, CellValue, WorkbookModel } from "../../src/workbook/model";
import { FORMULA_GRAMMAR } from "./formula-grammar";
import { type TestCell, workbookOf } from "./workbook-of";

/** How far a formula was filled from where it was written. */
interface Shift {
  readonly rows: number;
  readonly columns: number;
  /** The first column that the formula may not read on its own sheet, so that none waits for itself. */
  readonly end: number;
}

/** A formula, or a part of one, as it reads in each cell that it is filled into. */
type Written = (at: Shift) => string;
type Part = fc.Arbitrary<Written>;

const SHEETS = ["Data", "Price list", "F", "Spills"] as const;
const ROWS = 14;
/** Rows and columns that a formula is filled into. */
const FILLED = { rows: 5, columns: 2 };
const BLOCKS = 24;
const SPILLING = 6;

const NUMBERS = [
  0, 1, 2, 3, 5, 12, 23, -1, -1.5, 0.1, 0.2, 0.3, 0.7, 1.005, 2.675, 9.9, 1e3, 45_000, 46_023.75,
];
const ODD_NUMBERS = [1e15, 123_456_789_012_345_680, 1e-10, 1 / 3, -0.000_5, 1e300, 2 ** 53];
const WORDS = [
  "apple",
  "Apple",
  "pear",
  "Pear tart",
  "fig",
  "a*",
  "b?c",
  "x y",
  " lead",
  "Straße",
  "Ångström",
];
const ODD_WORDS = [
  "23",
  "1.5",
  "50%",
  "1e3",
  " 3",
  "12 ",
  "",
  "TRUE",
  "#N/A",
  "2026-01-05",
  "1/2",
  "~",
  '"',
  "1,5",
  "0",
];
const ERRORS = ["#N/A", "#DIV/0!", "#VALUE!", "#NUM!", "#REF!", "#NAME?"].map((error) => ({ error }));

const number = fc.oneof(
  { weight: 5, arbitrary: fc.constantFrom(...NUMBERS) },
  { weight: 1, arbitrary: fc.constantFrom(...ODD_NUMBERS) },
  { weight: 3, arbitrary: fc.integer({ min: -200, max: 2000 }).map((cents) => cents / 100) },
);
const word = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...WORDS) },
  { weight: 1, arbitrary: fc.constantFrom(...ODD_WORDS) },
);
const anyValue: fc.Arbitrary<CellValue> = fc.oneof(
  { weight: 4, arbitrary: number },
  { weight: 4, arbitrary: word },
  { weight: 1, arbitrary: fc.boolean() },
  { weight: 1, arbitrary: fc.constantFrom(...ERRORS) },
  { weight: 2, arbitrary: fc.constant(null) },
);

const always =
  (text: string): Written =>
  () =>
    text;

/** One corner of a reference: where it stands, and which of its axes stay there when the formula is filled. */
interface Corner {
  readonly row: number;
  readonly column: number;
  readonly isRowFixed: boolean;
  readonly isColumnFixed: boolean;
}

const corner = (first: number, last: number): fc.Arbitrary<Corner> =>
  fc.record({
    row: fc.nat(ROWS),
    column: fc.integer({ min: first, max: last }),
    isRowFixed: fc.boolean(),
    isColumnFixed: fc.boolean(),
  });

function cornerText({ row, column, isRowFixed, isColumnFixed }: Corner, at: Shift): string {
  const letters = columnLetters(column + (isColumnFixed ? 0 : at.columns));
  return `${isColumnFixed ? "$" : ""}${letters}${isRowFixed ? "$" : ""}${row + 1 + (isRowFixed ? 0 : at.rows)}`;
}

const cellOf = (prefix: string, columns: number): Part =>
  corner(0, columns).map((place) => (at) => prefix + cornerText(place, at));

/** A range whose corners are fixed, filled along or mixed, so that it may grow or turn over. */
const areaOf = (prefix: string, first: number, last: number): Part =>
  fc.tuple(corner(first, last), corner(first, last)).map(
    ([one, other]) =>
      (at) =>
        `${prefix}${cornerText(one, at)}:${cornerText(other, at)}`,
  );

/** A cell of an earlier column of formulas, or of the data where there is none. */
const earlier: Part = fc.tuple(corner(0, 60), fc.boolean()).map(([place, isFixed]) => (at) => {
  const last = at.end - 1 - place.column;
  if (last < 0) return `Data!${cornerText({ ...place, column: 1, isColumnFixed: true }, at)}`;
  const column = isFixed ? last : Math.max(0, last + 1 - FILLED.columns);
  return cornerText({ ...place, column, isColumnFixed: isFixed }, at);
});

const letter = fc.constantFrom(..."ABCDEFGH");
/** A column of the data: one length for all, as conditional sums and lookups want it. */
const listOf: Part = letter.map((name) => always(`Data!$${name}$2:$${name}$${ROWS}`));
const columnOf: Part = fc
  .tuple(letter, fc.constantFrom("fixed", "fixed", "whole", "long"))
  .map(([name, how]) =>
    always(
      how === "whole"
        ? `Data!$${name}:$${name}`
        : `Data!$${name}$1:$${name}$${how === "long" ? 3 * ROWS : ROWS}`,
    ),
  );

const PLAIN: Readonly<Record<string, Part>> = {
  number: number.map((value) => always(String(value).toUpperCase())),
  word: word.map((text) => always(`"${text.replaceAll('"', '""')}"`)),
  cell: fc.oneof(
    { weight: 6, arbitrary: cellOf("Data!", 7) },
    { weight: 1, arbitrary: cellOf("'Price list'!", 3) },
    { weight: 3, arbitrary: earlier },
  ),
  area: fc.oneof(
    { weight: 4, arbitrary: areaOf("Data!", 0, 7) },
    { weight: 2, arbitrary: areaOf("Data!", 1, 2) },
    { weight: 1, arbitrary: areaOf("'Price list'!", 0, 3) },
    { weight: 2, arbitrary: columnOf },
    {
      weight: 1,
      arbitrary: fc.constantFrom("Area", "Prices[Price]", "Prices[#All]", "Data!$2:$2").map(always),
    },
  ),
  list: listOf,
  column: columnOf,
  spill: fc.nat(SPILLING - 1).map((index) => always(`_xlfn.ANCHORARRAY(Spills!$A$${1 + index * 30})`)),
};

/** A line of the grammar: text with `<part>` where a part goes, and `«one|other»` where one of some texts goes. */
function lineOf(line: string, tie: (name: string) => Part): Part {
  const pieces = line.split(/(<\w+>|«[^»]*»)/).map((piece): Part => {
    if (piece.startsWith("«")) return fc.constantFrom(...piece.slice(1, -1).split("|")).map(always);
    return /^<\w+>$/.test(piece) ? tie(piece.slice(1, -1)) : fc.constant(always(piece));
  });
  return fc.tuple(...pieces).map((written) => (at) => written.map((piece) => piece(at)).join(""));
}

const parts = fc.letrec<Record<string, Written>>((tie) =>
  Object.fromEntries(
    Object.entries(FORMULA_GRAMMAR).map(([name, lines]): readonly [string, Part] => {
      const known = (part: string): Part => PLAIN[part] ?? (tie(part) as Part);
      const weighted = lines
        .trim()
        .split("\n")
        .map((line) => {
          const [, weight = "1", text = ""] = /^\s*(\d+) (.*)$/.exec(line) ?? [];
          return { weight: Number(weight), arbitrary: lineOf(text, known) };
        });
      return [
        name,
        fc.oneof({ withCrossShrink: true, maxDepth: 4, depthIdentifier: "formula" }, ...weighted),
      ];
    }),
  ),
) as Readonly<Record<"formula" | "array", Part>>;

const kind = fc.constantFrom<CellFormula["kind"]>(
  "normal",
  "normal",
  "normal",
  "normal",
  "normal",
  "dynamic",
  "array",
);
const block = fc.record({ formula: parts.formula, kind });
const many = <Value>(value: fc.Arbitrary<Value>, columns: number): fc.Arbitrary<Value[]> =>
  fc.array(value, { minLength: columns * ROWS, maxLength: columns * ROWS });

/** Columns as lists have them: words, two of numbers, anything, sorted numbers, days, anything again, nearly blank. */
const lists = fc.tuple(many(anyValue, 3), many(number, 3), many(word, 1)).map(([some, numbers, words]) => {
  const sorted = numbers.slice(2 * ROWS).sort((x, y) => x - y);
  return Array.from({ length: ROWS }, (_, row): CellValue[] => [
    words[row] ?? null,
    numbers[row] ?? null,
    numbers[ROWS + row] ?? null,
    some[row] ?? null,
    sorted[row] ?? null,
    46_000 + row,
    some[ROWS + row] ?? null,
    row % 5 === 0 ? (some[2 * ROWS + row] ?? null) : null,
  ]);
});
const edit = fc.record({ row: fc.nat(ROWS), column: fc.nat(7), input: anyValue });
const spilling = fc.record({ formula: parts.array, isBlocked: fc.nat(5).map((die) => die === 0) });

function sheetCells(rows: readonly (readonly CellValue[])[]): Record<string, TestCell> {
  return Object.fromEntries(
    rows.flatMap((line, row) =>
      line.flatMap((value, column) => (value === null ? [] : [[cellAddress(row, column), value] as const])),
    ),
  );
}

const HEADS = ["Item", "Price", "Qty", "Any", "Sorted", "Day", "Mixed", "Blank"];
const NAMES = [
  { name: "Rate", text: "Data!$B$3", isHidden: false },
  { name: "Area", text: `Data!$B$2:$C$${ROWS}`, isHidden: false },
  { name: "Half", text: "0.5", isHidden: false },
  { name: "Twice", text: "Data!$B$4*2", isHidden: false },
  { name: "Local", text: "Data!$C$5", sheet: SHEETS.indexOf("F"), isHidden: false },
];
const PRICES = {
  name: "Prices",
  sheet: 0,
  range: { firstRow: 0, lastRow: ROWS - 1, firstColumn: 0, lastColumn: 2 },
  columns: HEADS.slice(0, 3),
  headerRows: 1,
  totalsRows: 0,
};

/** A workbook of random formulas over random data, and edits of the data. */
export interface RandomWorkbook {
  readonly model: WorkbookModel;
  readonly edits: readonly CellEdit[];
}

/** How many formulas a random workbook has. */
export const FORMULAS_PER_WORKBOOK = BLOCKS * FILLED.rows * FILLED.columns + SPILLING;

/** Formulas filled down and right, so that neighbours are one formula, over lists of all kinds of cells. */
export const randomWorkbook: fc.Arbitrary<RandomWorkbook> = fc
  .record({
    data: lists,
    list: lists,
    blocks: fc.array(block, { minLength: BLOCKS, maxLength: BLOCKS }),
    spills: fc.array(spilling, { minLength: SPILLING, maxLength: SPILLING }),
    edits: fc.array(edit, { maxLength: 3 }),
  })
  .map(({ data, list, blocks, spills, edits }) => {
    const formulas: Record<string, TestCell> = {};
    for (const [index, { formula, kind: how }] of blocks.entries()) {
      const end = index * FILLED.columns;
      for (let rows = 0; rows < FILLED.rows; rows++) {
        for (let columns = 0; columns < FILLED.columns; columns++) {
          const address = cellAddress(rows, end + columns);
          const range = how === "array" ? { range: address } : {};
          formulas[address] = { f: formula({ rows, columns, end }), kind: how, ...range };
        }
      }
    }
    const spilled: Record<string, TestCell> = {};
    for (const [index, { formula, isBlocked }] of spills.entries()) {
      // Reads no formula, so that none waits for what reads it.
      const f = formula({ rows: 0, columns: 0, end: 0 }).replace(/_xlfn\.ANCHORARRAY\([^)]*\)/g, "Data!$B$2");
      spilled[cellAddress(index * 30, 0)] = { f, kind: "dynamic" };
      if (isBlocked) spilled[cellAddress(index * 30 + 1, 0)] = "in the way";
    }
    const [dataSheet, listSheet, formulaSheet, spillSheet] = SHEETS;
    const sheets = {
      [dataSheet]: sheetCells([HEADS, ...data.slice(1)]),
      [listSheet]: sheetCells(list.map((line) => line.slice(0, 4))),
      [formulaSheet]: formulas,
      [spillSheet]: spilled,
    };
    return {
      model: workbookOf(sheets, { names: NAMES, tables: [PRICES] }),
      edits: edits.map(({ row, ...at }) => ({ sheet: 0, row: row + 1, ...at })),
    };
  });
