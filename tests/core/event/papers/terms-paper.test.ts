import { describe, expect, it } from "vitest";
import { termLines } from "../../../../src/core/event/papers/terms-paper";
import { evening } from "./paper-jobs";

describe("terms", () => {
  it("lists every term with where it comes from", () => {
    const lines = termLines(evening(), "");
    expect(lines.find(({ term }) => term.term === "margin")).toMatchObject({ section: "price", from: "you" });
    expect(lines.find(({ term }) => term.term === "buffer")).toMatchObject({
      section: "work",
      from: "trade default",
    });
    expect(lines.find(({ term }) => term.term === "budget")?.section).toBe("price");
    expect(new Set(lines.map(({ term }) => term.term)).size).toBe(lines.length);
  });
});
