import { describe, expect, it } from "vitest";
import {
  centsUp,
  LARGEST_AMOUNT,
  fromCents,
  nearestCents,
  requireWholeCents,
} from "../../../src/core/price/amount";

describe("amounts in cents", () => {
  // Commercial rounding, half up; decimal values by hand.
  it.each([
    [1.005, 101],
    [0.125, 13],
    [19.99, 1999],
    [0.004951, 0],
    [0, 0],
  ])("rounds %s to %i cents", (amount, cents) => {
    expect(nearestCents(amount)).toBe(cents);
  });

  it("rounds up to the cent that reaches the amount, but not past one that is whole", () => {
    expect(centsUp(166.6666)).toBe(16667);
    expect(centsUp(0.1 + 0.2)).toBe(30);
  });

  it("gives cents back as money", () => {
    expect(fromCents(16667)).toBe(166.67);
  });

  it("refuses fractions of a cent where whole ones are meant, and amounts beyond all prices", () => {
    expect(requireWholeCents("round_to", 0.05)).toBe(5);
    expect(() => requireWholeCents("round_to", 0.005)).toThrow(/^round_to must be/);
    expect(() => nearestCents(LARGEST_AMOUNT * 2)).toThrow(/beyond/);
  });
});
