import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fittedNumber } from "../../src/paper/number-fit";

/** A typewriter: every sign is one unit wide. */
const signs = (text: string): number => text.length;

describe("a number in a cell", () => {
  it("is shown whole where it fits and as signs where it does not", () => {
    expect(fittedNumber({ text: "1,234,567.89" }, 12, signs)).toBe("1,234,567.89");
    expect(fittedNumber({ text: "1,234,567.89" }, 11, signs)).toBe("###########");
    expect(fittedNumber({ text: "19/06/2027" }, 3, signs)).toBe("###");
    expect(fittedNumber({ text: "12" }, 0, signs)).toBe("#");
  });

  it("loses decimals first where no format asks for them, rounded and never cut", () => {
    // 2/3 to two decimals is 0.67, not 0.66.
    expect(fittedNumber({ text: "0.6666666666666666", general: 2 / 3 }, 4, signs)).toBe("0.67");
    expect(fittedNumber({ text: "1234.5", general: 1234.5 }, 4, signs)).toBe("1235");
    expect(fittedNumber({ text: "1234.5", general: 1234.5 }, 3, signs)).toBe("###");
    expect(fittedNumber({ text: "0.000001234", general: 0.000001234 }, 4, signs)).toBe("####");
    expect(fittedNumber({ text: "1e+21", general: 1e21 }, 4, signs)).toBe("####");
  });

  it("never shows digits of another number", () => {
    fc.assert(
      fc.property(
        fc.double({ noNaN: true, noDefaultInfinity: true }),
        fc.integer({ min: 1, max: 20 }),
        (value, width) => {
          const shown = fittedNumber({ text: String(value), general: value }, width, signs);
          if (shown.startsWith("#")) return;
          // Half a unit of the last digit that is shown.
          const decimals = shown.includes("e") ? 99 : (shown.split(".")[1] ?? "").length;
          const slack = shown === String(value) ? 0 : 0.5 * 10 ** -decimals * (1 + 1e-6);
          expect(Math.abs(Number(shown) - value)).toBeLessThanOrEqual(slack);
          expect(shown.length).toBeLessThanOrEqual(width);
        },
      ),
    );
  });
});
