import fc from "fast-check";
import { cellAddress, columnLetters } from "../../src/formula/address";
import type { CellEdit } from "../../src/sheet/engine-comparison";
import type { CellFormula, WorkbookModel } from "../../src/workbook/model";
import { FORMULA_GRAMMAR } from "./formula-grammar";
import {
  anyValue,
  HEADS,
  lists,
  NAMES,
  number,
  PRICES,
  ROWS,
  sheetCells,
  SHEETS,
  word,
} from "./random-cells";
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

/** Rows and columns that a formula is filled into. */
const FILLED = { rows: 5, columns: 2 };
const BLOCKS = 24;
const SPILLING = 6;

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
const typed = fc
  .constantFrom(
    "Data!B2*2",
    "SUM(Data!B:B)",
    "_xlfn.SEQUENCE(3)",
    "Data!A2:A4",
    'COUNTIF(Data!A:A,"a*")',
    "1/0",
    "F!A1+1",
  )
  .map((formula) => ({ formula }));
/** Mostly of the data; some of formulas, and some in the way of a spill or out of it. */
const edit: fc.Arbitrary<CellEdit> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      sheet: fc.constant(0),
      row: fc.integer({ min: 1, max: ROWS }),
      column: fc.nat(7),
      input: anyValue,
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      sheet: fc.constant(2),
      row: fc.nat(FILLED.rows),
      column: fc.integer({ min: 1, max: BLOCKS * FILLED.columns - 1 }),
      input: fc.oneof(anyValue, typed),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      sheet: fc.constant(3),
      row: fc.tuple(fc.nat(SPILLING - 1), fc.nat(3)).map(([index, row]) => index * 30 + row),
      column: fc.nat(1),
      input: fc.oneof(anyValue, fc.constant(null)),
    }),
  },
);
const spilling = fc.record({ formula: parts.array, isBlocked: fc.nat(5).map((die) => die === 0) });

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
    edits: fc.array(edit, { maxLength: 5 }),
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
      const f = formula({ rows: 0, columns: 0, end: 0 }).replace(
        /_xlfn\.ANCHORARRAY\([^)]*\)|Spills!/g,
        (found) => (found === "Spills!" ? "Data!" : "Data!$B$2"),
      );
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
      edits,
    };
  });
