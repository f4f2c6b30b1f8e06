import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isPattern, wildcardSearch, wildcardTest } from "../../src/sheet/wildcards";

/** The pattern as a regular expression of the language, by the rules of Microsoft's page "Using wildcard characters". */
function expression(pattern: string): string {
  return pattern.replace(/~([*?~])|[\s\S]/gu, (sign, escaped?: string) => {
    if (escaped !== undefined) return `\\${escaped}`;
    if (sign === "*") return "[\\s\\S]*";
    if (sign === "?") return "[\\s\\S]";
    return sign.replace(/[.+^${}()|[\]\\]/g, "\\$&");
  });
}

const signs = fc.constantFrom("a", "b", "a", "*", "?", "~", ".");
const pattern = fc.array(signs, { maxLength: 8 }).map((all) => all.join(""));
const text = fc
  .array(fc.constantFrom("a", "b", "*", "?", "~", "."), { maxLength: 10 })
  .map((all) => all.join(""));

describe("a pattern", () => {
  it("fits the whole texts that the same regular expression fits", () => {
    fc.assert(
      fc.property(pattern, text, (wanted, within) => {
        expect(wildcardTest(wanted)(within)).toBe(new RegExp(`^${expression(wanted)}$`).test(within));
      }),
      { numRuns: 5000 },
    );
  });

  it("begins in a text where the same regular expression begins", () => {
    fc.assert(
      fc.property(pattern, text, fc.nat(10), (wanted, within, from) => {
        fc.pre(from <= within.length);
        const match = new RegExp(expression(wanted), "g");
        match.lastIndex = from;
        expect(wildcardSearch(wanted, within, from)).toBe(match.exec(within)?.index ?? -1);
      }),
      { numRuns: 5000 },
    );
  });

  // Microsoft's page "Using wildcard characters": sm?th, *east, fy91~?.
  it.each([
    ["sm?th", "smith", true],
    ["sm?th", "smooth", false],
    ["*east", "Northeast", true],
    ["*east", "eastern", false],
    ["fy91~?", "fy91?", true],
    ["fy91~?", "fy912", false],
    ["", "", true],
    ["", "a", false],
    ["a~", "a~", true],
    ["~a", "~a", true],
  ])("%s beside %s: %s", (wanted, within, fits) => {
    expect(wildcardTest(wanted)(within)).toBe(fits);
  });

  it("is one where a sign stands for others", () => {
    expect(["a*", "?", "~~"].map(isPattern)).toEqual([true, true, true]);
    expect(["", "a.b", "50%"].map(isPattern)).toEqual([false, false, false]);
  });
});
