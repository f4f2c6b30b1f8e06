import { expect, it } from "vitest";
import { LOGICAL_CASES } from "./call-cases";
import { LEFT_FORMULAS } from "./left-formulas";
import { LEFT, quickly } from "./quickly";

it.each(LOGICAL_CASES)("%s is %j", async (formula, value) => {
  expect(await quickly(formula)).toBe(value);
});

it.each(LEFT_FORMULAS.logical)("%s is left to Univer", async (formula) => {
  expect(await quickly(formula)).toBe(LEFT);
});
