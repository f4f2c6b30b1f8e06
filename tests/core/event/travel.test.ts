import { describe, expect, it } from "vitest";
import type { TermCells } from "../../../src/core/event/job";
import { resolvedTerms } from "../../../src/core/event/terms";
import { siteWindow } from "../../../src/core/event/travel";
import { jobOf } from "./job-builder";

const window = (given: Partial<TermCells>): number | undefined =>
  siteWindow(resolvedTerms(jobOf({ terms: given })));

describe("siteWindow", () => {
  it("lies between access and ready, on one day or into the next", () => {
    expect(window({ access: 10 / 24, ready: 14.5 / 24 })).toBeCloseTo(4.5 * 3600, 6);
    expect(window({ access: 23 / 24, ready: 1 / 24 })).toBeCloseTo(2 * 3600, 6);
    expect(window({ access: 46000.5, ready: 46001.25 })).toBeCloseTo(18 * 3600, 3);
  });

  it("is not known where one of them is not given", () => {
    expect(window({ ready: 0.5 })).toBeUndefined();
  });
});
