import { describe, expect, it } from "vitest";
import { assertGust } from "../../../src/core/care/take-down";
import { TAKE_DOWN_GUST } from "../../../src/core/practice";

describe("take-down gust", () => {
  it("lies in Beaufort 5, fresh breeze, 8.0 to 10.7 m/s (WMO-No. 8)", () => {
    expect(TAKE_DOWN_GUST.value).toBeGreaterThanOrEqual(8);
    expect(TAKE_DOWN_GUST.value).toBeLessThanOrEqual(10.7);
  });

  it("lets gusts up to it pass and stops the rest", () => {
    expect(() => assertGust(0)).not.toThrow();
    expect(() => assertGust(10)).not.toThrow();
    expect(() => assertGust(15)).toThrow(expect.objectContaining({ code: "#N/A" }));
  });
});
