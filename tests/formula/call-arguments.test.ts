import { expect, it } from "vitest";
import { argumentsAt } from "../../src/formula/call-arguments";
import { tokenize } from "../../src/formula/tokens";

const argumentTexts = (formula: string): readonly string[] => {
  const tokens = tokenize(formula);
  const open = tokens.findIndex(({ kind }) => kind === "open");
  return argumentsAt(tokens, open).map((argument) => argument.map(({ text }) => text).join(""));
};

it("parts the arguments of a call, not those of calls and arrays within it", () => {
  expect(argumentTexts("SUM(A1,B2:C3)")).toEqual(["A1", "B2:C3"]);
  expect(argumentTexts("SUM(MAX(1,2),{1,2;3,4},3)+MIN(4,5)")).toEqual(["MAX(1,2)", "{1,2;3,4}", "3"]);
  expect(argumentTexts('IF(A1="a,b",,2)')).toEqual(['A1="a,b"', "", "2"]);
});
