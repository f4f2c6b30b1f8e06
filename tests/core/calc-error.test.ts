import { describe, expect, it } from "vitest";
import { CalcError, invalid, overflow, shown, unavailable } from "../../src/core/calc-error";

describe("shown", () => {
  it.each<[unknown, string]>([
    [null, "nothing"],
    ["", "nothing"],
    [250, "250"],
    [-0, "0"],
    [0.1 + 0.2, "0.3"],
    [Number.NaN, "a value that is not a number"],
    [Number.POSITIVE_INFINITY, "a number without end"],
    [true, "TRUE"],
    ["n/a", '"n/a"'],
    ["x".repeat(50), `"${"x".repeat(40)}…"`],
    [[[1, 2]], "a range of 1 x 2 cells"],
    [{}, "an object"],
  ])("writes %o as %s", (value, text) => {
    expect(shown(value)).toBe(text);
  });
});

it("makes every bad-input sentence in one form", () => {
  const error = invalid("balloon", "be from 1 to 120 in", { written: "250 in" }, "type 25");
  expect(error).toBeInstanceOf(CalcError);
  expect(error.code).toBe("#VALUE!");
  expect(error.message).toBe("balloon must be from 1 to 120 in, found 250 in; type 25");
});

it("cuts a sentence that nobody reads to its end", () => {
  const { message } = invalid("x".repeat(280), "be a number", "n/a", "y".repeat(280));
  expect(message).toHaveLength(300);
  expect(message).toMatch(/^x{280} must be a number, …$/);
  expect(unavailable("z".repeat(300)).message).toBe("z".repeat(300));
});

it("has a code for no answer and one for too large", () => {
  expect(unavailable("no size works").code).toBe("#N/A");
  expect(overflow("too many balloons").code).toBe("#NUM!");
});
