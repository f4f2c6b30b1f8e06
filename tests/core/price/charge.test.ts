import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chargeCents, checkChargeTerms } from "../../../src/core/price/charge";

describe("chargeCents", () => {
  it("P5: adds the tax, half a cent away from zero", () => {
    // By hand: 0.2 x 2141.83 = 428.366.
    expect(chargeCents(214183, { tax: 0.2 })).toEqual({
      off: 0,
      topUp: 0,
      before: 214183,
      taxed: 42837,
      total: 257020,
      ahead: 0,
    });
  });

  it("P6: rounds the deposit of odd cents away from zero", () => {
    // By hand: 301.67/2 = 150.835.
    expect(chargeCents(30167, { deposit: 0.5 }).ahead).toBe(15084);
  });

  it("takes the discount before the least charge, and the tax after it", () => {
    // By hand: 100 - 10 = 90, up to 95, a fifth more.
    expect(chargeCents(10000, { discount: 0.1, minimum: 95, tax: 0.2 })).toMatchObject({
      off: 1000,
      topUp: 500,
      before: 9500,
      total: 11400,
    });
    // With the tax inside: least 95 x 1.2 = 114; a sixth of it is tax.
    expect(chargeCents(12000, { discount: 0.1, minimum: 95, tax: 0.2, taxIncluded: true })).toMatchObject({
      off: 1200,
      topUp: 600,
      taxed: 1900,
      total: 11400,
    });
  });

  it("always has before tax + tax = total, and never less than the least charge", () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        fc.nat(1e8),
        share,
        share,
        fc.nat(5000),
        fc.boolean(),
        (subtotal, tax, discount, minimum, taxIncluded) => {
          const { before, taxed, total } = chargeCents(subtotal, { tax, discount, minimum, taxIncluded });
          expect(before + taxed).toBe(total);
          expect(before).toBeGreaterThanOrEqual(minimum * 100 - 1);
        },
      ),
    );
  });

  it("refuses shares outside their range", () => {
    expect(() => {
      checkChargeTerms({ discount: 1.2 });
    }).toThrow("discount must be from 0 to 1, found 1.2");
    expect(() => {
      checkChargeTerms({ minimum: -1 });
    }).toThrow("minimum must be 0 or more, found -1");
  });
});
