import { describe, expect, it } from "vitest";
import { longAcross, longLength } from "../../../src/core/event/long-code";
import { inches } from "./job-builder";

describe("long balloons", () => {
  it("reads a 260 as 2 in across and 60 in long, a 160 as 1 in (common practice)", () => {
    expect(longAcross(260)).toBeCloseTo(inches(2), 12);
    expect(longAcross(160)).toBeCloseTo(inches(1), 12);
    expect(longLength({ code: 260 })).toBeCloseTo(inches(60), 12);
  });

  it("takes a printed length before the code, and knows none without either", () => {
    expect(longLength({ code: 260, printed: 1.2 })).toBe(1.2);
    expect(longLength({})).toBeUndefined();
  });
});
