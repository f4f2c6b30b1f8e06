import type { RelativeReference } from "./references";

/** An error that a formula spells out or computes. */
export interface ErrorValue {
  readonly error: string;
}

/** What a formula can spell out as a value. */
export type ConstantValue = number | string | boolean | ErrorValue;

/** A formula as a tree that all cells of a pattern share. */
export type Tree =
  | { readonly kind: "value"; readonly value: ConstantValue }
  | { readonly kind: "reference"; readonly reference: RelativeReference }
  | { readonly kind: "call"; readonly name: string; readonly args: readonly Tree[] }
  | {
      readonly kind: "binary";
      readonly operator: BinaryOperator;
      readonly left: Tree;
      readonly right: Tree;
    }
  | { readonly kind: "unary"; readonly operator: "-" | "+" | "%"; readonly operand: Tree }
  /** An array that the formula spells out, in rows of one length. */
  | { readonly kind: "array"; readonly rows: readonly (readonly ConstantValue[])[] }
  /** An argument that was left out. */
  | { readonly kind: "nothing" };

export type BinaryOperator = "+" | "-" | "*" | "/" | "^" | "&" | "=" | "<>" | "<" | ">" | "<=" | ">=";

/** How strongly operators bind, in Excel's order. */
export const BINDING: Readonly<Record<BinaryOperator, number>> = {
  "=": 1,
  "<>": 1,
  "<": 1,
  ">": 1,
  "<=": 1,
  ">=": 1,
  "&": 2,
  "+": 3,
  "-": 3,
  "*": 4,
  "/": 4,
  "^": 5,
};

/** A formula that means the same in all cells of its pattern. */
export interface PlainFormula {
  readonly tree: Tree;
  /** What it reads, in every cell. */
  readonly references: readonly RelativeReference[];
  /** Functions called, in capitals and without marks. */
  readonly calls: ReadonlySet<string>;
}
