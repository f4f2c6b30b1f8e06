import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  comparable,
  plainSpaces,
  readAmount,
  readDateTime,
  readNumber,
  readQuantity,
  readTemperature,
} from "../../src/functions/read-text";

const numberOf = (text: string): number | string => {
  const reading = readNumber(text);
  return reading.kind === "number" ? reading.value : reading.kind;
};

describe("readNumber", () => {
  it.each<[string, number | string]>([
    ["14.90", 14.9],
    ["14,90", 14.9],
    ["1.234", 1.234],
    ["€ 14,90", "none"],
    ["$5", "none"],
    ["14.90 USD", "none"],
    ["1'234.50", 1234.5],
    ["1\u00a0234,5", 1234.5],
    ["1,234,567", 1234567],
    ["0,125", 0.125],
    [".5", 0.5],
    ["−3", -3],
    ["1e3", 1000],
    ["1,234", "ambiguous"],
    ["12,34,56", "none"],
    ["n/a", "none"],
    ["-", "none"],
    ["tbc", "none"],
    ["12 bags", "none"],
    ["", "none"],
    ["1e400", "none"],
  ])("reads %s as %s", (text, expected) => {
    expect(numberOf(text)).toBe(expected);
  });

  it("reads what JavaScript writes", () => {
    fc.assert(
      fc.property(fc.double({ min: -1e15, max: 1e15, noNaN: true }), (value) => {
        expect(numberOf(String(value))).toBe(value === 0 ? Number(String(value)) : value);
      }),
    );
  });
});

describe("readQuantity of wind", () => {
  const speed = (text: string): number | string => {
    const reading = readQuantity(text, "speed");
    return reading.kind === "quantity" ? reading.si : reading.kind;
  };

  // WMO-No. 8, Beaufort scale: force 0 below 0.3, 5 from 8.0 to 10.7, 6 from 10.8 to 13.8, 11 from 28.5 to 32.6 m/s.
  it.each<[string, number | string]>([
    ["0 bft", 0.2],
    ["5 bft", 10.7],
    ["6 bft", 13.8],
    ["6bft", 13.8],
    ["6 Beaufort", 13.8],
    ["Bft 6", 13.8],
    ["force 6", 13.8],
    ["11 bft", 32.6],
    ["12 bft", "none"],
    ["13 bft", "none"],
    ["5.5 bft", "unit"],
    ["6", "bare"],
    ["30 km/h", 30 / 3.6],
  ])("reads %s as %s", (text, expected) => {
    expect(speed(text)).toBe(expected);
  });

  it("follows the published law 0.836 B^1.5 at the middle of each force", () => {
    // WMO: v = 0.836 B^1.5; each end lies between the laws of its force and the next.
    for (let force = 1; force <= 11; force += 1) {
      const end = Number(speed(`${force} bft`));
      expect(end).toBeGreaterThan(0.836 * force ** 1.5);
      expect(end).toBeLessThan(0.836 * (force + 1) ** 1.5);
    }
  });

  it("reads no force where no wind is asked for", () => {
    expect(readQuantity("6 bft", "length").kind).toBe("unit");
  });

  it("reads megapascals", () => {
    expect(readQuantity("20 MPa", "pressure")).toEqual({ kind: "quantity", si: 2e7 });
  });
});

describe("readAmount", () => {
  it.each<[string, number | string]>([
    ["14.90", 14.9],
    ["€ 14,90", 14.9],
    ["14.90 USD", 14.9],
    ["£1,234.50", 1234.5],
    ["1.234,50 €", 1234.5],
    ["$5", 5],
    ["0.125 €", 0.125],
    ["1.2345 €", 1.2345],
    ["1.234.567 €", 1234567],
    ["1.234", 1.234],
    // A thousand and more, or one and a quarter: both are written so.
    ["1.234 €", "ambiguous"],
    ["€ 1.234", "ambiguous"],
    ["-12.500 EUR", "ambiguous"],
    ["1,234", "ambiguous"],
    ["1,234 €", "ambiguous"],
    ["€", "none"],
  ])("reads %s as %s", (text, expected) => {
    const reading = readAmount(text);
    expect(reading.kind === "number" ? reading.value : reading.kind).toBe(expected);
  });
});

