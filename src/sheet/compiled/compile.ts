import { MAX_TEXT } from "../../formula/address";
import type { CellValue } from "../../workbook/model";
import type { SheetValues } from "../column-values";
import { MAX_CELLS_READ } from "../translation";
import { Area } from "./areas";
import { ARITHMETIC } from "./arithmetic";
import {
  type AreaCode,
  type Code,
  type Compiler,
  isTable,
  notCompiled,
  NotCompiled,
  type ValueCode,
} from "./code";
import { CONDITIONAL_CALLS } from "./conditional-calls";
import { LOGICAL_CALLS } from "./logical-calls";
import { LOOKUP_CALLS } from "./lookup-calls";
import { NUMBER_CALLS } from "./number-calls";
import { isError, operandNumber, orderOf, operandText, VALUE_ERROR } from "./operands";
import { compileOurs } from "./our-calls";
import { isFixed, placeOf, rangeIn, type RelativeReference } from "./references";
import { needsUniver } from "./signals";
import { SUM_CALLS } from "./sum-calls";
import type { BinaryOperator, Tree } from "./tree";

/** The functions that are computed here, by name; all others are Univer's. */
const CALLS = { ...LOGICAL_CALLS, ...SUM_CALLS, ...CONDITIONAL_CALLS, ...LOOKUP_CALLS, ...NUMBER_CALLS };

/** What code looks into and calls. */
export interface CodeSurroundings extends Pick<Compiler, "ours" | "numberIn" | "fail" | "extent"> {
  readonly sheets: readonly SheetValues[];
}

/** Turns a formula into code for all cells that have it; undefined where Univer must compute it. */
export function compile(tree: Tree, surroundings: CodeSurroundings): Code | undefined {
  try {
    return new TreeCompiler(surroundings).any(tree);
  } catch (error) {
    if (error instanceof NotCompiled) return undefined;
    throw error;
  }
}

class TreeCompiler implements Compiler {
  readonly ours = (name: string) => this.surroundings.ours(name);
  readonly numberIn: Compiler["numberIn"] = (text) => this.surroundings.numberIn(text);
  readonly fail: Compiler["fail"] = (error, sentence) => this.surroundings.fail(error, sentence);

  constructor(private readonly surroundings: CodeSurroundings) {}

  get extent(): Compiler["extent"] {
    return this.surroundings.extent;
  }

  any(tree: Tree): Code {
    switch (tree.kind) {
      case "value": {
        const { value } = tree;
        return () => value;
      }
      case "reference":
        return this.area(tree);
      case "call":
        return this.call(tree.name, tree.args);
      case "unary":
        return tree.operator === "+"
          ? this.any(tree.operand)
          : signed(tree.operator, this.value(tree.operand));
      case "binary":
        return operation(tree.operator, this.value(tree.left), this.value(tree.right));
      case "array":
        return notCompiled("an array");
      case "nothing":
        return notCompiled("an argument is left out");
    }
  }

  value(tree: Tree): ValueCode {
    if (tree.kind === "reference") return this.cell(tree.reference);
    const code = this.any(tree);
    return (row, column) => {
      const result = code(row, column);
      if (result instanceof Area)
        return result.height === 1 && result.width === 1 ? result.at(0, 0) : needsUniver();
      return isTable(result) ? needsUniver() : result;
    };
  }

  area(tree: Tree): AreaCode {
    if (tree.kind !== "reference") return notCompiled("no reference");
    const { reference } = tree;
    const values = this.values(reference.sheet);
    const make = (row: number, column: number): Area => {
      const range = rangeIn(reference, { row, column }) ?? needsUniver();
      return new Area(values, range.firstRow, range.firstColumn, range.lastRow, range.lastColumn);
    };
    if (!isFixed(reference)) return (row, column) => this.bounded(make(row, column)) ?? needsUniver();
    const area = this.bounded(make(0, 0)) ?? notCompiled("it reads too many cells");
    return () => area;
  }

  /** An area that one formula may read. */
  private bounded(area: Area): Area | undefined {
    const { lastRow, lastColumn } = this.extent;
    const height = Math.min(area.lastRow, lastRow) - area.firstRow + 1;
    const width = Math.min(area.lastColumn, lastColumn) - area.firstColumn + 1;
    return Math.max(0, height) * Math.max(0, width) > MAX_CELLS_READ ? undefined : area;
  }

  /** The value of one cell. */
  private cell({ firstRow, firstColumn, sheet, isCell }: RelativeReference): ValueCode {
    if (!isCell) return notCompiled("a range for a value");
    const values = this.values(sheet);
    return (row, column) => {
      const [down, across] = [placeOf(firstRow, row), placeOf(firstColumn, column)];
      const value = values.get(down, across);
      if (value !== undefined && typeof value !== "symbol") return value;
      return new Area(values, down, across, down, across).settled(value);
    };
  }

  private values(sheet: number): SheetValues {
    return this.surroundings.sheets[sheet] ?? notCompiled("no such sheet");
  }

  private call(name: string, args: readonly Tree[]): Code {
    if (name.startsWith("BLN_")) {
      const fn = this.ours(name.slice("BLN_".length));
      return fn === undefined ? notCompiled("no function of ours") : compileOurs(fn, args, this);
    }
    const make = Object.hasOwn(CALLS, name) ? CALLS[name] : undefined;
    return make?.(args, this) ?? notCompiled(`${name} is Univer's`);
  }
}

function signed(operator: "-" | "%", operand: ValueCode): ValueCode {
  const hundred = ARITHMETIC["/"];
  return (row, column) => {
    const number = operandNumber(operand(row, column));
    if (typeof number !== "number") return number;
    return operator === "%" ? hundred(number, 100) : -number || 0;
  };
}

const TESTS: Readonly<Partial<Record<BinaryOperator, (order: number) => boolean>>> = {
  "=": (order) => order === 0,
  "<>": (order) => order !== 0,
  "<": (order) => order < 0,
  ">": (order) => order > 0,
  "<=": (order) => order <= 0,
  ">=": (order) => order >= 0,
};

function operation(operator: BinaryOperator, left: ValueCode, right: ValueCode): ValueCode {
  if (operator === "&") return joined(left, right);
  const test = TESTS[operator];
  if (test !== undefined) {
    return (row, column) => {
      const a = left(row, column);
      if (isError(a)) return a;
      const b = right(row, column);
      return isError(b) ? b : test(orderOf(a, b));
    };
  }
  const compute = ARITHMETIC[operator as keyof typeof ARITHMETIC];
  return (row, column): CellValue => {
    const a = operandNumber(left(row, column));
    if (typeof a !== "number") return a;
    const b = operandNumber(right(row, column));
    return typeof b === "number" ? compute(a, b) : b;
  };
}

function joined(left: ValueCode, right: ValueCode): ValueCode {
  return (row, column) => {
    const a = operandText(left(row, column));
    if (typeof a !== "string") return a;
    const b = operandText(right(row, column));
    if (typeof b !== "string") return b;
    return a.length + b.length > MAX_TEXT ? VALUE_ERROR : a + b;
  };
}
