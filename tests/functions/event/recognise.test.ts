import { describe, expect, it } from "vitest";
import { readJob } from "../../../src/functions/event/read-job";

const checks = (heading: unknown, ...cells: readonly unknown[]): readonly string[] =>
  readJob([
    [
      ["name", "kind", "printed", "height", "quantity", heading],
      ...cells.map((cell) => ["Door", "column", 11, 2, 1, cell]),
    ],
  ]).problems.flatMap(({ weight, what }) => (weight === "note" ? [] : [`${weight}: ${what}`]));

describe("columns that lost their heading", () => {
  const sentence = "check: pieces: column 6 without a heading is not read";

  it.each([null, "", 0, "#N/A", { error: "#REF!" }, { type: "Error", basicValue: "#REF!" }])(
    "are named where they hold words, with a heading of %j",
    (heading) => {
      expect(checks(heading, "outdoors", null)).toEqual([sentence]);
    },
  );

  it("are nobody's business where they hold nothing", () => {
    expect(checks(null, null, "")).toEqual([]);
    expect(checks(null, 0, null)).toEqual([]);
  });

  it("keep their own sentence where they hold numbers", () => {
    expect(checks(null, 12)).toEqual([
      "check: pieces: column 6 without a heading holds numbers that are not read",
    ]);
  });
});
