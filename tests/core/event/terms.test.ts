import { describe, expect, it } from "vitest";
import { requiredTerm, resolvedTerms, TERM_NAMES, termOf } from "../../../src/core/event/terms";
import { jobOf } from "./job-builder";

describe("resolvedTerms", () => {
  it("has a default for what is common practice and none for what is the decorator's to say", () => {
    const terms = resolvedTerms(jobOf({}));
    // Common practice, no source.
    expect(TERM_NAMES.length).toBe(56);
    expect([terms.breakage.value, terms["breakage outdoors"].value, terms["breakage foil"].value]).toEqual([
      0.03, 0.1, 0.02,
    ]);
    expect(terms["day start"].value).toBeCloseTo(8 / 24, 12);
    expect(terms.breakage.origin).toBe("trade default");
    for (const name of ["pay", "travel", "distance", "per km", "margin", "crew"] as const)
      expect([terms[name].value, terms[name].origin]).toEqual([undefined, "not given"]);
  });

  it("lets the event win over the job, the job over past jobs, and those over the default", () => {
    const job = jobOf({
      terms: { pay: 20, breakage: 0.05 },
      events: [{ event: "Friday", pay: 25 }, { event: "Sunday" }],
    });
    const learned = {
      breakage: { value: 0.04, why: "3 past jobs" },
      pace: { value: 1.2, why: "3 past jobs" },
    };
    const friday = resolvedTerms(job, " friday", learned);
    expect([friday.pay.value, friday.pay.origin]).toEqual([25, "this event"]);
    expect([friday.breakage.value, friday.breakage.origin]).toEqual([0.05, "you"]);
    expect([friday.pace.value, friday.pace.origin, friday.pace.why]).toEqual([
      1.2,
      "past jobs",
      "3 past jobs",
    ]);
    expect(resolvedTerms(job, "Sunday", learned).pay.value).toBe(20);
  });

  it("does not know a term whose row cannot be read, nor any other where the term itself cannot be", () => {
    const value = resolvedTerms(jobOf({ termRows: [{ term: "pay", doubt: "pay must be 0 or more" }] }));
    expect(() => termOf(value, "pay")).toThrow("terms row 2: pay must be 0 or more");
    expect(termOf(value, "tax")).toBe(0);
    const name = resolvedTerms(jobOf({ terms: { tax: 0.2 }, termRows: [{ doubt: "term must be a term" }] }));
    expect(termOf(name, "tax")).toBe(0.2);
    expect(() => termOf(name, "discount")).toThrow("terms row 3: term must be a term");
  });

  it("does not know a term that stands twice with two values", () => {
    const twice = resolvedTerms(jobOf({ terms: { pay: 20 }, termRows: [{ term: "pay", value: 21 }] }));
    expect(() => termOf(twice, "pay")).toThrow("terms row 3: pay must stand once, as in terms row 2");
    const same = resolvedTerms(jobOf({ terms: { pay: 20 }, termRows: [{ term: "pay", value: 20 }] }));
    expect(termOf(same, "pay")).toBe(20);
  });

  it("says what must be given, and how to say that there is none", () => {
    const terms = resolvedTerms(jobOf({}));
    expect(() => requiredTerm(terms, "pay")).toThrow(
      "pay must be given in terms; type none if nobody is paid",
    );
    expect(() => requiredTerm(terms, "gust")).toThrow(/^gust must be given in terms$/);
  });
});
