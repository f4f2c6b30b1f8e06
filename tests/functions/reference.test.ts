import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { catalogue, functionNamed, offered } from "../../src/functions/catalogue";
import {
  argumentText,
  formulaText,
  readmeTable,
  readmeWithTable,
  signature,
} from "../../src/functions/reference";

const column = functionNamed("COUNT_COLUMN");
if (column === undefined) throw new Error("COUNT_COLUMN is missing");

describe("reference", () => {
  it("writes a signature with defaults in brackets", () => {
    expect(signature(column)).toBe("BLN.COUNT_COLUMN(height, balloon, [per_cluster=4], [spacing=0.8])");
  });

  it.each([
    [1.8, "1.8"],
    ["6'2\"", '"6\'2"""'],
    [true, "TRUE"],
    [null, ""],
    [[1, 2], "{1,2}"],
    [
      [
        [1, "a"],
        [2, null],
      ],
      '{1,"a";2,""}',
    ],
  ])("writes the argument %j as Excel does", (argument, text) => {
    expect(argumentText(argument)).toBe(text);
  });

  it("leaves closing empty arguments out of a formula and keeps the place of others", () => {
    expect(formulaText(column, [1.8, 10, null, null])).toBe("=BLN.COUNT_COLUMN(1.8, 10)");
    expect(formulaText(column, [1.8, 10, null, 0.9])).toBe("=BLN.COUNT_COLUMN(1.8, 10, , 0.9)");
  });

  it("finds a function by name in any case", () => {
    expect(functionNamed("count_column")).toBe(column);
    expect(functionNamed("nothing")).toBeUndefined();
  });

  it("has every function in the README, made from the catalogue", () => {
    const readme = readFileSync("README.md", "utf8");
    expect(readmeWithTable(readme, catalogue), "run npm run docs").toBe(readme);
    for (const fn of offered) expect(readmeTable(catalogue)).toContain(`BLN.${fn.name}(`);
  });

  it("says what is missing where the marks are gone", () => {
    expect(() => readmeWithTable("# nothing", catalogue)).toThrow(/README.md must hold/);
  });
});
