import { ValueObjectFactory } from "@univerjs/engine-formula";
import { afterAll, expect, it } from "vitest";
import { UniverFormulas } from "../../src/sheet/univer-formulas";
import { workbookOf } from "./workbook-of";

// What it changes in Univer, it changes for the whole process.
const univer = new UniverFormulas(workbookOf({ S: {} }), [], () => undefined);
afterAll(() => {
  univer.dispose();
});

// From memory, ECMA-376 part 1, 18.17.2: a constant is digits with or without a point and an exponent; a sign or blanks around
// it come along from what the formula is cut into.
it.each([
  ["1.50", 1.5],
  ["007", 7],
  ["12.", 12],
  [".5", 0.5],
  [".25E2", 25],
  ["1E3", 1000],
  ["1e+12", 1e12],
  ["25e-02", 0.25],
  ["+7", 7],
  ["-7.0", -7],
  ["  42  ", 42],
])("%j in a formula is a number", (text, value) => {
  const made = ValueObjectFactory.create(text);
  expect(made.isNumber()).toBe(true);
  expect((made as unknown as { getValue(): number }).getValue()).toBe(value);
});

it.each(["x1", "1x", "1 2", "1.2.3", "e5", "1e", "1ee2", ".", "+", "--1", "1e5x", "pi 3"])(
  "%j is none",
  (text) => {
    expect(ValueObjectFactory.create(text).isNumber()).toBe(false);
  },
);