describe("readQuantity", () => {
  it.each(["$5", "5 €", "£6 ft"])("takes no money for a length: %s", (text) => {
    expect(["none", "unit"]).toContain(readQuantity(text, "length").kind);
  });

  // Unit factors: NIST SP 811 (2008), Appendix B.
  it.each<[string, number]>([
    ["6 ft", 1.8288],
    ["6'2\"", 1.8796],
    ["6’2”", 1.8796],
    ["6′ 2″", 1.8796],
    ["6 ft 2 1/2 in", 1.8923],
    ["6'2½\"", 1.8923],
    ["6'2", 1.8796],
    ["72 in", 1.8288],
    ["180 cm", 1.8],
    ["1,80 m", 1.8],
    ["1 m 20 cm", 1.2],
    ["5 feet and 6 inches", 1.6764],
    ["12 1/2 inches", 0.3175],
    ["1/2 m", 0.5],
    ["6ft2", 1.8796],
    ["6ft2in", 1.8796],
  ])("reads %s", (text, metres) => {
    const reading = readQuantity(text, "length");
    expect(reading.kind).toBe(reading.kind === "bare" ? "bare" : "quantity");
    if (reading.kind === "quantity") expect(reading.si).toBeCloseTo(metres, 12);
  });

  it.each<[string, string]>([
    ["6", "bare"],
    ["5½", "bare"],
    ["6 furlongs", "unit"],
    ["6 kg", "unit"],
    ["2 in 6 ft", "none"],
    ["six feet", "none"],
    ["1,234 m", "ambiguous"],
    ["1/0 m", "none"],
    ["", "none"],
    ["6 ft x 4 ft", "unit"],
  ])("tells that %s is %s", (text, kind) => {
    expect(readQuantity(text, "length").kind).toBe(kind);
  });

  // Unit factors: NIST SP 811 (2008), Appendix B.
  it.each<[string, "area" | "volume", number]>([
    ["1.8 m3", "volume", 1.8],
    ["1,8m3", "volume", 1.8],
    ["1.8 m³", "volume", 1.8],
    ["2 FT3", "volume", 0.056633693184],
    ["2 m3, 50 L", "volume", 2.05],
    ["3 m2", "area", 3],
    ["10 ft2", "area", 0.9290304],
  ])("reads %s with its power as %s", (text, dimension, si) => {
    const reading = readQuantity(text, dimension);
    expect(reading.kind === "quantity" ? reading.si : reading.kind).toBeCloseTo(si, 12);
  });

  it("reads other dimensions by their own units only", () => {
    expect(readQuantity("3 m2", "volume").kind).toBe("unit");
    expect(readQuantity("3 m3", "length").kind).toBe("unit");
    expect(readQuantity("2 kg", "mass")).toEqual({ kind: "quantity", si: 2 });
    expect(readQuantity("30 mph", "speed")).toEqual({ kind: "quantity", si: 30 * 0.44704 });
    expect(readQuantity("2 h 30 min", "duration")).toEqual({ kind: "quantity", si: 9000 });
    expect(readQuantity("2 kg", "length").kind).toBe("unit");
  });

  it("never throws and never gives a number that is not finite", () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const reading = readQuantity(text, "length");
        if (reading.kind === "quantity") expect(Number.isFinite(reading.si)).toBe(true);
      }),
    );
  });
});

describe("readTemperature", () => {
  // t/C = (t/F - 32)/1.8: NIST SP 811 (2008).
  it.each([
    ["77 F", 25],
    ["25 °C", 25],
    ["-40F", -40],
    ["20", 20],
    ["0 C", 0],
    ["68 degrees fahrenheit", 20],
  ])("reads %s", (text, celsius) => {
    const reading = readTemperature(text);
    expect(reading.kind === "number" ? reading.value : Number.NaN).toBeCloseTo(celsius, 12);
  });

  it("refuses other units", () => {
    expect(readTemperature("300 K").kind).toBe("none");
  });
});

describe("readDateTime", () => {
  // Serial numbers of ECMA-376 Part 1, 18.17.4.1: 2008-01-01 is 39448; 1901-01-01 is 367 (Excel's 1900 date system).
  it.each([
    ["2008-01-01", 39448],
    ["1901-01-01", 367],
    ["2000-02-29", 36585],
    ["2008-01-01 12:00", 39448.5],
    ["2008-01-01T06:00:00", 39448.25],
  ])("reads %s", (text, serial) => {
    expect(readDateTime(text)).toEqual({ kind: "number", value: serial });
  });

  it.each(["2007-02-29", "2008-13-01", "2008-00-10", "2008-01-32", "2008-01-01 25:00", "1 May 2008"])(
    "refuses %s",
    (text) => {
      expect(readDateTime(text).kind).toBe("none");
    },
  );

  it("agrees with the platform's calendar on every day of two centuries", () => {
    for (let serial = 367; serial < 73050; serial += 1) {
      const iso = new Date(Date.UTC(1899, 11, 30 + serial)).toISOString().slice(0, 10);
      expect(readDateTime(iso)).toEqual({ kind: "number", value: serial });
    }
  });
});

it("makes texts comparable", () => {
  expect(comparable("  Half\u00a0Ellipse ")).toBe("half ellipse");
  expect(comparable("free-form_mix")).toBe("free form mix");
  expect(plainSpaces("a\u2003 b\u200b")).toBe("a b");
});
