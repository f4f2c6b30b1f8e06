import psychrolib from "psychrolib";
import { describe, expect, it } from "vitest";
import { moistAirDensity, saturationPressure } from "../../../src/core/gas/moist-air";
import { kelvinFromCelsius } from "../../../src/core/units";

describe("moist air", () => {
  psychrolib.SetUnitSystem(psychrolib.SI);

  // An ideal gas is 4e-4 to 6e-4 thinner than real air at these temperatures, most in the cold, where
  // CIPM-2007 is used beyond its range.
  it.each([
    [[15, 20, 25], 5e-4],
    [[0, 5, 10, 30, 40], 8e-4],
  ])("agrees at %j C with the ideal-gas density of psychrolib 1.1.1 within %d", (temperatures, tolerance) => {
    for (const celsius of temperatures)
      for (const pressure of [60000, 90000, 101325])
        for (const humidity of [0.01, 0.5, 1]) {
          const ratio = psychrolib.GetHumRatioFromRelHum(celsius, humidity, pressure);
          const expected = psychrolib.GetMoistAirDensity(celsius, ratio, pressure);
          const density = moistAirDensity(kelvinFromCelsius(celsius), pressure, humidity);
          expect(Math.abs(density / expected - 1)).toBeLessThan(tolerance);
        }
  });

  it("agrees with the saturation pressure of psychrolib 1.1.1 (Hyland & Wexler) within 5e-4", () => {
    for (const celsius of [5, 15, 25, 35]) {
      const expected = psychrolib.GetSatVapPres(celsius);
      expect(Math.abs(saturationPressure(kelvinFromCelsius(celsius)) / expected - 1)).toBeLessThan(5e-4);
    }
  });

  it("is lighter when damp and when warm", () => {
    expect(moistAirDensity(293.15, 101325, 1)).toBeLessThan(moistAirDensity(293.15, 101325, 0));
    expect(moistAirDensity(303.15, 101325, 0.5)).toBeLessThan(moistAirDensity(293.15, 101325, 0.5));
  });
});
