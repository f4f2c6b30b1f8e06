import { describe, expect, it } from "vitest";
import { dateText, echo, otherUnits } from "../../src/functions/echo";
import type { Param } from "../../src/functions/param";

const length = { name: "height", kind: "length", text: "Height." } as const satisfies Param;
const width = { ...length, name: "width" } as const satisfies Param;
const sleeve = { ...length, name: "sleeve", unit: "in" } as const satisfies Param;
const balloon = { name: "balloon", kind: "balloon", text: "Size." } as const satisfies Param;

/** The parameter of a kind. */
function of(kind: "altitude" | "mass" | "volume" | "pressure" | "speed" | "duration" | "temperature"): Param {
  return { name: "value", kind, text: "Value." };
}

describe("echo", () => {
  // 1 ft = 0.3048 m and 1 in = 25.4 mm exactly: NIST SP 811 (2008), Appendix B; the rest is arithmetic.
  it.each<readonly [Param, unknown, string]>([
    [length, "6 ft", "6 ft = 1.83 m"],
    [length, 6, "6 m = 19 ft 8 in"],
    [length, "6", "6 m = 19 ft 8 in"],
    [length, "6'2\"", "6'2\" = 1.88 m"],
    [length, "6’2”", "6’2” = 1.88 m"],
    [length, "180 cm", "180 cm = 1.8 m = 5 ft 11 in"],
    [length, 0.5, "0.5 m = 19.7 in"],
    [sleeve, 60, "60 in = 1.52 m"],
    [balloon, 11, "11 in = 27.9 cm"],
    [balloon, "28 cm", "28 cm = 11 in"],
    // 1 ft = 0.3048 m: 250/0.3048 = 820.2
    [of("altitude"), 250, "250 m = 820 ft"],
    // 1 oz = 28.349 523 125 g
    [of("mass"), 12, "12 g = 0.423 oz"],
    [of("mass"), "2 lb", "2 lb = 907 g"],
    // 1 ft3 = 28.316 846 592 L
    [of("volume"), 50, "50 L = 1.77 ft3"],
    // 1 psi = 6.894 757 kPa
    [of("pressure"), 200, "200 bar = 2901 psi"],
    // 1 mi/h = 0.447 04 m/s
    [of("speed"), 8, "8 m/s = 17.9 mph"],
    [of("speed"), "30 mph", "30 mph = 13.4 m/s"],
    [of("duration"), 2.5, "2.5 h = 2 h 30 min"],
    // t/F = 1.8 t/C + 32
    [of("temperature"), 25, "25 C = 77 F"],
    [of("temperature"), "77 F", "77 F = 25 C"],
    [{ name: "tax", kind: "share", text: "Tax." }, 0.2, "0.2 = 20%"],
    [{ name: "tax", kind: "share", text: "Tax." }, "3%", "3% = 0.03"],
    [{ name: "price", kind: "money", text: "Price." }, "14,90", "14,90 = 14.9"],
    // 1900 date system: serial 25569 is 1970-01-01, a fact of the Unix epoch
    [{ name: "ready", kind: "datetime", text: "Ready." }, 25569.75, "25569.75 = 1970-01-01 18:00"],
  ])("%j with %j", (param, value, text) => {
    expect(echo(param, value)?.text).toBe(text);
  });

  it.each<readonly [Param, unknown]>([
    [length, ""],
    [length, null],
    [length, "tall"],
    [length, -1],
    [length, [[6]]],
    [{ name: "count", kind: "count", text: "Count." }, 12],
    [{ name: "tied", kind: "flag", text: "Tied." }, true],
    [{ name: "word", kind: "text", text: "Word." }, "12 ft"],
    [{ name: "ready", kind: "datetime", text: "Ready." }, "2027-06-19 18:30"],
  ])("says nothing about %j with %j", (param, value) => {
    expect(echo(param, value)).toBeUndefined();
  });

  it("asks about feet only where a bare height is taller than 12 m", () => {
    expect(echo(length, 15)?.note).toBe('few pieces are that tall; did you mean feet? then type "15 ft"');
    expect(echo(length, "15")?.note).toContain("15 ft");
    for (const [param, value] of [
      [length, 12],
      [length, "15 m"],
      [length, "15 ft"],
      [width, 15],
      [of("altitude"), 250],
    ] as const) {
      expect(echo(param, value)?.note).toBeUndefined();
    }
  });
});

it("gives a result in the units of the other half of the world", () => {
  expect(otherUnits("m", 1.8288)).toBe("6 ft");
  expect(otherUnits("in", 60)).toBe("1.52 m");
  expect(otherUnits("count", 5)).toBeUndefined();
});

it("writes a date serial as a calendar date", () => {
  expect(dateText(25569)).toBe("1970-01-01");
});
