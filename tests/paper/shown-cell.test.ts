import { describe, expect, it } from "vitest";
import { shownCell } from "../../src/paper/shown-cell";

describe("shownCell", () => {
  // Number formats as ECMA-376 Part 1, 18.8.31 describes them.
  it.each([
    [1234.5, "#,##0.00", "1,234.50"],
    [0.4, "0%", "40%"],
    [46557.5, "yyyy-mm-dd hh:mm", "2027-06-19 12:00"],
    ["text", "0.00", "text"],
    [true, "General", "TRUE"],
    [null, "0", ""],
  ])("shows %s in %s as %s", (value, numberFormat, text) => {
    expect(shownCell(value, numberFormat)).toBe(text);
  });

  it("shows an error as its code", () => {
    expect(shownCell({ error: "#N/A" }, "0")).toBe("#N/A");
  });

  // ECMA-376 part 1, 18.17.4.1: day 0 of the 1904 system is 1904-01-01, 1,462 days after that of the 1900 system.
  it("shows dates of the 1904 system, and leaves its numbers", () => {
    expect(shownCell(0, "yyyy-mm-dd", true)).toBe("1904-01-01");
    expect(shownCell(12, "0.0", true)).toBe("12.0");
  });
});
