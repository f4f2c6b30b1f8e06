import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { brokenLines, MOST_CHARACTERS } from "../../../../src/core/event/papers/broken-lines";
import { paperLine } from "../../../../src/core/event/papers/paper";

describe("brokenLines", () => {
  it("leaves a short line as it is", () => {
    const row = paperLine("order", "11 in Navy", 2, "bags of 50", "9.90 each");
    expect(brokenLines([row])).toEqual([row]);
  });

  it("goes on below, with the amount and the status once", () => {
    const row = {
      ...paperLine("care", "Keep mouths away. ".repeat(6).trim(), 3, "m", "helium"),
      status: "stop: no",
    };
    expect(brokenLines([row])).toEqual([
      {
        section: "care",
        line: "Keep mouths away. Keep mouths away. Keep mouths away. Keep mouths",
        amount: 3,
        unit: "m",
        note: "helium",
        status: "stop: no",
      },
      {
        section: "care",
        line: "away. Keep mouths away. Keep mouths away.",
        amount: "",
        unit: "",
        note: "",
        status: "",
      },
    ]);
  });

  it("loses no word and no amount, and is short where words are", () => {
    const words = fc.array(fc.stringMatching(/^[a-z]{1,20}$/), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(words, words, fc.integer({ min: 1, max: 99 }), (line, note, amount) => {
        const rows = brokenLines([paperLine("care", line.join(" "), amount, "g", note.join(" "))]);
        expect(
          rows
            .map((row) => row.line)
            .join(" ")
            .trim(),
        ).toBe(line.join(" "));
        expect(
          rows
            .map((row) => row.note)
            .join(" ")
            .trim(),
        ).toBe(note.join(" "));
        expect(rows.filter((row) => row.amount !== "")).toHaveLength(1);
        for (const row of rows) {
          expect(row.line.length).toBeLessThanOrEqual(MOST_CHARACTERS.line);
          expect(row.note.length).toBeLessThanOrEqual(MOST_CHARACTERS.note);
        }
      }),
    );
  });
});
