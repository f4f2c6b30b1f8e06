import { describe, expect, it } from "vitest";
import { awayOf, momentsOf } from "../../../src/core/event/event-stages";
import { resolvedTerms, type Terms } from "../../../src/core/event/terms";
import { jobOf, type Tables } from "./job-builder";

const terms = (typed: Tables["terms"]): Terms => resolvedTerms(jobOf({ terms: typed ?? {} }));

describe("momentsOf", () => {
  it("puts an end before ready on the next day, and access after ready on the day before", () => {
    const moments = momentsOf(terms({ ready: 0.75, end: 0.1, access: 0.9, "clear by": 0.2 }));
    expect(moments).toEqual({ ready: 1000.75, end: 1001.1, access: 999.9, clearBy: 1001.2, hasDates: false });
  });

  it("puts a time alone on the day of the event where ready has a date", () => {
    expect(momentsOf(terms({ ready: 46557.75, end: 0.9 }))).toMatchObject({ end: 46557.9, hasDates: true });
  });

  it("knows nothing where nothing is given", () => {
    expect(momentsOf(terms({}))).toEqual({
      ready: undefined,
      end: undefined,
      access: undefined,
      clearBy: undefined,
      hasDates: false,
    });
  });
});

describe("awayOf", () => {
  const moments = { ready: 10.6, end: 10.9, access: undefined, clearBy: undefined, hasDates: true };
  const loading = { stage: "loading", where: "shop", work: 1, people: 1, start: 10.2, end: 10.3 } as const;
  const back = { stage: "unloading back", where: "shop", work: 1, people: 1, start: 11, end: 11.1 } as const;

  it("lasts from loading to the last unloading, or to the end where nothing is collected", () => {
    expect(awayOf([loading, back], moments)).toEqual({ out: 10.2, back: 11.1 });
    expect(awayOf([loading], moments)).toEqual({ out: 10.2, back: 10.9 });
  });

  it("is not known without dates or hours", () => {
    expect(awayOf([loading, back], { ...moments, hasDates: false })).toBeUndefined();
    expect(awayOf([{ stage: "loading", where: "shop", work: 1, people: 1 }], moments)).toBeUndefined();
  });
});
