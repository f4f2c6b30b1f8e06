import { describe, expect, it } from "vitest";
import { attempt, required } from "../../src/core/attempt";
import { invalid, unavailable } from "../../src/core/calc-error";
import { withheld } from "../../src/core/withheld";

describe("attempt", () => {
  it("gives the number, or the sentence of what is missing with its place in front", () => {
    expect(attempt(() => 3)).toBe(3);
    const missing = attempt(() => {
      throw invalid("height", "be given", undefined);
    }, "pieces row 4");
    expect(missing).toEqual(withheld("pieces row 4: height must be given, found nothing"));
  });

  it("puts no second place in front of a sentence that names its row", () => {
    for (const sentence of ["pieces row 2: no", "price_list 2 row 7: no", "goods row 3 has no price"]) {
      const known = attempt(() => {
        throw unavailable(sentence);
      }, "pieces row 9");
      expect(known).toEqual(withheld(sentence));
    }
  });

  it("hands on faults that are none of the input's", () => {
    expect(() =>
      attempt(() => {
        throw new TypeError("a fault");
      }),
    ).toThrow(TypeError);
  });

  it("carries a withheld number through a computation", () => {
    const missing = withheld("pay must be given");
    expect(attempt(() => 2 * required(missing) + required(1))).toEqual(missing);
    expect(attempt(() => 2 * required(4) + required(1))).toBe(9);
  });
});
