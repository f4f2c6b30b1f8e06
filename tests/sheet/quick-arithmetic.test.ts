import fc from "fast-check";
import { ArrayValueObject, NumberValueObject } from "@univerjs/engine-formula";
import { describe, expect, it } from "vitest";
import { decimalProduct, decimalSum } from "../../src/sheet/quick-arithmetic";
import { quickenArithmetic } from "../../src/sheet/univer-arithmetic";

/** A decimal number as whole steps, for exact arithmetic with big integers. */
function steps(value: number): { readonly steps: bigint; readonly decimals: number } | undefined {
  const match = /^(-?)(\d+)(?:\.(\d+))?$/.exec(String(value));
  if (match === null) return undefined;
  const [, sign = "", whole = "", fraction = ""] = match;
  return { steps: BigInt(`${sign}${whole}${fraction}`), decimals: fraction.length };
}

function fromSteps(count: bigint, decimals: number): number {
  return Number(`${count}e${-decimals}`) || 0;
}

const amount = fc
  .tuple(fc.integer({ min: -1e12, max: 1e12 }), fc.integer({ min: 0, max: 8 }))
  .map(([whole, decimals]) => Number(`${whole}e${-decimals}`) || 0);
const value = fc.oneof(amount, fc.double(), fc.constantFrom(0, -0, 0.1, 0.2, 1e15, 1e308, 5e-324, 2 ** 53));

describe("sums and products of decimals", () => {
  it("are what exact decimal arithmetic gives, rounded once", () => {
    fc.assert(
      fc.property(value, value, (a, b) => {
        const [left, right] = [steps(a), steps(b)];
        const sum = decimalSum(a, b);
        const product = decimalProduct(a, b);
        if (left === undefined || right === undefined) return;
        const decimals = Math.max(left.decimals, right.decimals);
        const whole = ({ steps: count, decimals: own }: typeof left): bigint =>
          count * 10n ** BigInt(decimals - own);
        if (sum !== undefined) expect(sum).toBe(fromSteps(whole(left) + whole(right), decimals));
        if (product !== undefined)
          expect(product).toBe(fromSteps(left.steps * right.steps, left.decimals + right.decimals));
      }),
      { numRuns: 5000 },
    );
  });

  it("are left to others where digits could be lost", () => {
    expect(decimalSum(0.1, 0.2)).toBe(0.3);
    expect(decimalProduct(1.1, 1.1)).toBe(1.21);
    expect(decimalSum(1 / 3, 1)).toBeUndefined();
    expect(decimalSum(1e10, 0.1)).toBeUndefined();
    expect(decimalProduct(0.0001, 3)).toBeUndefined();
    expect(decimalSum(Infinity, 1)).toBeUndefined();
    expect(Object.is(decimalSum(0.5, -0.5), 0)).toBe(true);
  });
});

it("gives what the engine's own decimal arithmetic gives, operation by operation and in sums", () => {
  const pairs = fc.sample(fc.tuple(value, value), { numRuns: 2000, seed: 7 });
  const lists = fc.sample(fc.array(value, { minLength: 1, maxLength: 30 }), { numRuns: 300, seed: 7 });
  const outcome = (): readonly unknown[] => [
    ...pairs.flatMap(([a, b]) => {
      const [left, right] = [NumberValueObject.create(a), NumberValueObject.create(b)];
      return [left.plus(right), left.minus(right), left.multiply(right)].map((result) => result.getValue());
    }),
    ...lists.map((list) =>
      ArrayValueObject.create({
        calculateValueList: [list.map((item) => NumberValueObject.create(item))],
        rowCount: 1,
        columnCount: list.length,
        unitId: "",
        sheetId: "",
        row: -1,
        column: -1,
      })
        .sum()
        .getValue(),
    ),
  ];
  const slow = outcome();
  quickenArithmetic();
  expect(outcome().map((item) => item || 0)).toEqual(slow.map((item) => item || 0));
});
