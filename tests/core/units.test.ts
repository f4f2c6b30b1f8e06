import { describe, expect, it } from "vitest";
import {
  celsiusFromFahrenheit,
  fromSi,
  kelvinFromCelsius,
  toSi,
  unitNamed,
  UNITS,
  type UnitSymbol,
} from "../../src/core/units";

describe("UNITS", () => {
  // NIST SP 811 (2008), Appendix B: exact factors, and psi to the digits given there.
  it.each<[UnitSymbol, number]>([
    ["in", 0.0254],
    ["ft", 0.3048],
    ["yd", 0.9144],
    ["oz", 0.028349523125],
    ["lb", 0.45359237],
    ["ft3", 0.028316846592],
    ["mph", 0.44704],
    ["kn", 0.5144444444444445],
    ["psi", 6894.757293168361],
    ["lbf", 4.4482216152605],
  ])("has %s as published", (symbol, si) => {
    expect(UNITS[symbol].si).toBe(si);
  });

  it.each(Object.keys(UNITS) as UnitSymbol[])("converts %s there and back", (symbol) => {
    expect(fromSi(toSi(7.25, symbol), symbol)).toBeCloseTo(7.25, 12);
    expect(unitNamed(symbol)).toBe(symbol);
  });
});

it.each([
  ["Feet", "ft"],
  ["ins.", "in"],
  ["LITRES", "L"],
  ["km/h", "km/h"],
  ["kg", "kg"],
  ["sq ft", "ft2"],
  ["cu ft", "ft3"],
])("knows the spelling %s", (word, symbol) => {
  expect(unitNamed(word)).toBe(symbol);
});

it.each(["furlong", "", "constructor", "__proto__", "toString"])("does not know %s", (word) => {
  expect(unitNamed(word)).toBeUndefined();
});

it("converts temperatures by their definitions", () => {
  // ITS-90 and NIST SP 811: 0 C = 273.15 K; 212 F = 100 C.
  expect(kelvinFromCelsius(0)).toBe(273.15);
  expect(celsiusFromFahrenheit(212)).toBe(100);
});
